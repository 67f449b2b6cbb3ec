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
        # A blade is set to a tenth at best; hundredths show what was rounded. An
        # error smaller than that is not nothing, and keeps two figures.
        degrees = float(self.degrees)
        if 0 < abs(degrees) < 0.01:
            places = 1 - math.floor(math.log10(abs(degrees)))
            return f"{degrees:.{places}f}".rstrip("0") + "°"
        return f"{round(degrees, 2):g}°"
