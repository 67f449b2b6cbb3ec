"""The carcass's finished pieces where they stand, its front towards the viewer."""

from __future__ import annotations

from collections.abc import Iterable

from app.core.forms._carcass import Carcass
from app.core.solid import Cell, Piece, block

Span = tuple[int, int]


def assembly(carcass: Carcass) -> tuple[Piece, ...]:
    """Sides, top, bottom, shelves, back and the strips on the front edges."""
    return (
        *_sides(carcass),
        *_ends(carcass),
        *_shelves(carcass),
        *_loose(carcass),
        *_back(carcass),
        *_edges(carcass),
    )


def _in_strips(
    cells: Iterable[Cell], count: int, start: int, wide: int, axis: int = 1
) -> tuple[Cell, ...]:
    """Cells cut where the strips of a panel meet; ``axis`` is across the strips."""
    found = list(cells)
    normal = (0.0, 1.0, 0.0) if axis == 1 else (1.0, 0.0, 0.0)
    against = (0.0, -1.0, 0.0) if axis == 1 else (-1.0, 0.0, 0.0)
    for i in range(1, count):
        at = start + wide * i / count
        here = (0.0, at, 0.0) if axis == 1 else (at, 0.0, 0.0)
        halves = ((cell.cut(normal, here), cell.cut(against, here)) for cell in found)
        found = [
            cell
            for low, high in halves
            # A cell on one side of the joint comes back whole, once.
            for cell in (low, high)
            if cell is not None
        ]
    return tuple(found)


def _board(carcass: Carcass, x: Span, y: Span, z: Span) -> Cell:
    (x0, x1), (y0, y1), (z0, z1) = x, y, z
    return block((x0, y0, z0), (x1, y1, z1), carcass.species)


def _sides(carcass: Carcass) -> Iterable[Piece]:
    wide, thick, deep = carcass.width.nm, carcass.thickness.nm, carcass.dado.nm
    front, back = carcass.edge.nm, carcass.depth.nm
    for name, outer, inner in (
        ("left", (0, thick - deep), (thick - deep, thick)),
        (
            "right",
            (wide - thick + deep, wide),
            (wide - thick, wide - thick + deep),
        ),
    ):
        cells = [_board(carcass, outer, (front, back), (0, carcass.height.nm))]
        # Between rebates and dadoes the side keeps its thickness.
        cells += [
            _board(carcass, inner, (front, back - carcass.behind.nm), (low.nm, high.nm))
            for low, high in carcass.openings
        ]
        strips = _in_strips(cells, carcass.strips, front, carcass.board_depth.nm)
        yield Piece("side", strips, f"{name} side")


def _across(carcass: Carcass) -> Span:
    """Where top, bottom and fixed shelves lie, from the left."""
    start = (carcass.thickness - carcass.dado).nm
    return start, start + carcass.shelf_length.nm


def _ends(carcass: Carcass) -> Iterable[Piece]:
    x, front, back = _across(carcass), carcass.edge.nm, carcass.depth.nm
    high, thick, deep = carcass.height.nm, carcass.thickness.nm, carcass.dado.nm
    inner = back - carcass.behind.nm
    for name, z, behind in (
        ("bottom", (0, thick), (0, thick - deep)),
        ("top", (high - thick, high), (high - thick + deep, high)),
    ):
        cells = [_board(carcass, x, (front, inner), z)]
        if carcass.has_back:
            cells.append(_board(carcass, x, (inner, back), behind))
        strips = _in_strips(cells, carcass.strips, front, carcass.board_depth.nm)
        yield Piece("top", strips, name)


def _shelves(carcass: Carcass) -> Iterable[Piece]:
    front = carcass.edge.nm
    back = front + carcass.shelf_depth.nm
    for number, (low, high) in enumerate(carcass.levels[1:-1], 1):
        cell = _board(carcass, _across(carcass), (front, back), (low.nm, high.nm))
        strips = _in_strips([cell], carcass.strips, front, back - front)
        yield Piece("shelf", strips, f"shelf {number}")


def _loose(carcass: Carcass) -> Iterable[Piece]:
    left, front = carcass.thickness.nm + carcass.play.nm, carcass.play.nm
    x = left, left + carcass.loose_length.nm
    y = front, front + carcass.loose_depth.nm
    for number, low in enumerate(carcass.loose_heights, 1):
        cell = _board(carcass, x, y, (low.nm, low.nm + carcass.thickness.nm))
        strips = _in_strips([cell], carcass.strips, front, y[1] - y[0])
        yield Piece("loose_shelf", strips, f"adjustable shelf {number}")


def _back(carcass: Carcass) -> Iterable[Piece]:
    if not carcass.has_back:
        return
    start = (carcass.thickness - carcass.dado + carcass.back_room).nm
    back = carcass.depth.nm
    cell = block(
        (start, back - carcass.behind.nm, start),
        (start + carcass.back_width.nm, back, start + carcass.back_height.nm),
        carcass.back_species,
    )
    strips = _in_strips(
        [cell], carcass.back_strips, start, carcass.back_width.nm, axis=0
    )
    yield Piece("back", strips, "back")


def _edges(carcass: Carcass) -> Iterable[Piece]:
    if not carcass.edge:
        return
    wide, thick, deep = carcass.width.nm, carcass.thickness.nm, carcass.edge.nm

    def strip(x: Span, z: Span) -> tuple[Cell, ...]:
        low, high = (x[0], 0, z[0]), (x[1], deep, z[1])
        return (block(low, high, carcass.edge_species),)

    for x in ((0, thick), (wide - thick, wide)):
        yield Piece("side_edge", strip(x, (0, carcass.height.nm)), "strip on a side")
    for low, high in carcass.levels:
        cells = strip((thick, wide - thick), (low.nm, high.nm))
        yield Piece("shelf_edge", cells, "strip on a shelf")
