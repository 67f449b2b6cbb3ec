"""Regular polygons and the prisms on them: plane geometry, no source needed.

Diameters are inscribed (touching the flats) or circumscribed (through the
corners). Ratios are taken once from the mathematics library and multiplied
exactly, so that volumes agree with each other to the last digit.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from app.core.angle import Angle
from app.core.length import Length

Outline = tuple[tuple[Length, Length], ...]


def edge_bevel(sides: int) -> Angle:
    """The tilt from square on each long edge of ``sides`` equal walls."""
    return Angle(Fraction(180, sides))


def polygon_gauge(sides: int) -> Angle:
    """The mitre gauge, from square, with a finished side on its fence."""
    return Angle(abs(90 - Fraction(360, sides)))


def interior_angle(sides: int) -> Angle:
    """The angle between neighbouring sides, inside."""
    return Angle(Fraction(180 * (sides - 2), sides))


def tan(sides: int) -> Fraction:
    """The tangent of 180° over ``sides``."""
    # The library says 0.9999999999999999 for 45°, which would show in a volume.
    return Fraction(1) if sides == 4 else Fraction(math.tan(math.pi / sides))


def sin(sides: int) -> Fraction:
    """The sine of 180° over ``sides``."""
    return Fraction(1, 2) if sides == 6 else Fraction(math.sin(math.pi / sides))


def cos(sides: int) -> Fraction:
    """The cosine of 180° over ``sides``."""
    return Fraction(1, 2) if sides == 3 else Fraction(math.cos(math.pi / sides))


def side_of_inscribed(inscribed: Length, sides: int) -> Length:
    """The side of the polygon round a circle of this diameter."""
    return inscribed * tan(sides)


def side_of_circumscribed(circumscribed: Length, sides: int) -> Length:
    """The side of the polygon inside a circle of this diameter."""
    return circumscribed * sin(sides)


def inscribed(side: Length, sides: int) -> Length:
    """The diameter of the circle that touches every flat."""
    return Length.nearest(side.nm / tan(sides))


def circumscribed(side: Length, sides: int) -> Length:
    """The diameter of the circle through every corner."""
    return Length.nearest(side.nm / sin(sides))


def flat_to_corner(inscribed: Length, sides: int) -> Length:
    """From a side to the corner across it: what an odd count of sides can measure.

    Half across the flats and half through the corners.
    """
    around = circumscribed(side_of_inscribed(inscribed, sides), sides)
    return (inscribed + around) / 2


def area_of_inscribed(inscribed: Length, sides: int) -> Fraction:
    """The polygon's area in nm², from its inscribed diameter."""
    return sides * Fraction(inscribed.nm**2, 4) * tan(sides)


def mitred_slab(side: Length, wall: Length, sides: int) -> Fraction:
    """The area in nm², seen from above, of one wall with both edges bevelled.

    ``side`` is its outer length; the wall narrows inwards by the bevel.
    """
    return wall.nm * (side.nm - wall.nm * tan(sides))


def corners(sides: int, side: Length) -> tuple[tuple[float, float], ...]:
    """The polygon's corners in nm round its centre, one flat at the bottom.

    x runs right and y down; the first corner is the left end of the lowest flat.
    """
    radius = side.nm / (2 * math.sin(math.pi / sides))
    start = math.pi / 2 + math.pi / sides
    turns = [start + 2 * math.pi * i / sides for i in range(sides)]
    return tuple((radius * math.cos(a), radius * math.sin(a)) for a in turns)


def extent(points: Sequence[tuple[float, float]]) -> tuple[Length, Length]:
    """How far points reach across and down."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Length.nearest(max(xs) - min(xs)), Length.nearest(max(ys) - min(ys))


def outline(points: Sequence[tuple[float, float]]) -> Outline:
    """Points as exact lengths, moved so that the smallest x and y are nothing."""
    left, top = min(x for x, _ in points), min(y for _, y in points)
    return tuple((Length.nearest(x - left), Length.nearest(y - top)) for x, y in points)


def rectangle(length: Length, width: Length) -> Outline:
    """The outline of a plain board's face."""
    none = Length(0)
    return ((none, none), (length, none), (length, width), (none, width))


def polygon_area(points: Outline) -> Fraction:
    """The area of any simple polygon in nm², by the shoelace sum."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    twice = sum(a[0].nm * b[1].nm - b[0].nm * a[1].nm for a, b in pairs)
    return Fraction(abs(twice), 2)
