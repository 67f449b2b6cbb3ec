"""Splines as solids, and the slots for them cut out of the walls."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from app.core.corner_splines import Corner, Splines
from app.core.geometry import tan
from app.core.solid import Cell, Piece, prism


def spline_pieces(
    splines: Splines, corners: Sequence[Corner], key: Callable[[int], str]
) -> tuple[Piece, ...]:
    """Every finished spline in its corner; ``key`` names the part of a row."""
    # Not half of the rounded edge: a spline's volume is the exact triangle's.
    deep, half = splines.depth.nm, splines.depth.nm / float(tan(splines.sides))
    found = []
    for number, corner in enumerate(corners):
        inwards, along = corner.inwards, (-corner.inwards[1], corner.inwards[0])
        floor = corner.x + inwards[0] * deep, corner.y + inwards[1] * deep
        one, other = (
            (floor[0] + along[0] * at, floor[1] + along[1] * at) for at in (-half, half)
        )
        # Anticlockwise from the outer corner: its inside lies to the left.
        outline = [(corner.x, corner.y), one, other]
        for row, (low, high) in enumerate(_levels(splines)):
            cell = prism(outline, low, high, splines.species[row])
            found.append(Piece(key(row), (cell,), f"corner {number + 1}"))
    return tuple(found)


def without_slots(
    cells: Iterable[Cell], splines: Splines, corners: Sequence[Corner]
) -> tuple[Cell, ...]:
    """What the slots at these corners leave of a wall's cells."""
    left = list(cells)
    for low, high in _levels(splines):
        for corner in corners:
            left = [
                part
                for cell in left
                for part in _slotted(cell, splines, low, high, corner)
            ]
    return tuple(left)


def _levels(splines: Splines) -> list[tuple[float, float]]:
    half = splines.thickness.nm / 2
    return [(height.nm - half, height.nm + half) for height in splines.heights]


def _slotted(
    cell: Cell, splines: Splines, low: float, high: float, corner: Corner
) -> list[Cell]:
    """A cell below the slot, above it, and what is inside of its floor between."""
    deep = splines.depth.nm
    out = (-corner.inwards[0], -corner.inwards[1], 0.0)
    floor = (corner.x - out[0] * deep, corner.y - out[1] * deep, 0.0)
    inside = cell.cut(out, floor)
    if inside is cell:
        return [cell]
    below = cell.cut((0, 0, 1), (0, 0, low))
    above = cell.cut((0, 0, -1), (0, 0, high))
    if below is cell or above is cell:
        return [cell]
    level = inside and inside.cut((0, 0, -1), (0, 0, low))
    level = level and level.cut((0, 0, 1), (0, 0, high))
    return [part for part in (below, level, above) if part]
