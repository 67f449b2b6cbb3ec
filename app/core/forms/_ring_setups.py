"""The ring's machine set-ups, in the order they are made.

The strip is turned over after every cut, so that each cut makes the end of one
segment and of the next. The stop places the strip's tip and is swung away before
the blade turns: a short segment between blade and stop is never trapped. Common
practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _turned_bottom as under
from app.core.forms._bench import shop_text
from app.core.forms._ring import Kind, Stack
from app.core.forms._set_ups import mitre, rip, while_long
from app.core.setup import SetUp
from app.core.shop import Shop

HOLD = ("crosscut-sled.short-piece", "crosscut-sled.blade-leaves-the-sled")


def set_ups(stack: Stack, shop: Shop) -> tuple[SetUp, ...]:
    """A rip and a stop for every kind of ring; the gauge stays as it is."""
    found = [_rip(stack, kind, shop) for kind in stack.kinds]
    found += [_cut(stack, kind, shop) for kind in stack.kinds]
    if stack.bottom is not None:
        found += under.set_ups(stack.bottom, stack.allowances, shop)
    return tuple(found)


def counted(stack: Stack, kind: Kind) -> str:
    """``2 of walnut and 1 of maple``: the strips of one kind."""
    strips = stack.strips_of[kind.first.number]
    return " and ".join(f"{one.quantity} of {one.species}" for one in strips)


def _rip(stack: Stack, kind: Kind, shop: Shop) -> SetUp:
    width = shop_text(kind.first.width, shop)
    cuts = (
        f"Rip the strips for {kind.name} to {width} wide, {counted(stack, kind)}: both "
        "edges straight and parallel, or no two segments are alike."
    )
    shortest = min(one.length for one in stack.strips_of[kind.first.number])
    cuts += while_long(shortest, shop)
    return rip(f"rip-{kind.key}", cuts, kind.first.width, shop)


def _cut(stack: Stack, kind: Kind, shop: Shop) -> SetUp:
    ring = kind.first
    edge, count = shop_text(ring.outer_edge, shop), sum(kind.woods.values())
    spare = sum(one.spares for one in stack.strips_of[ring.number])
    more = f" and {spare} spare" if spare else ""
    kept = " The gauge stays as it is." if kind is not stack.kinds[0] else ""
    made = mitre(
        f"cut-{kind.key}",
        f"Cut {count} segments{more} for {kind.name}, {edge} along the outer edge."
        f"{kept} Cut the strip's end slanting first. Turn the strip over, its tip and "
        "longer edge on the gauge's fence, tip at a flip stop; clamp strip and segment "
        "down, swing the stop away, cut; turn it over again for each next one.",
        stack.gauge,
        ring.outer_edge,
        shop,
        face_down="either face in turn, the longer edge on the gauge's fence",
        check=_check(stack, edge),
    )
    return replace(made, cautions=tuple(dict.fromkeys((*made.cautions, *HOLD))))


def _check(stack: Stack, edge: str) -> str:
    closes = f"{stack.segments} test segments taped round dry close without a gap"
    if stack.halves:
        closes = (
            f"{stack.segments // 2} test segments taped together make half a ring "
            "whose ends lie on one straightedge"
        )
    return f"The first one is {edge} along its longer edge; {closes}."
