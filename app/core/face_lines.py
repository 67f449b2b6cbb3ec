"""The faces that a viewer sees, and which of their edges are lines.

Cells are how a piece is kept, not how it looks: where one face goes on in another of
the same piece and wood no line is drawn, at a change of wood a thin one.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from itertools import chain, pairwise, product
from typing import NamedTuple

from app.core.drawing import Pen
from app.core.seen import EDGE_ON, Side, Solid
from app.core.solid import XYZ, dot

# An edge between faces that turn less than this is a curve cut into flats.
SMOOTH = math.cos(math.radians(16))
SAME = 2_000.0  # two places on one line nearer than this are one, nanometres
# Off the values that sizes usually have, which must not lie between two marks.
SHIFT = 0.31831
Mark = tuple[int, ...]


class Lined(NamedTuple):
    """A face with a pen for each edge, from its corner to the next."""

    corners: list[XYZ]
    pens: list[Pen | None]
    normal: XYZ
    species: str


def lined_faces(solids: list[Solid], towards: XYZ) -> Iterator[Lined]:
    """Faces towards the viewer in the order of their solids, less those covered."""
    return _Faces(solids, towards).lined()


class _Seen(NamedTuple):
    """A face that is seen, and its corners near enough to find them again."""

    solid: Solid
    side: Side
    marks: list[Mark]


class _Edge(NamedTuple):
    """An edge on its line: from where to where there, which way, of which face."""

    line: Mark
    way: XYZ
    start: float
    low: float
    high: float
    forward: bool
    of: _Seen


class _Faces:
    def __init__(self, solids: list[Solid], towards: XYZ) -> None:
        before, away = _sorted_out(solids, towards)
        inner = set(map(_mark, away))
        self.seen = [
            _Seen(solid, side, [_near(solid.piece, *point) for point in side.face])
            for solid, side in before
            if _mark(side) not in inner
        ]
        # Faces by the two ends of each edge, in their own way round.
        self.beside: dict[tuple[Mark, Mark], list[_Seen]] = defaultdict(list)
        for seen in self.seen:
            for ends in zip(seen.marks, _next(seen.marks), strict=True):
                self.beside[ends].append(seen)
        self.pens = [self._whole_edges(seen) for seen in self.seen]
        # What no face of the same edge goes on in may go on in a longer one.
        self.lines: dict[Mark, list[_Edge]] = defaultdict(list)
        self.edges = [
            [
                _edge(seen, number) if pen is Pen.OUTLINE else None
                for number, pen in enumerate(pens)
            ]
            for seen, pens in zip(self.seen, self.pens, strict=True)
        ]
        for edge in chain.from_iterable(self.edges):
            if edge is not None:
                self.lines[edge.line].append(edge)

    def _whole_edges(self, seen: _Seen) -> list[Pen | None]:
        """A pen for each edge, by the faces that have the very same one."""
        found: list[Pen | None] = []
        for one, other in zip(seen.marks, _next(seen.marks), strict=True):
            # Neighbours run along a shared edge each the other way.
            against = self.beside.get((other, one))
            if against is None:
                found.append(Pen.OUTLINE)
                continue
            pairs = product(self.beside[one, other], against)
            found.append(_lightest([_pen(face, beyond) for face, beyond in pairs]))
        return found

    def lined(self) -> Iterator[Lined]:
        for seen, whole, edges in zip(self.seen, self.pens, self.edges, strict=True):
            corners: list[XYZ] = []
            pens: list[Pen | None] = []
            for point, pen, edge in zip(seen.side.face, whole, edges, strict=True):
                if edge is None:
                    corners.append(point)
                    pens.append(pen)
                    continue
                for at, lighter in _parted(edge, self.lines[edge.line]):
                    corners.append(_along(point, edge.way, at - edge.start))
                    pens.append(lighter)
            yield Lined(corners, pens, seen.side.normal, seen.solid.cell.species)


def _sorted_out(
    solids: list[Solid], towards: XYZ
) -> tuple[list[tuple[Solid, Side]], list[Side]]:
    """Sides towards the viewer with their solids, and sides away."""
    before, away = [], []
    for solid in solids:
        for side in solid.outside:
            facing = dot(side.normal, towards)
            if facing > EDGE_ON:
                before.append((solid, side))
            elif facing < -EDGE_ON:
                away.append(side)
    return before, away


def _next(marks: list[Mark]) -> list[Mark]:
    return [*marks[1:], marks[0]]


def _mark(side: Side) -> Mark:
    """The same for two faces that lie on each other all over."""
    x = y = z = far = 0.0
    for a, b, c in side.face:
        x += a
        y += b
        z += c
        far += a * a + b * b + c * c
    # A hundredth of a millimetre at a tenth of a metre, in square nanometres.
    flat = math.floor(far / 2e12 + SHIFT)
    return (*_near(side.axis, x, y, z), len(side.face), flat)


def _near(number: int, x: float, y: float, z: float) -> Mark:
    """A place to a hundredth of a millimetre."""
    return (
        number,
        math.floor(x / 1e4 + SHIFT),
        math.floor(y / 1e4 + SHIFT),
        math.floor(z / 1e4 + SHIFT),
    )


def _edge(seen: _Seen, number: int) -> _Edge:
    face = seen.side.face
    (x, y, z), (ex, ey, ez) = face[number], face[(number + 1) % len(face)]
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
        *_near(seen.solid.piece, x - begins * a, y - begins * b, z - begins * c),
        *_near(0, a * 1e8, b * 1e8, c * 1e8),
    )
    low, high = (begins, ends) if forward else (ends, begins)
    return _Edge(line, way, begins, low, high, forward, seen)


def _parted(edge: _Edge, on_line: list[_Edge]) -> list[tuple[float, Pen | None]]:
    """Where each stretch of the edge begins, with its pen.

    Where two faces go on in each other there is no edge, whatever else ends there.
    """
    low, high = edge.low, edge.high
    near = [one for one in on_line if one.low < high - SAME and one.high > low + SAME]
    along = [one for one in near if one.forward == edge.forward]
    against = [one for one in near if one.forward != edge.forward]
    if not against:
        return [(edge.start, Pen.OUTLINE)]
    pairs = [
        (max(one.low, other.low), min(one.high, other.high), _pen(one.of, other.of))
        for one, other in product(along, against)
    ]
    cuts = {at for a, b, _ in pairs for at in (a, b) if low + SAME < at < high - SAME}
    found = [
        (a, b, _lightest([pen for c, d, pen in pairs if c <= (a + b) / 2 <= d]))
        for a, b in pairwise([*sorted({low, *cuts}), high])
    ]
    if not edge.forward:
        return [(b, pen) for _, b, pen in reversed(found)]
    return [(a, pen) for a, _, pen in found]


def _lightest(pens: list[Pen | None]) -> Pen | None:
    if not pens:
        return Pen.OUTLINE
    if None in pens:
        return None
    return Pen.GRAIN if Pen.GRAIN in pens else Pen.OUTLINE


def _pen(one: _Seen, other: _Seen) -> Pen | None:
    """The pen where two faces of a piece meet: none where one goes on in the other."""
    if dot(one.side.normal, other.side.normal) < SMOOTH:
        return Pen.OUTLINE
    alike = one.solid.cell.species == other.solid.cell.species
    return None if alike else Pen.GRAIN


def _along(point: XYZ, way: XYZ, far: float) -> XYZ:
    x, y, z = point
    return (x + way[0] * far, y + way[1] * far, z + way[2] * far)
