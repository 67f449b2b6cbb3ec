"""Solids of flat faces: the pieces of a build where they stand in it.

A piece is one or more convex cells that touch and never overlap, each of one
species, so a wall of strips is a cell a strip and a wall with a groove is what is
left beside the groove. x runs right, y to the back and z up; all in nanometres,
as floats: five metres are 5e9, which leaves a millionth of a nanometre.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

XYZ = tuple[float, float, float]
Face = tuple[XYZ, ...]
# Two points nearer than this are one: a thousandth of a nanometre.
SAME = 1e-3


@dataclass(frozen=True, slots=True)
class Cell:
    """A convex solid: its flat faces, each anticlockwise as seen from outside."""

    faces: tuple[Face, ...]
    species: str = ""

    def cut(self, normal: XYZ, at: XYZ) -> Cell | None:
        """What a straight cut through ``at`` leaves on the side ``normal`` leaves.

        ``normal`` points into the wood that falls away. None: nothing is left.
        """
        offset = dot(normal, at)
        if all(dot(normal, point) <= offset + SAME for point in self.points()):
            return self
        kept: list[Face] = []
        edge: list[XYZ] = []
        for face in self.faces:
            clipped, ends = _clipped(face, normal, offset)
            if len(clipped) > 2:
                kept.append(clipped)
            edge += ends
        cap = _round(edge, normal)
        if not kept or len(cap) < 3:
            return None
        return replace(self, faces=(*kept, cap))

    def mapped(self, move: Callable[[XYZ], XYZ]) -> Cell:
        """Every corner put where ``move`` puts it; a rigid move, not a mirror."""
        return replace(
            self, faces=tuple(tuple(move(p) for p in face) for face in self.faces)
        )

    def moved(self, x: float = 0, y: float = 0, z: float = 0) -> Cell:
        """Shifted."""
        return self.mapped(lambda p: (p[0] + x, p[1] + y, p[2] + z))

    def turned(self, degrees: float, axis: str = "z") -> Cell:
        """Turned about an axis through the origin, anticlockwise seen against it."""
        return self.mapped(turn(degrees, axis))

    def points(self) -> Iterable[XYZ]:
        """Every corner, as often as faces meet there."""
        return (point for face in self.faces for point in face)

    @property
    def volume(self) -> float:
        """Cubic nanometres."""
        base = self.faces[0][0]
        total = 0.0
        for face in self.faces:
            a = minus(face[0], base)
            for i in range(1, len(face) - 1):
                b, c = minus(face[i], base), minus(face[i + 1], base)
                total += dot(a, cross(b, c))
        return total / 6

    @property
    def area(self) -> float:
        """All faces, square nanometres."""
        return sum(face_area(face) for face in self.faces)


@dataclass(frozen=True, slots=True)
class Piece:
    """One finished piece of the part ``part``, standing where it is built in."""

    part: str
    cells: tuple[Cell, ...]
    name: str = ""

    def mapped(self, move: Callable[[XYZ], XYZ]) -> Piece:
        """Moved as a whole; a rigid move, not a mirror."""
        return replace(self, cells=tuple(cell.mapped(move) for cell in self.cells))

    def moved(self, x: float = 0, y: float = 0, z: float = 0) -> Piece:
        """Shifted."""
        return replace(self, cells=tuple(cell.moved(x, y, z) for cell in self.cells))

    def turned(self, degrees: float, axis: str = "z") -> Piece:
        """Turned about an axis through the origin, anticlockwise seen against it."""
        return self.mapped(turn(degrees, axis))

    @property
    def volume(self) -> float:
        """Cubic nanometres."""
        return sum(cell.volume for cell in self.cells)


def prism(
    outline: Sequence[tuple[float, float]],
    low: float,
    high: float,
    species: str = "",
) -> Cell:
    """An upright prism on a convex outline, anticlockwise seen from above."""
    bottom = [(x, y, low) for x, y in outline]
    top = [(x, y, high) for x, y in outline]
    count = len(outline)
    sides = [
        (bottom[i], bottom[(i + 1) % count], top[(i + 1) % count], top[i])
        for i in range(count)
    ]
    return Cell((tuple(reversed(bottom)), tuple(top), *sides), species)


def block(low: XYZ, high: XYZ, species: str = "") -> Cell:
    """A plain block between two opposite corners."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    return prism([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], z0, z1, species)


def turn(degrees: float, axis: str = "z") -> Callable[[XYZ], XYZ]:
    """A turn about ``x``, ``y`` or ``z``, to map points with."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turns: dict[str, Callable[[XYZ], XYZ]] = {
        "x": lambda p: (p[0], cos * p[1] - sin * p[2], sin * p[1] + cos * p[2]),
        "y": lambda p: (cos * p[0] + sin * p[2], p[1], cos * p[2] - sin * p[0]),
        "z": lambda p: (cos * p[0] - sin * p[1], sin * p[0] + cos * p[1], p[2]),
    }
    return turns[axis]


def dot(a: XYZ, b: XYZ) -> float:
    """The inner product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def minus(a: XYZ, b: XYZ) -> XYZ:
    """From b to a."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def cross(a: XYZ, b: XYZ) -> XYZ:
    """The outer product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def normal_of(face: Face) -> XYZ:
    """A vector out of the face, as long as twice its area."""
    base = face[0]
    total: XYZ = (0.0, 0.0, 0.0)
    for i in range(1, len(face) - 1):
        one = cross(minus(face[i], base), minus(face[i + 1], base))
        total = (total[0] + one[0], total[1] + one[1], total[2] + one[2])
    return total


def face_area(face: Face) -> float:
    """Square nanometres."""
    return math.hypot(*normal_of(face)) / 2


def _clipped(face: Face, normal: XYZ, offset: float) -> tuple[Face, list[XYZ]]:
    """The part of a face on the kept side, and its points in the cut."""
    kept: list[XYZ] = []
    on: list[XYZ] = []
    heights = [dot(normal, point) - offset for point in face]
    for i, point in enumerate(face):
        here, after = heights[i], heights[(i + 1) % len(face)]
        if here <= SAME:
            kept.append(point)
            if here >= -SAME:
                on.append(point)
        if (here < -SAME and after > SAME) or (here > SAME and after < -SAME):
            other, part = face[(i + 1) % len(face)], here / (here - after)
            met = (
                point[0] + (other[0] - point[0]) * part,
                point[1] + (other[1] - point[1]) * part,
                point[2] + (other[2] - point[2]) * part,
            )
            kept.append(met)
            on.append(met)
    flat = all(abs(height) <= SAME for height in heights)
    return (() if flat else tuple(kept)), on


def _round(points: list[XYZ], normal: XYZ) -> Face:
    """Points of a convex cap, each once, anticlockwise seen against ``normal``."""
    apart: list[XYZ] = []
    for point in points:
        # Cuts of the same edge from its two faces differ in the last digits.
        if all(math.dist(point, other) > 1 for other in apart):
            apart.append(point)
    if len(apart) < 3:
        return ()
    count = len(apart)
    middle = tuple(sum(p[i] for p in apart) / count for i in range(3))
    centre: XYZ = (middle[0], middle[1], middle[2])
    across = minus(apart[0], centre)
    up = cross(normal, across)
    return tuple(
        sorted(
            apart,
            key=lambda p: math.atan2(
                dot(minus(p, centre), up) / math.hypot(*up),
                dot(minus(p, centre), across) / math.hypot(*across),
            ),
        )
    )
