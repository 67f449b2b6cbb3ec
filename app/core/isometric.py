"""The finished build as a picture: isometric, in its species' colours.

All three axes are drawn to one scale, 30 degrees apart from level (ISO 5456-3),
from above with the front at the left. What stands in front covers what is behind
it; what faces away from the light is darker, so that a grey print reads too.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from app.core.back_to_front import EDGE_ON, Side, Solid, View, back_to_front
from app.core.drawing import PAGE_MM, Drawing, Label, Pen, Point, Shape
from app.core.length import Length, show
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
# An edge between faces that turn less than this is a curve cut into flats.
SMOOTH = math.cos(math.radians(16))
WIDE_MM, HIGH_MM, TOP_MM = 104.0, 88.0, 4.0
SAME = 2_000.0  # two places on one line nearer than this are one, nanometres


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
    faces = _Faces(solids).shapes()
    xs = [x for face in faces for x, _ in face.points]
    ys = [y for face in faces for _, y in face.points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    scale = max(wide / WIDE_MM, high / HIGH_MM)
    left = (PAGE_MM * scale - wide) / 2 - min(xs)
    top = TOP_MM * scale - min(ys)
    foot = TOP_MM + high / scale
    told = _over_all(pieces, shop)
    return Drawing(
        key=key,
        title=title,
        description=_words(pieces, told, apart),
        width=Length(round(PAGE_MM * scale)),
        height=Length(round((foot + 10) * scale)),
        shapes=tuple(_placed(face, left, top) for face in faces),
        labels=(
            Label(
                Point(round(PAGE_MM * scale / 2), round((foot + 6.5) * scale)),
                told,
                quiet=True,
            ),
        ),
    )


@dataclass(slots=True)
class _Face:
    """A face on the page in nanometres, y down, with a pen for each edge."""

    points: list[tuple[float, float]]
    edges: list[Pen | None]
    species: str
    tone: int
    title: str


def _placed(face: _Face, left: float, top: float) -> Shape:
    return Shape(
        tuple(Point(round(x + left), round(y + top)) for x, y in face.points),
        species=face.species or "wood",
        title=face.title,
        tone=face.tone,
        edges=tuple(face.edges),
    )


def _moved(pieces: Sequence[Piece], apart: float) -> Sequence[Piece]:
    if not apart:
        return pieces
    middles = [
        _middle([p for c in piece.cells for p in c.points()]) for piece in pieces
    ]
    x, y, z = _middle(middles)
    return [
        piece.moved((a - x) * apart, (b - y) * apart, (c - z) * apart)
        for piece, (a, b, c) in zip(pieces, middles, strict=True)
    ]


def _middle(points: Sequence[XYZ]) -> XYZ:
    """The middle between the least and the greatest of each axis."""
    low = [min(point[i] for point in points) for i in range(3)]
    high = [max(point[i] for point in points) for i in range(3)]
    return (low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2


def _over_all(pieces: Sequence[Piece], shop: Shop) -> str:
    """How wide, deep and high the whole is."""
    points = [p for piece in pieces for cell in piece.cells for p in cell.points()]
    reach = [max(p[i] for p in points) - min(p[i] for p in points) for i in range(3)]
    told = [show(Length.nearest(one), shop.display) for one in reach]
    figures = " × ".join(one.figure for one in told)
    text = f"over all {figures} {told[0].unit}"
    if told[0].other:
        others = [one.other.removesuffix(one.other.split()[-1]).strip() for one in told]
        text += f" ({' × '.join(others)} {told[0].other.split()[-1]})"
    return f"{text}: wide, deep, high"


def _words(pieces: Sequence[Piece], told: str, apart: float) -> str:
    species = dict.fromkeys(c.species for piece in pieces for c in piece.cells)
    woods = ", ".join(one for one in species if one)
    how = " Its pieces are moved apart." if apart else ""
    return (
        "Isometric view from above, the front at the left. "
        f"{len(pieces)} pieces of {woods or 'wood'}; {told}.{how}"
    )


class _Edge(NamedTuple):
    """An edge on its line: from where to where there, which way, of which face."""

    line: tuple[int, ...]
    way: XYZ
    start: float
    low: float
    high: float
    forward: bool
    side: Side
    species: str


class _Faces:
    """Faces towards the viewer, in order, with the pens of their edges."""

    def __init__(self, solids: list[Solid]) -> None:
        sides = [(solid, side) for solid in solids for side in solid.sides]
        facing = [dot(side.normal, VIEW.towards) for _, side in sides]
        turned = list(zip(sides, facing, strict=True))
        inner = {_mark(side) for (_, side), way in turned if way < -EDGE_ON}
        self.seen = [
            (solid, side, _edges(solid, side))
            for (solid, side), way in turned
            if way > EDGE_ON and _mark(side) not in inner
        ]
        # The edges on each line of a piece, and those from one place to another.
        self.lines: dict[tuple[int, ...], list[_Edge]] = defaultdict(list)
        self.same: dict[tuple[object, ...], list[_Edge]] = defaultdict(list)
        for _, _, edges in self.seen:
            for edge in edges:
                self.lines[edge.line].append(edge)
                self.same[_stretch(edge, edge.forward)].append(edge)

    def shapes(self) -> list[_Face]:
        found = []
        for solid, side, edges in self.seen:
            points, pens = [], []
            for point, edge in zip(side.face, edges, strict=True):
                for at, pen in self._stretches(edge):
                    points.append(_on_page(_along(point, edge.way, at - edge.start)))
                    pens.append(pen)
            name = solid.cell.species
            found.append(_Face(points, pens, name, _tone(side.normal), name))
        return found

    def _stretches(self, edge: _Edge) -> list[tuple[float, Pen | None]]:
        """Where each stretch of an edge begins, and its pen."""
        on_line = self.lines[edge.line]
        if len(on_line) == 1:
            return [(edge.start, Pen.OUTLINE)]
        # A neighbour runs along the shared edge the other way.
        if same := self.same.get(_stretch(edge, not edge.forward)):
            return [(edge.start, _lightest([_pen(edge, other) for other in same]))]
        return _parted(edge, on_line)


def _stretch(edge: _Edge, forward: bool) -> tuple[object, ...]:
    return edge.line, _near(edge.low), _near(edge.high), forward


def _mark(side: Side) -> tuple[int, ...]:
    """The same for two faces that lie on each other all over."""
    x = y = z = far = 0.0
    for a, b, c in side.face:
        x += a
        y += b
        z += c
        far += a * a + b * b + c * c
    # A hundredth of a millimetre at a tenth of a metre, in square nanometres.
    flat = math.floor(far / 2e12 + 0.31831)
    return side.axis, len(side.face), _near(x), _near(y), _near(z), flat


def _near(value: float) -> int:
    """To a hundredth of a millimetre, off the values that sizes usually have."""
    return math.floor(value / 1e4 + 0.31831)


def _edges(solid: Solid, side: Side) -> list[_Edge]:
    face = side.face
    return [
        _edge(solid, side, start, end)
        for start, end in zip(face, (*face[1:], face[0]), strict=True)
    ]


def _edge(solid: Solid, side: Side, start: XYZ, end: XYZ) -> _Edge:
    (x, y, z), (ex, ey, ez) = start, end
    a, b, c = ex - x, ey - y, ez - z
    long = math.sqrt(a * a + b * b + c * c) or 1.0
    a, b, c = a / long, b / long, c / long
    # Both ways along a line are one.
    if forward := a > 1e-6 or (a > -1e-6 and (b > 1e-6 or (b > -1e-6 and c > 0))):
        way = (a, b, c)
    else:
        way = a, b, c = -a, -b, -c
    begins, ends = a * x + b * y + c * z, a * ex + b * ey + c * ez
    line = (
        solid.piece,
        math.floor(a * 1e4 + 0.31831),
        math.floor(b * 1e4 + 0.31831),
        math.floor(c * 1e4 + 0.31831),
        _near(x - begins * a),
        _near(y - begins * b),
        _near(z - begins * c),
    )
    low, high = (begins, ends) if forward else (ends, begins)
    return _Edge(line, way, begins, low, high, forward, side, solid.cell.species)


def _parted(edge: _Edge, on_line: list[_Edge]) -> list[tuple[float, Pen | None]]:
    """An edge in stretches, where several or none of its neighbours run along it."""
    low, high, forward = edge.low, edge.high, edge.forward
    others = [
        (other.low, other.high, _pen(edge, other))
        for other in on_line
        if other.forward != forward
        and other.low < high - SAME
        and other.high > low + SAME
    ]
    cuts = {at for a, b, _ in others for at in (a, b) if low + SAME < at < high - SAME}
    places = sorted({low, *cuts})
    found = [
        (a, b, _lightest([pen for c, d, pen in others if c <= (a + b) / 2 <= d]))
        for a, b in pairwise([*places, high])
    ]
    if not forward:
        return [(b, pen) for _, b, pen in reversed(found)]
    return [(a, pen) for a, _, pen in found]


def _lightest(pens: list[Pen | None]) -> Pen | None:
    if not pens:
        return Pen.OUTLINE
    if None in pens:
        return None
    return Pen.GRAIN if Pen.GRAIN in pens else Pen.OUTLINE


def _pen(edge: _Edge, other: _Edge) -> Pen | None:
    """The pen where two faces of a piece meet: none where one goes on in the other."""
    if dot(edge.side.normal, other.side.normal) < SMOOTH:
        return Pen.OUTLINE
    return None if edge.species == other.species else Pen.GRAIN


def _along(point: XYZ, way: XYZ, far: float) -> XYZ:
    x, y, z = point
    return (x + way[0] * far, y + way[1] * far, z + way[2] * far)


def _on_page(point: XYZ) -> tuple[float, float]:
    """Nanometres on the page, y down; lengths along the axes are as they are."""
    x, y, z = point
    return (x + y) * ROOT3 / 2, (x - y) / 2 - z


def _tone(normal: XYZ) -> int:
    """Percent of ink on a face: none where the light falls on a level one."""
    less = LIGHT[2] - dot(normal, LIGHT)
    return max(0, round(less * DARKEST / STEP)) * STEP
