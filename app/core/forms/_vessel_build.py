"""The straight vessel put together: every finished piece where it stands."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise

from app.core import geometry
from app.core.corner_splines import regular_corners
from app.core.forms._spline_work import spline_key
from app.core.forms._strip_panels import part_key
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_plate import Plate
from app.core.forms._vessel_walls import groove_level, row_levels
from app.core.length import Length
from app.core.solid import Cell, Piece, prism
from app.core.spline_solids import spline_pieces, without_slots
from app.core.volume import share

XY = tuple[float, float]


def assembly(vessel: Vessel) -> tuple[Piece, ...]:
    """Walls, base, lid and splines; the lid is on."""
    lift = vessel.lift.nm
    found = [piece.moved(z=lift) for piece in _walls(vessel)]
    if vessel.splines:
        corners = regular_corners(vessel.sides, vessel.outside_side)
        key = partial(spline_key, vessel.splines)
        pieces = spline_pieces(vessel.splines, corners, key)
        found += [piece.moved(z=lift) for piece in pieces]
    if vessel.has_base:
        low = vessel.groove_up.nm
        found.append(_plate(vessel.plate("base"), low))
    return (*found, *_lid(vessel))


def _walls(vessel: Vessel) -> Iterable[Piece]:
    """One wall in front, without species, then every wall turned to its place."""
    cells = list(_front(vessel))
    for wall in range(vessel.sides):
        column = vessel.column(wall)
        made = tuple(replace(cell, species=column[row]) for row, cell in cells)
        piece = Piece(part_key(vessel.panels, wall), made, f"wall {wall + 1}")
        yield piece.turned(360 * wall / vessel.sides)


def _front(vessel: Vessel) -> Iterable[tuple[int, Cell]]:
    """The front wall's cells, each with the row it belongs to."""
    full = _section(vessel, vessel.wall)
    thin = _section(vessel, vessel.wall - vessel.groove_depth)
    groove = groove_level(vessel)
    corners = regular_corners(vessel.sides, vessel.outside_side)
    ends = corners[-1], corners[0]
    for row, (low, high) in enumerate(row_levels(vessel)):
        levels = sorted({low, high, *(z for z in groove if low < z < high)})
        cells = [
            prism(thin if groove[0] <= a and b <= groove[1] else full, a, b)
            for a, b in pairwise(levels)
        ]
        if vessel.splines:
            cells = list(without_slots(cells, vessel.splines, ends))
        yield from ((row, cell) for cell in cells)


def _section(vessel: Vessel, thick: Length) -> list[XY]:
    """The front wall seen from above, ``thick`` in from its outside."""
    out = vessel.outside_side.nm / 2 / float(geometry.tan(vessel.sides))
    half = vessel.outside_side.nm / 2
    inner = half - thick.nm * float(geometry.tan(vessel.sides))
    return [
        (-half, -out),
        (half, -out),
        (inner, thick.nm - out),
        (-inner, thick.nm - out),
    ]


def _lid(vessel: Vessel) -> Iterable[Piece]:
    """The lid on the walls and what drops inside them."""
    if not vessel.has_lid:
        return
    top = vessel.lift.nm + vessel.height.nm
    low = top - vessel.lid.lip.nm
    lid = vessel.plate("lid")
    if vessel.lid.kind == "plug":
        yield _plate(vessel.plate("plug"), low)
        yield _plate(lid, top)
        return
    lip = replace(lid, inscribed=vessel.plug_inscribed)
    cells = [
        *_cells(lip, low, top, lid.blank, lid.side),
        *_cells(lid, top, top + vessel.lid.thickness.nm, lid.blank, lid.side),
    ]
    yield Piece("lid", tuple(cells), "lid")


def _plate(plate: Plate, low: int) -> Piece:
    cells = _cells(plate, low, low + plate.thickness.nm, plate.blank, plate.side)
    return Piece(plate.key, tuple(cells), plate.name.lower())


def _cells(
    plate: Plate, low: int, high: int, blank: Length, side: Length
) -> list[Cell]:
    """A plate's strips, the first along side 1, which stands in front.

    ``blank`` and ``side`` are those of the plate the strips were glued up for.
    """
    corners = geometry.corners(plate.sides, plate.side)
    # The page's y runs down; here it runs to the back.
    outline: Sequence[XY] = [(x, -y) for x, y in reversed(corners)]
    front = -side.nm / 2 / float(geometry.tan(plate.sides))
    whole = prism(_anticlockwise(outline), low, high, plate.species)
    found, at = [], front
    for width in share(blank.nm, [1] * plate.strip_count):
        cell: Cell | None = whole.cut((0, -1, 0), (0, at, 0))
        cell = cell and cell.cut((0, 1, 0), (0, at + width, 0))
        if cell:
            found.append(cell)
        at += width
    return found


def _anticlockwise(points: Sequence[XY]) -> Sequence[XY]:
    twice = sum(
        a[0] * b[1] - b[0] * a[1]
        for a, b in zip(points, [*points[1:], points[0]], strict=True)
    )
    return points if twice > 0 else list(reversed(points))
