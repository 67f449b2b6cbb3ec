"""The finished build as a picture: isometric, in its species' colours.

All three axes are drawn to one scale, 30 degrees apart from level (ISO 5456-3),
from above with the front at the left. What stands in front covers what is behind
it; what faces away from the light is darker, so that a grey print reads too.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import chain

from app.core.back_to_front import back_to_front
from app.core.drawing import PAGE_MM, Drawing, Label, Point, Shape
from app.core.face_lines import Lined, lined_faces
from app.core.length import Length, show
from app.core.seen import View
from app.core.shop import Shop
from app.core.solid import XYZ, Piece, dot

ROOT2, ROOT3, ROOT6 = math.sqrt(2), math.sqrt(3), math.sqrt(6)
VIEW = View(
    towards=(1 / ROOT3, -1 / ROOT3, 1 / ROOT3),
    right=(1 / ROOT2, 1 / ROOT2, 0.0),
    up=(-1 / ROOT6, 1 / ROOT6, 2 / ROOT6),
)
# Where the light comes from: above, before, and a little from the left.
LIGHT = (-0.27, -0.58, 0.77)
DARKEST, STEP = 30, 5  # percent of ink, on a face along the light
WIDE_MM, HIGH_MM, TOP_MM = 104.0, 88.0, 4.0


def isometric(
    pieces: Sequence[Piece],
    shop: Shop,
    *,
    key: str = "isometric",
    title: str = "The finished piece",
    apart: float = 0.0,
) -> Drawing:
    """Pieces where they stand, or each moved away from the middle.

    ``apart`` is by how much of its own distance a piece is moved outward: 0 for the
    build as it stands.
    """
    solids = back_to_front(_moved(pieces, apart), VIEW)
    faces = list(lined_faces(solids, VIEW.towards))
    outlines = [list(map(_on_page, face.corners)) for face in faces]
    xs = [x for outline in outlines for x, _ in outline]
    ys = [y for outline in outlines for _, y in outline]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    scale = max(wide / WIDE_MM, high / HIGH_MM)
    left = (PAGE_MM * scale - wide) / 2 - min(xs)
    top = TOP_MM * scale - min(ys)
    foot = TOP_MM + high / scale
    told = _over_all(pieces, shop)
    rows = [(told[0], foot + 6.5), *((row, foot + 11.5) for row in told[1:])]
    return Drawing(
        key=key,
        title=title,
        description=_words(pieces, " ".join(told), apart),
        width=Length(round(PAGE_MM * scale)),
        height=Length(round((rows[-1][1] + 3.5) * scale)),
        shapes=tuple(
            _placed(face, [(x + left, y + top) for x, y in outline])
            for face, outline in zip(faces, outlines, strict=True)
        ),
        labels=tuple(
            Label(Point(round(PAGE_MM * scale / 2), round(y * scale)), row, quiet=True)
            for row, y in rows
        ),
    )


def _placed(face: Lined, outline: list[tuple[float, float]]) -> Shape:
    return Shape(
        tuple(Point(round(x), round(y)) for x, y in outline),
        species=face.species or "wood",
        tone=_tone(face.normal),
        edges=tuple(face.pens),
    )


def _moved(pieces: Sequence[Piece], apart: float) -> Sequence[Piece]:
    if not apart:
        return pieces
    middles = []
    for piece in pieces:
        low, high = _bounds([piece])
        middles.append([(a + b) / 2 for a, b in zip(low, high, strict=True)])
    x, y, z = ((min(one) + max(one)) / 2 for one in zip(*middles, strict=True))
    return [
        piece.moved((a - x) * apart, (b - y) * apart, (c - z) * apart)
        for piece, (a, b, c) in zip(pieces, middles, strict=True)
    ]


def _bounds(pieces: Sequence[Piece]) -> tuple[list[float], list[float]]:
    """The least and the greatest of x, y and z."""
    faces = (face for piece in pieces for cell in piece.cells for face in cell.faces)
    axes = list(zip(*set(chain.from_iterable(faces)), strict=True))
    return [min(axis) for axis in axes], [max(axis) for axis in axes]


def _over_all(pieces: Sequence[Piece], shop: Shop) -> list[str]:
    """How wide, deep and high the whole is; in both systems, a line each."""
    low, high = _bounds(pieces)
    reach = [b - a for a, b in zip(low, high, strict=True)]
    told = [show(Length.nearest(one), shop.display) for one in reach]
    figures = " × ".join(one.figure for one in told)
    found = [f"{figures} {told[0].unit}: wide, deep, high"]
    if told[0].other:
        others = [one.other.rpartition(" ") for one in told]
        figures = " × ".join(figure for figure, _, _ in others)
        found.append(f"({figures} {others[0][2]})")
    return found


def _words(pieces: Sequence[Piece], told: str, apart: float) -> str:
    species = dict.fromkeys(c.species for piece in pieces for c in piece.cells)
    woods = ", ".join(one for one in species if one)
    how = " Its pieces are moved apart." if apart else ""
    return (
        "Isometric view from above, the front at the left. "
        f"{len(pieces)} pieces of {woods or 'wood'}; {told}.{how}"
    )


def _on_page(point: XYZ) -> tuple[float, float]:
    """Nanometres on the page, y down; lengths along the axes are as they are."""
    x, y, z = point
    return (x + y) * ROOT3 / 2, (x - y) / 2 - z


def _tone(normal: XYZ) -> int:
    """Percent of ink on a face: none where the light falls on a level one."""
    less = LIGHT[2] - dot(normal, LIGHT)
    return max(0, round(less * DARKEST / STEP)) * STEP
