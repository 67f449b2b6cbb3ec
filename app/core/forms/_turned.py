"""What is turned round out of a glued blank, and its solid bottom.

A thing turned on the lathe is told by its outside diameter at heights, straight
between them, and by its wall. A glued blank holds it where every flat of the
blank's outside lies on or beyond the outside circle and every inner corner on or
within the inside one. Plane and solid geometry, no source needed.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from app.core import geometry
from app.core.length import Length

PI = Fraction(math.pi)
# A bottom is a square board with its corners sawn off.
BOTTOM_SIDES = 8
XY = tuple[float, float]
Level = tuple[Length, Length]
Flats = tuple[Length, int]  # across them, and how many there are


@dataclass(frozen=True, slots=True)
class Profile:
    """The turned shape: ``levels`` of height and outside diameter, going up.

    ``walls`` is both walls together, so that the inside diameter is the outside one
    less it at every height; ``floor`` the thickness of a solid bottom.
    """

    levels: tuple[Level, ...]
    walls: Length
    floor: Length = Length(0)

    @property
    def height(self) -> Length:
        """From the bottom to the rim."""
        return self.levels[-1][0]

    def outside_at(self, height: Length) -> Fraction:
        """The outside diameter there, nm; beyond the ends, that of the end."""
        below = self.levels[0]
        for above in self.levels:
            if above[0] >= height:
                rise = above[0].nm - below[0].nm
                part = (
                    Fraction(height.nm - below[0].nm, rise) if rise > 0 else Fraction(1)
                )
                return below[1].nm + part * (above[1].nm - below[1].nm)
            below = above
        return Fraction(below[1].nm)

    def over(self, low: Length, high: Length) -> tuple[Fraction, Fraction]:
        """The largest outside and the smallest inside diameter between heights, nm.

        A profile straight between its points is widest and narrowest at the ends
        of the span or at a point within.
        """
        within = [Fraction(d.nm) for h, d in self.levels if low < h < high]
        found = [self.outside_at(low), *within, self.outside_at(high)]
        return max(found), min(found) - self.walls.nm

    def cut(self, low: Length, high: Length) -> list[tuple[Length, Fraction]]:
        """Heights and outside diameters between two heights, both ends included."""
        within = [(h, Fraction(d.nm)) for h, d in self.levels if low < h < high]
        ends = [(at, self.outside_at(at)) for at in (low, high)]
        return [ends[0], *within, ends[1]]

    @property
    def volume(self) -> Fraction:
        """The wood left when it is turned, nm³."""
        return self.outer_volume - self.hollow

    @property
    def outer_volume(self) -> Fraction:
        """All within the outside, nm³."""
        return _frusta(self.cut(Length(0), self.height), 0)

    @property
    def hollow(self) -> Fraction:
        """What is turned out of it, from the floor up, nm³."""
        return _frusta(self.cut(self.floor, self.height), self.walls.nm)

    @property
    def surface(self) -> int:
        """All that a finish covers, inside and out, whole nm²."""
        outside = self.cut(Length(0), self.height)
        inside = self.cut(self.floor, self.height)
        rim, foot = outside[-1][1], outside[0][1]
        flat = _disc(rim) - _disc(rim - self.walls.nm) + _disc(foot)
        within = _disc(inside[0][1] - self.walls.nm)
        # With a floor its top is covered, without one the foot is open as the rim is.
        flat += within if self.floor else -within
        return round(flat + _mantle(outside, 0) + _mantle(inside, self.walls.nm))


def _disc(diameter: Fraction) -> Fraction:
    return PI / 4 * diameter**2


def _frusta(levels: list[tuple[Length, Fraction]], less: int) -> Fraction:
    """Cones cut off straight, one on the other; ``less`` is off every diameter."""
    total = Fraction(0)
    for (low, wide), (high, top) in pairwise(levels):
        a, b = wide - less, top - less
        total += (high.nm - low.nm) * (a * a + a * b + b * b)
    return PI / 12 * total


def _mantle(levels: list[tuple[Length, Fraction]], less: int) -> Fraction:
    total = Fraction(0)
    for (low, wide), (high, top) in pairwise(levels):
        slant = math.hypot(high.nm - low.nm, float(top - wide) / 2)
        total += (wide + top - 2 * less) * Fraction(slant)
    return PI / 2 * total


@dataclass(frozen=True, slots=True)
class Bottom:
    """A solid bottom as sawn: eight sides, so far ``across`` its flats."""

    across: Length
    thickness: Length
    species: str
    strips: int

    @property
    def side(self) -> Length:
        """One of its eight sides."""
        return geometry.side_of_inscribed(self.across, BOTTOM_SIDES)

    @property
    def corner(self) -> Length:
        """What is sawn off the square at each corner, along both its edges."""
        return (self.across - self.side) / 2

    @property
    def points(self) -> tuple[XY, ...]:
        """Its corners round its middle, x right and y down, nm."""
        return geometry.corners(BOTTOM_SIDES, self.side)

    @property
    def area(self) -> Fraction:
        """Its face, nm²."""
        return geometry.area_of_inscribed(self.across, BOTTOM_SIDES)


def outermost(rings: Iterable[tuple[Length, int]], bottom: Bottom | None) -> Flats:
    """The flats, and how many, whose corners lie furthest out."""
    found = list(rings)
    if bottom is not None:
        found.append((bottom.across, BOTTOM_SIDES))
    return max(found, key=through_corners)


def through_corners(flats: Flats) -> Length:
    """The circle through the corners of so many flats, so far across."""
    across, count = flats
    return geometry.circumscribed(geometry.side_of_inscribed(across, count), count)


def circle(diameter: float, middle: XY = (0.0, 0.0), points: int = 96) -> list[XY]:
    """A circle as a fine polygon through it: for a drawing."""
    turns = [2 * math.pi * i / points for i in range(points)]
    return [
        (
            middle[0] + diameter / 2 * math.cos(turn),
            middle[1] + diameter / 2 * math.sin(turn),
        )
        for turn in turns
    ]


def inner_edge(inside: Length, count: int) -> Length:
    """The inner edge of a piece whose inner corners lie on a circle."""
    return geometry.side_of_circumscribed(inside, count)


def least_depth(outside: Length, inside: Length, count: int) -> Length:
    """From an outer flat on one circle to an inner edge with corners on the other."""
    return Length.nearest((outside.nm - inside.nm * geometry.cos(count)) / 2)


def trapezoid(
    outer: Length, inner: Length, depth: Length, outside: Length, turn: float
) -> tuple[XY, ...]:
    """A piece of a ring seen from above, y to the back: anticlockwise, in nm.

    Its outer flat is ``outside`` across from the opposite one, towards the viewer
    where ``turn`` (degrees, anticlockwise) is nothing.
    """
    out, within = outside.nm / 2, outside.nm / 2 - depth.nm
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    plain = (
        (-outer.nm / 2, -out),
        (outer.nm / 2, -out),
        (inner.nm / 2, -within),
        (-inner.nm / 2, -within),
    )
    return tuple((cos * x - sin * y, sin * x + cos * y) for x, y in plain)
