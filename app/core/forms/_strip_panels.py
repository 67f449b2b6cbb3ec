"""Panels of strips as a design's glue-ups, parts, set-ups, steps and tables.

Every side of one panel is the same part: ``wall`` where one panel serves, else
``wall_a``, ``wall_b``… in the order of the panels' letters.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._set_ups import rip, rip_strips
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.pattern import Column, Cut, Panel
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step

Shares = tuple[tuple[str, Fraction], ...]


def glue_ups(
    panels: Sequence[Panel],
    cut: Cut,
    widths: Sequence[Length],
    *,
    key: str = "wall_panel",
    name: str = "Wall panel",
) -> tuple[GlueUp, ...]:
    """The panels to glue up; none where a side is one plain strip.

    ``widths`` are the rows' finished widths, bottom up.
    """
    if len(widths) < 2:
        return ()
    return tuple(
        GlueUp(
            panel_key(panels, panel, key),
            f"{name} {panel.letter}" if len(panels) > 1 else name,
            panel.quantity,
            _strips(panel, cut, widths),
            Dimensions(panel.length, sum(widths, Length(0)), cut.thickness),
        )
        for panel in panels
    )


def panel_key(panels: Sequence[Panel], panel: Panel, key: str = "wall_panel") -> str:
    """The key of one panel's glue-up."""
    return f"{key}_{panel.letter.lower()}" if len(panels) > 1 else key


def _strips(panel: Panel, cut: Cut, widths: Sequence[Length]) -> tuple[Strip, ...]:
    rough = Dimensions(panel.length, cut.strip_width, cut.thickness)
    lie = groupby(zip(panel.column, widths, strict=True))
    return tuple(
        Strip(name, len(list(rows)), rough, finished) for (name, finished), rows in lie
    )


def side_parts(
    part: Part,
    panels: Sequence[Panel],
    *,
    key: str = "wall_panel",
    woods: Callable[[Column], Shares] | None = None,
) -> tuple[Part, ...]:
    """A side's part for each panel that sides come from, and the spares.

    ``part`` is one side: its quantity, species and panel are filled in here.
    ``woods`` gives the share of each species in a side of these strips; by their
    number where left out.
    """
    found = []
    for panel in panels:
        suffix = len(panels) > 1
        made = replace(
            part,
            key=f"{part.key}_{panel.letter.lower()}" if suffix else part.key,
            name=f"{part.name} {panel.letter}" if suffix else part.name,
            quantity=len(panel.sides),
            species=", ".join(dict.fromkeys(panel.column)),
            glue_up=panel_key(panels, panel, key) if len(panel.column) > 1 else "",
            woods=(woods or by_number)(panel.column) if len(panel.one) > 1 else (),
        )
        spare = replace(
            made,
            key=f"{part.key}-spare",
            name=f"Spare {part.name.lower()}",
            quantity=panel.spares,
            spare=True,
        )
        found += [one for one in (made, spare) if one.quantity]
    return tuple(found)


def by_number(column: Column) -> Shares:
    """Each species' share where every strip of a side holds as much wood."""
    one = dict.fromkeys(column)
    return tuple((name, Fraction(column.count(name), len(column))) for name in one)


def part_key(panels: Sequence[Panel], side: int, key: str = "wall") -> str:
    """The key of the part that this side is, sides from 0."""
    panel = next(panel for panel in panels if side in panel.sides)
    return f"{key}_{panel.letter.lower()}" if len(panels) > 1 else key


def rip_panels(panels: Sequence[GlueUp], shop: Shop, name: str = "wall") -> SetUp:
    """One rip for the strips of every panel: they are all of one rough width.

    Its key is ``rip-wall-panel`` for the name ``wall``.
    """
    if len(panels) == 1:
        return rip_strips(panels[0], shop)
    width = panels[0].strips[0].blank.width
    counts: dict[str, int] = {}
    for panel in panels:
        for strip in panel.strips:
            more = strip.quantity * panel.quantity
            counts[strip.species] = counts.get(strip.species, 0) + more
    listed = ", ".join(f"{count} of {wood}" for wood, count in counts.items())
    cuts = (
        f"Rip {sum(counts.values())} strips for the {name} panels, "
        f"{shop_text(width, shop)} wide: {listed}."
    )
    return rip(f"rip-{name}-panel", cuts, width, shop)


def panel_steps(
    panels: Sequence[GlueUp],
    shop: Shop,
    name: str = "wall",
    *,
    thickness: Length | None = None,
) -> list[Step]:
    """From the rip to planed panels, all of them together.

    ``thickness`` is what they are planed to; that of the panels where left out.
    """
    count = sum(strip.quantity * one.quantity for one in panels for strip in one.strips)
    many = sum(one.quantity for one in panels) > 1
    longest = max((one.panel for one in panels), key=lambda panel: panel.length)
    return bench.glued_panel(
        f"{name}-panel",
        f"{name} panels" if many else f"{name} panel",
        count,
        " ".join(_order(one, len(panels) > 1) for one in panels),
        shop,
        replace(longest, thickness=thickness or longest.thickness),
    )


def _order(panel: GlueUp, named: bool) -> str:
    names = [strip.species for strip in panel.strips for _ in range(strip.quantity)]
    start = f"{panel.name}, from" if named else "From"
    times = f" Make {panel.quantity}." if panel.quantity > 1 else ""
    return f"{start} the bottom up: {', '.join(names)}.{times}"
