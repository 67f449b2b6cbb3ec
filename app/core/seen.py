"""Convex solids as one viewer sees them: their sides, and how far they reach."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain
from typing import NamedTuple

from app.core.solid import XYZ, Cell, Face, dot, normal_of

# Pieces may reach a micrometre into each other: nanometres.
TOUCH = 1_500.0
# Edge on: a face or a plane that turns neither to the viewer nor away.
EDGE_ON = 1e-6
FEW = 16  # corners of a body, not worth thinning out
Span = tuple[float, float]
# The number of an axis, its way, and how far along it the plane lies.
Plane = tuple[int, XYZ, float]


@dataclass(frozen=True, slots=True)
class View:
    """Where the viewer is, and which ways the page's axes run, unit vectors."""

    towards: XYZ
    right: XYZ
    up: XYZ


class Side(NamedTuple):
    """A face with the unit vector out of it; ``axis`` is the number of its way."""

    face: Face
    normal: XYZ
    axis: int

    def lies_on(self, plane: Plane) -> bool:
        """Whether a plane that the solid was cut by is this side's."""
        axis, way, at = plane
        level = dot(way, self.face[0])
        return axis == self.axis and abs(level - at) < TOUCH


class Axes:
    """Every way that faces look, each once, opposite ones as one."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.ways: list[XYZ] = []
        # How far each way leads towards the viewer.
        self.towards: list[float] = []
        self._known: dict[tuple[int, int, int], int] = {}

    def of(self, normal: XYZ) -> int:
        """The number of a unit vector's axis."""
        x, y, z = normal
        mark = (round(x * 1e4), round(y * 1e4), round(z * 1e4))
        if mark not in self._known:
            self._known[mark] = self._new(normal)
        return self._known[mark]

    def _new(self, normal: XYZ) -> int:
        for number, way in enumerate(self.ways):
            if abs(dot(way, normal)) > 1 - 1e-9:
                return number
        self.ways.append(normal)
        self.towards.append(dot(normal, self.view.towards))
        return len(self.ways) - 1


class Body:
    """Corners, and the axes that could part them from others'."""

    def __init__(
        self, points: Iterable[XYZ], numbers: Iterable[int], axes: Axes
    ) -> None:
        self.points = _outermost(list(dict.fromkeys(points)))
        self.numbers = list(dict.fromkeys(numbers))
        self.axes = axes
        self._spans: dict[int, Span] = {}

    def span(self, number: int) -> Span:
        """From where to where it reaches along an axis."""
        if number not in self._spans:
            self._spans[number] = reach(self.points, self.axes.ways[number])
        return self._spans[number]

    @cached_property
    def page(self) -> tuple[float, float, float, float]:
        """Left, low, right and high end on the page, less what may touch."""
        left, right = reach(self.points, self.axes.view.right)
        low, high = reach(self.points, self.axes.view.up)
        return left + TOUCH, low + TOUCH, right - TOUCH, high - TOUCH


def _outermost(points: list[XYZ]) -> list[XYZ]:
    """Corners less those between two others: a stack of strips has many of them."""
    for along in (2, 0, 1):
        if len(points) <= FEW:
            break
        a, b = (axis for axis in range(3) if axis != along)
        ends: dict[tuple[float, float], tuple[XYZ, XYZ]] = {}
        for point in points:
            place = point[a], point[b]
            low, high = ends.get(place, (point, point))
            if point[along] < low[along]:
                ends[place] = point, high
            elif point[along] >= high[along]:
                ends[place] = low, point
        points = list(dict.fromkeys(chain.from_iterable(ends.values())))
    return points


def reach(points: Sequence[XYZ], way: XYZ) -> Span:
    a, b, c = way
    along = [x * a + y * b + z * c for x, y, z in points]
    return min(along), max(along)


class Solid(Body):
    """A convex cell with its sides and the number of the piece it belongs to.

    ``cuts`` are planes that it was cut by to be drawn: an axis, and where on it.
    """

    def __init__(
        self, piece: int, cell: Cell, axes: Axes, cuts: tuple[Plane, ...] = ()
    ) -> None:
        self.piece, self.cell, self.cuts = piece, cell, cuts
        self.sides = [_side(face, axes) for face in cell.faces]
        numbers = [side.axis for side in self.sides]
        super().__init__(chain.from_iterable(cell.faces), numbers, axes)

    @property
    def outside(self) -> list[Side]:
        """Its sides but those that only drawing made."""
        if not self.cuts:
            return self.sides
        return [side for side in self.sides if not any(map(side.lies_on, self.cuts))]


def _side(face: Face, axes: Axes) -> Side:
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = face[:3]
    ax, ay, az, cx, cy, cz = bx - ax, by - ay, bz - az, cx - bx, cy - by, cz - bz
    x, y, z = ay * cz - az * cy, az * cx - ax * cz, ax * cy - ay * cx
    long = math.sqrt(x * x + y * y + z * z)
    if long < 1:  # three corners in a line
        x, y, z = normal_of(face)
        long = math.hypot(x, y, z) or 1.0
    unit = (x / long, y / long, z / long)
    return Side(face, unit, axes.of(unit))
