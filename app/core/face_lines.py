"""The faces that a viewer sees, and which of their edges are lines.

Cells are how a piece is kept, not how it looks: where one face goes on in another of
the same piece and wood no line is drawn, at a change of wood a thin one.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from app.core.drawing import Pen
from app.core.seen import EDGE_ON, Side, Solid
from app.core.solid import XYZ, dot

# An edge between faces that turn less than this is a curve cut into flats.
SMOOTH = math.cos(math.radians(16))
SAME = 2_000.0  # two places on one line nearer than this are one, nanometres


class Lined(NamedTuple):
    """A face with a pen for each edge, from its corner to the next."""

    corners: list[XYZ]
    pens: list[Pen | None]
    normal: XYZ
    species: str


def lined_faces(solids: list[Solid], towards: XYZ) -> Iterator[Lined]:
    """Faces towards the viewer in the order of their solids, less those covered."""
    return _Faces(solids, towards).lined()


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
    def __init__(self, solids: list[Solid], towards: XYZ) -> None:
        sides = [(solid, side) for solid in solids for side in solid.sides]
        facing = [dot(side.normal, towards) for _, side in sides]
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

    def lined(self) -> Iterator[Lined]:
        for solid, side, edges in self.seen:
            corners, pens = [], []
            for point, edge in zip(side.face, edges, strict=True):
                for at, pen in self._stretches(edge):
                    corners.append(_along(point, edge.way, at - edge.start))
                    pens.append(pen)
            yield Lined(corners, pens, side.normal, solid.cell.species)

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
