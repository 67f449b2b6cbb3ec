"""Compound mitres: equal leaning sides that meet at mitred corners.

``slope`` is how far the sides lean from vertical, out or in; the machine's angles
are the same for both. They are read with the face flat on the table: the blade's
tilt from vertical, the gauge's swing from a square crosscut. Where the sides stand
upright the blade takes 180° over ``sides``, exactly, and the gauge nothing.
Solid geometry of the corner, no source needed.
"""

from __future__ import annotations

import math
from fractions import Fraction

from app.core import geometry
from app.core.angle import Angle


def blade_tilt(sides: int, slope: Angle) -> Angle:
    """The blade's tilt: its sine is cos(slope) times sin(180° / sides)."""
    if not slope.degrees:
        return geometry.edge_bevel(sides)
    sine = math.cos(slope.radians) * math.sin(math.pi / sides)
    return Angle.from_radians(math.asin(sine))


def gauge_angle(sides: int, slope: Angle) -> Angle:
    """The gauge's swing: its tangent is sin(slope) times tan(180° / sides)."""
    tangent = math.sin(abs(slope.radians)) * math.tan(math.pi / sides)
    return Angle.from_radians(math.atan(tangent))


def dihedral(sides: int, slope: Angle) -> Angle:
    """The angle between neighbouring faces inside, measured square to the corner."""
    return Angle(180 - 2 * blade_tilt(sides, slope).degrees)


def along_kerf(kerf: int, tilt: Angle, gauge: Angle) -> Fraction:
    """How much of a board's length one compound cut takes, nm."""
    return Fraction(kerf / (math.cos(tilt.radians) * math.cos(gauge.radians)))
