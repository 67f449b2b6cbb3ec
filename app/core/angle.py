"""Angles in degrees: from a vertical blade, from a square crosscut."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Self


@dataclass(frozen=True, order=True, slots=True)
class Angle:
    """An angle in degrees; exact where the trade's formula is."""

    degrees: Fraction

    @classmethod
    def of(cls, degrees: Fraction | float) -> Self:
        """From degrees: an exact ratio, or what trigonometry gave."""
        return cls(Fraction(degrees))

    @classmethod
    def from_radians(cls, radians: float) -> Self:
        """From radians, as the mathematics library gives them."""
        return cls(Fraction(math.degrees(radians)))

    @property
    def radians(self) -> float:
        """For the mathematics library."""
        return math.radians(self.degrees)

    def __str__(self) -> str:
        # A blade is set to a tenth at best; hundredths show what was rounded.
        return f"{round(float(self.degrees), 2):g}°"
