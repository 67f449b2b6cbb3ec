"""A polygon cut from a square board on the mitre gauge: a base, a lid, a plug."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from app.core import geometry
from app.core.allowance import Over
from app.core.length import Length, inches

# Above this a board for one plate is hard to find: common practice, no source.
WIDEST_STRIP = inches("5")
# What the last cut needs to come free: common practice, no source.
FREE = inches("1/2")


@dataclass(frozen=True)
class Plate:
    """A polygon with its grain along side 1, which lies on the blank's edge.

    ``strips`` is how many it is glued up from, 0 for as many as it needs; ``step``
    the mark that rough sizes go up to.
    """

    key: str
    name: str
    sides: int
    inscribed: Length
    thickness: Length
    species: str
    strips: int
    step: Length
    over: Over

    @cached_property
    def side(self) -> Length:
        """One side."""
        return geometry.side_of_inscribed(self.inscribed, self.sides)

    @cached_property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Its corners round its middle in nm, y down, side 1 lowest."""
        return geometry.corners(self.sides, self.side)

    @property
    def area(self) -> Fraction:
        """One face, nm²."""
        return geometry.area_of_inscribed(self.inscribed, self.sides)

    @property
    def flat_to_corner(self) -> Length:
        """From a side to the corner across: what an odd count can measure."""
        return geometry.flat_to_corner(self.inscribed, self.sides)

    @property
    def reach(self) -> Length:
        """How far it reaches along or across a side, whichever is more."""
        return max(geometry.extent(self.corners))

    @property
    def by_share(self) -> Length:
        """A blank of one and a quarter times the finished plate."""
        return self.rough(self.inscribed * Fraction(5, 4))

    @cached_property
    def blank(self) -> Length:
        """The square it is cut from: room to cut every side."""
        return max(self.by_share, self.rough(self.reach + FREE))

    def rough(self, length: Length) -> Length:
        """A rough size: up to the next easy mark on the tape."""
        return Length(-(-length.nm // self.step.nm) * self.step.nm)

    @property
    def strip_count(self) -> int:
        """How many strips it is glued up from; 1 is a plain board."""
        return self.strips or -(-self.blank.nm // WIDEST_STRIP.nm)

    @property
    def panel_key(self) -> str:
        """The key of its glue-up; empty where it is a plain board."""
        return f"{self.key}_panel" if self.strip_count > 1 else ""
