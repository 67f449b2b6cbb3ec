"""Splines across mitred corners: thin triangles let into slots, seen from above.

The slot runs level round the corner; its floor stands square to the line that
halves the corner. With ``sides`` equal corners that line crosses the wall over
wall / cos(180°/sides), and a slot d deep along it shows d / sin(180°/sides) on each
face. Plane geometry, no source.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

from app.core import geometry
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class Splines:
    """The same splines at every corner.

    ``depth`` is along the line that halves the corner. ``heights`` are their middles
    up from the lower edge, lowest first, each of the ``species`` at the same place.
    """

    sides: int
    wall: Length
    depth: Length
    thickness: Length
    heights: tuple[Length, ...]
    species: tuple[str, ...]

    @property
    def corner_thickness(self) -> Length:
        """Wood at a corner, from the inner corner to the outer one."""
        return corner_thickness(self.wall, self.sides)

    @property
    def cheek(self) -> Length:
        """Wood left between a slot's floor and the inner corner."""
        return self.corner_thickness - self.depth

    @property
    def visible(self) -> Length:
        """How long a spline shows on each face."""
        return visible(self.depth, self.sides)

    @property
    def long(self) -> Length:
        """The inner, longest edge of a finished spline."""
        return Length.nearest(2 * self.depth.nm / geometry.tan(self.sides))

    @property
    def count(self) -> int:
        """Splines in the whole build."""
        return self.sides * len(self.heights)

    @property
    def by_species(self) -> Counter[str]:
        """How many of each wood, in the order met from the lowest up."""
        rows = Counter(self.species)
        return Counter({name: n * self.sides for name, n in rows.items()})

    @property
    def volume(self) -> Fraction:
        """One finished spline, nm³."""
        return self._face * self.thickness.nm

    @property
    def glue_area(self) -> Fraction:
        """Both cheeks of one spline, where its long grain is glued, nm²."""
        return 2 * self._face

    @property
    def _face(self) -> Fraction:
        return self.depth.nm**2 / geometry.tan(self.sides)

    def stops(self, kerf: Length) -> tuple[tuple[Length, Length], ...]:
        """For each row the blade's near face from the lower edge: first, last pass.

        Both are the same where one pass makes the slot.
        """
        found = []
        for height in self.heights:
            first = height - self.thickness / 2
            last = first + self.thickness - kerf
            found.append((first, max(first, last)))
        return tuple(found)


def corner_thickness(wall: Length, sides: int) -> Length:
    """Wood at a corner, from the inner corner to the outer one."""
    return Length.nearest(wall.nm / geometry.cos(sides))


def visible(depth: Length, sides: int) -> Length:
    """How far a slot of this depth runs along each face."""
    return Length.nearest(depth.nm / geometry.sin(sides))


@dataclass(frozen=True, slots=True)
class Room:
    """The heights between which splines may stand, up from the lower edge.

    ``taken`` are stretches between them that must stay whole: a groove, a rebate.
    """

    low: Length
    high: Length
    taken: tuple[tuple[Length, Length], ...] = ()

    @property
    def free(self) -> tuple[tuple[int, int], ...]:
        """The stretches that are left, lowest first, nm."""
        edges, at = [], self.low.nm
        for start, end in sorted(self.taken):
            if start.nm > at:
                edges.append((at, min(start.nm, self.high.nm)))
            at = max(at, end.nm)
        if at < self.high.nm:
            edges.append((at, self.high.nm))
        return tuple((low, high) for low, high in edges if low < high)

    def holds(self, height: Length, thickness: Length) -> bool:
        """Whether a spline here leaves half its thickness of wood to each edge."""
        return any(
            low + thickness.nm <= height.nm <= high - thickness.nm
            for low, high in self.free
        )


def evenly(count: int, room: Room) -> tuple[Length, ...]:
    """So many heights with the same distance between them and to the edges.

    Where something between is taken, the free stretches are laid end to end.
    """
    free = room.free
    whole = sum(high - low for low, high in free)
    heights = []
    for i in range(1, count + 1):
        at = Fraction(whole * i, count + 1)
        for low, high in free:
            if at <= high - low:
                heights.append(Length.nearest(low + at))
                break
            at -= high - low
    return tuple(heights)


def strip_middles(widths: Sequence[Length]) -> tuple[Length, ...]:
    """The middle of every strip, up from the lower edge; ``widths`` bottom up."""
    edges = accumulate((width.nm for width in widths), initial=0)
    return tuple(Length((low + high) // 2) for low, high in pairwise(edges))


def strip_joints(widths: Sequence[Length]) -> tuple[Length, ...]:
    """The joint lines between strips, up from the lower edge."""
    return tuple(accumulate(widths))[:-1]


def picked(
    count: int, places: Sequence[Length], room: Room, thickness: Length
) -> tuple[Length, ...]:
    """``count`` of the places that are clear of every edge, spread over them.

    Fewer where there are not so many.
    """
    clear = [place for place in places if room.holds(place, thickness)]
    count = min(count, len(clear))
    return tuple(clear[(2 * i + 1) * len(clear) // (2 * count)] for i in range(count))


def apart(heights: Sequence[Length], thickness: Length) -> bool:
    """Whether at least a spline's thickness of wood stays between two of them."""
    return all(high - low >= thickness * 2 for low, high in pairwise(heights))


@dataclass(frozen=True, slots=True)
class Corner:
    """An outer corner seen from above, nm; ``inwards`` a step of one towards inside."""

    x: float
    y: float
    inwards: tuple[float, float]


def regular_corners(sides: int, side: Length) -> tuple[Corner, ...]:
    """Of a polygon round the origin with one flat towards the viewer, at -y.

    The first is the right end of that flat, the others follow anticlockwise.
    """
    radius = side.nm / (2 * math.sin(math.pi / sides))
    turns = [math.pi * (2 * i + 1) / sides - math.pi / 2 for i in range(sides)]
    return tuple(
        Corner(radius * math.cos(a), radius * math.sin(a), (-math.cos(a), -math.sin(a)))
        for a in turns
    )


def rectangle_corners(length: Length, width: Length) -> tuple[Corner, ...]:
    """Of a rectangle round the origin, front right first, then anticlockwise."""
    x, y, half = length.nm / 2, width.nm / 2, math.sqrt(0.5)
    return tuple(
        Corner(right * x, back * y, (-right * half, -back * half))
        for right, back in ((1, -1), (1, 1), (-1, 1), (-1, -1))
    )
