"""How the fingers of a box are laid out up its corners.

An odd number of equal fingers, so that both edges look alike: the sides have the
first and the last of them, the ends those between. Plane arithmetic; that fewer than
three make no joint, and more than a hundred no sense, is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from app.core.length import Length, Unit, inches, mm

LEAST, MOST = 3, 99


@dataclass(frozen=True, slots=True)
class Fingers:
    """``count`` equal fingers up a corner ``height`` high, cut with one cutter.

    ``asked`` is the least that each was to be wide: so many times the cutter.
    """

    height: Length
    cutter: Length
    asked: Length
    count: int

    @property
    def width(self) -> Length:
        """One finger, and one notch."""
        return self.height / self.count

    @property
    def marks(self) -> tuple[int, ...]:
        """Where fingers begin and end, up from the lower edge, nm."""
        high, count = self.height.nm, self.count
        return tuple((2 * high * i + count) // (2 * count) for i in range(count + 1))

    @property
    def passes(self) -> int:
        """Passes of the cutter for each notch."""
        return math.ceil(Fraction(self.height.nm, self.count * self.cutter.nm))

    @property
    def exact(self) -> bool:
        """Whether whole passes fill a notch without overlapping."""
        return self.height.nm == self.count * self.passes * self.cutter.nm

    @property
    def shim(self) -> Length:
        """What goes between pin and work for a notch's last pass."""
        return max(self.width - self.cutter, Length(0))

    @property
    def smooth_height(self) -> Length:
        """The next lower height that whole passes fill."""
        whole = self.height.nm // (self.count * self.cutter.nm)
        return Length(self.count * whole * self.cutter.nm)

    def of_sides(self, low: int, high: int) -> bool:
        """Whether the sides have wood at the corner between two of the marks."""
        return (low + high) * self.count // (2 * self.height.nm) % 2 == 0

    def met(self, low: Length, high: Length) -> tuple[int, ...]:
        """The fingers, from 0, that a groove from ``low`` to ``high`` runs into."""
        marks = self.marks
        return tuple(
            i for i in range(self.count) if marks[i] < high.nm and low.nm < marks[i + 1]
        )


def whisker(unit: Unit) -> Length:
    """How much longer than the wall fingers are cut; common practice, no source."""
    return inches("1/32") if unit is Unit.INCH else mm("0.5")


def most_fingers(height: Length, least_width: Length) -> int:
    """The largest odd number of fingers that are each at least so wide."""
    whole = height.nm // least_width.nm
    return whole if whole % 2 else whole - 1
