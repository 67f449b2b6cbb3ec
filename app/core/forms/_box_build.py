"""The box as solids: every finished piece where it stands.

The middle of the box is over the origin, the front towards the viewer at -y. Each
wall is built lying along x, its left end at nothing, and turned into its place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from app.core.corner_splines import Corner, rectangle_corners
from app.core.forms._box import Box, Dividers, Lid
from app.core.forms._box_parts import part_keys, stood_walls
from app.core.forms._box_walls import Wall
from app.core.forms._spline_work import spline_key
from app.core.solid import XYZ, Cell, Piece, block, prism
from app.core.spline_solids import spline_pieces, without_slots

PLACES = ("front", "right", "back", "left")


def assembly(box: Box) -> tuple[Piece, ...]:
    """Every finished piece, standing on the bench."""
    keys = part_keys(box)
    pieces = [_placed(box, wall, keys[wall]) for wall in stood_walls(box)]
    if splines := box.splines:
        corners = rectangle_corners(box.length, box.width)
        keys_of_rows = [spline_key(splines, i) for i in range(len(splines.heights))]
        pieces += spline_pieces(splines, corners, keys_of_rows.__getitem__)
    pieces.append(_base(box))
    if box.lid:
        pieces += _lid(box, box.lid)
    if box.dividers:
        pieces += _dividers(box, box.dividers)
    return tuple(piece.moved(z=box.under.nm) for piece in pieces)


def _placed(box: Box, wall: Wall, key: str) -> Piece:
    """Turned so that its outer face looks out, its left end first."""
    half, back = box.outer(wall.number).nm / 2, box.outer(wall.number + 1).nm / 2
    cells = tuple(
        prism(cell.outline, *cell.z, cell.species).moved(-half, -back)
        for cell in wall.cells()
    )
    if box.splines:
        # Before it is turned a wall lies in front: its corners are the front's.
        cells = without_slots(cells, box.splines, _ends(half, back))
    return Piece(key, cells, PLACES[wall.number]).mapped(_quarter(wall.number))


def _ends(half: float, back: float) -> tuple[Corner, Corner]:
    inwards = 0.5**0.5
    return (
        Corner(half, -back, (-inwards, inwards)),
        Corner(-half, -back, (inwards, inwards)),
    )


def _quarter(number: int) -> Callable[[XYZ], XYZ]:
    """A quarter turn for each wall, exactly."""
    turns: tuple[Callable[[XYZ], XYZ], ...] = (
        lambda p: p,
        lambda p: (-p[1], p[0], p[2]),
        lambda p: (-p[0], -p[1], p[2]),
        lambda p: (p[1], -p[0], p[2]),
    )
    return turns[number]


def _slab(x: float, y: float, low: float, high: float, species: str) -> Cell:
    """A block round the middle, ``x`` long and ``y`` wide."""
    return block((-x / 2, -y / 2, low), (x / 2, y / 2, high), species)


def _base(box: Box) -> Piece:
    size = box.base_size
    low = -box.under.nm if box.base == "under" else box.base_up.nm
    cell = _slab(
        size.length.nm, size.width.nm, low, low + size.thickness.nm, box.base_species
    )
    return Piece("base", (cell,), "base")


def _lid(box: Box, lid: Lid) -> Iterator[Piece]:
    size, top, wood = lid.size, box.wall_height.nm, lid.species
    long, wide = size.length.nm, size.width.nm
    if lid.groove:
        cell = _slab(long, wide, lid.groove.low.nm, lid.groove.high.nm, wood)
        yield Piece("lid", (cell,), "lid")
        return
    if lid.kind == "rebated":
        above = size.thickness.nm - lid.lip.nm
        plug = _slab(lid.plug[0].nm, lid.plug[1].nm, top - lid.lip.nm, top, wood)
        yield Piece("lid", (plug, _slab(long, wide, top, top + above, wood)), "lid")
        return
    yield Piece("lid", (_slab(long, wide, top, top + size.thickness.nm, wood),), "lid")
    batten = lid.batten
    one = _slab(batten.width.nm, batten.length.nm, top - batten.thickness.nm, top, wood)
    for sign in (-1, 1):
        yield Piece("batten", (one.moved(x=sign * lid.plug[0].nm / 4),), "batten")


def _dividers(box: Box, dividers: Dividers) -> Iterator[Piece]:
    """Those across stand whole below their slots, those along above theirs."""
    left, front = -box.inside_length.nm / 2, -box.inside_width.nm / 2
    low, high = box.base_top.nm, box.base_top.nm + dividers.height.nm
    middle = high - dividers.slot_down.nm
    thick = dividers.thickness.nm
    for start in dividers.across.starts:
        x = left + start.nm
        slots = [front + one.nm for one in dividers.along.starts]
        cells = _slotted(dividers, dividers.across.length.nm, slots, (middle, high))
        cells += [(*_whole(dividers.across.length.nm), low, middle)]
        yield Piece(
            "divider_across",
            tuple(
                block((x, a, c), (x + thick, b, d), dividers.species)
                for a, b, c, d in cells
            ),
            "divider",
        )
    for start in dividers.along.starts:
        y = front + start.nm
        slots = [left + one.nm for one in dividers.across.starts]
        cells = _slotted(dividers, dividers.along.length.nm, slots, (low, middle))
        cells += [(*_whole(dividers.along.length.nm), middle, high)]
        yield Piece(
            "divider_along",
            tuple(
                block((a, y, c), (b, y + thick, d), dividers.species)
                for a, b, c, d in cells
            ),
            "divider",
        )


def _whole(length: float) -> tuple[float, float]:
    return -length / 2, length / 2


def _slotted(
    dividers: Dividers, length: float, slots: list[float], z: tuple[float, float]
) -> list[tuple[float, float, float, float]]:
    """The stretches between slots, between two heights."""
    at, end = _whole(length)
    found = []
    for slot in slots:
        low = slot - dividers.room.nm / 2
        found.append((at, low, *z))
        at = low + dividers.slot.nm
    found.append((at, end, *z))
    return found
