"""The rings where they stand, glued and not yet turned."""

from __future__ import annotations

from app.core.forms import _turned_bottom as under
from app.core.forms._ring import Ring, Stack
from app.core.forms._turned import trapezoid
from app.core.solid import Piece, prism


def assembly(stack: Stack) -> tuple[Piece, ...]:
    """Every segment and the bottom; spares stay on the bench."""
    part = {(one.kind.first.number, one.species): one.part for one in stack.strips}
    found = [] if stack.bottom is None else [under.piece(stack.bottom)]
    for kind in stack.kinds:
        for ring in kind.rings:
            keys = {wood: part[kind.first.number, wood] for wood in kind.woods}
            found += _ring(stack, ring, keys)
    return tuple(found)


def _ring(stack: Stack, ring: Ring, keys: dict[str, str]) -> list[Piece]:
    first, each = stack.turn(ring), 360 / ring.segments
    return [
        Piece(
            keys[wood],
            (
                prism(
                    trapezoid(
                        ring.outer_edge,
                        ring.inner_edge,
                        ring.width,
                        ring.outside,
                        first + each * i,
                    ),
                    ring.low.nm,
                    ring.high.nm,
                    wood,
                ),
            ),
            f"Segment {i + 1} of ring {ring.number}",
        )
        for i, wood in enumerate(ring.woods)
    ]
