"""The mitred tray as numbers, every one following from the others."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from app.core import geometry
from app.core.allowance import Allowances
from app.core.angle import Angle
from app.core.corner_splines import (
    Corner,
    Splines,
    rectangle_corners,
    regular_corners,
)
from app.core.length import Length, inches, mm

# Above this a board for one panel is hard to find: common practice, no source.
WIDEST_STRIP = inches("5")
# What a 10 in blade cuts through, upright, with a little to spare: common practice.
HIGHEST_CUT = mm(75)


@dataclass(frozen=True, slots=True)
class Tray:
    """A tray that can be built: every number resolved, none contradicting.

    ``long`` and ``short`` are its outside length and width with four sides, the
    longer first; both are the distance across the flats otherwise. ``room`` is at
    each side of the panel.
    """

    sides: int
    long: Length
    short: Length
    rail_width: Length
    rail_height: Length
    species: str
    moulding: Length
    kerf: Length
    housing: str
    material: str
    panel_thickness: Length
    groove_depth: Length
    groove_up: Length
    room: Length
    panel_species: str
    strips: int
    splines: Splines | None
    step: Length
    allowances: Allowances

    @property
    def four(self) -> bool:
        """Whether it is a rectangle."""
        return self.sides == 4

    @property
    def oblong(self) -> bool:
        """Whether there are rails of two lengths."""
        return self.four and self.long != self.short

    @property
    def has_panel(self) -> bool:
        """Whether there is a panel to make."""
        return self.housing != "none"

    @property
    def solid_panel(self) -> bool:
        """Whether the panel is of wood that moves."""
        return self.has_panel and self.material == "solid wood"

    @property
    def gauge(self) -> Angle:
        """The mitre, from a square crosscut."""
        return geometry.edge_bevel(self.sides)

    @property
    def tall(self) -> bool:
        """Whether the rails are too tall to be mitred standing on their edge."""
        return self.rail_height > HIGHEST_CUT

    @property
    def long_side(self) -> Length:
        """A long rail, long point to long point."""
        return self.side_of(self.long)

    @property
    def short_side(self) -> Length:
        """A short rail, long point to long point."""
        return self.side_of(self.short)

    def side_of(self, across: Length) -> Length:
        """The side where the tray, or what follows its outline, is so wide across."""
        if self.four:
            return across
        return geometry.side_of_inscribed(across, self.sides)

    @property
    def sides_round(self) -> tuple[Length, ...]:
        """Every rail's outer length, in order round the tray, the front first."""
        if not self.four:
            return (self.long_side,) * self.sides
        return (self.long, self.short, self.long, self.short)

    @property
    def mitre_back(self) -> Length:
        """How far the inner edge falls short of the outer one at each end."""
        return self.rail_width * geometry.tan(self.sides)

    @property
    def mitre_length(self) -> Length:
        """The cut seen from above, from the long point to the inner corner."""
        return Length.nearest(self.rail_width.nm / geometry.cos(self.sides))

    def inside(self, across: Length) -> Length:
        """Between the rails, where it is so wide outside."""
        return across - self.rail_width * 2

    @property
    def reach(self) -> Length:
        """How far the panel reaches into the rails on each side."""
        return self.groove_depth - self.room

    def panel_across(self, across: Length) -> Length:
        """The panel, where the tray is so wide outside."""
        return self.inside(across) + self.reach * 2

    @property
    def panel_side(self) -> Length:
        """One side of a panel that is no rectangle."""
        return self.side_of(self.panel_across(self.long))

    @property
    def panel_size(self) -> tuple[Length, Length]:
        """The panel's reach along its grain and across it."""
        if self.four:
            return self.panel_across(self.long), self.panel_across(self.short)
        return geometry.extent(geometry.corners(self.sides, self.panel_side))

    @property
    def panel_area(self) -> Fraction:
        """One face of the panel, nm²."""
        return self.area(self.panel_across(self.long), self.panel_across(self.short))

    def area(self, long: Length, short: Length) -> Fraction:
        """The area, nm², of the tray's outline where it is so wide across."""
        if self.four:
            return Fraction(long.nm * short.nm)
        return geometry.area_of_inscribed(long, self.sides)

    def outline(self, long: Length, short: Length) -> list[tuple[float, float]]:
        """Its corners round the middle, nm, x right and y down."""
        if not self.four:
            return list(geometry.corners(self.sides, self.side_of(long)))
        x, y = long.nm / 2, short.nm / 2
        return [(-x, y), (-x, -y), (x, -y), (x, y)]

    @property
    def corners(self) -> tuple[Corner, ...]:
        """The outer corners for the splines, front right first."""
        if self.four:
            return rectangle_corners(self.long, self.short)
        return regular_corners(self.sides, self.long_side)

    @property
    def panel_gauge(self) -> Angle:
        """For a panel that is no rectangle, a finished side on the gauge's fence."""
        return geometry.polygon_gauge(self.sides)

    @property
    def panel_blank(self) -> Length:
        """The square such a panel is cut from, with room to cut every side."""
        across, reach = self.panel_across(self.long), max(self.panel_size)
        return self.rough(max(across * Fraction(5, 4), reach + inches("1/2")))

    @property
    def inside_depth(self) -> Length:
        """From the panel's top to the rails' upper edge."""
        if not self.has_panel:
            return self.rail_height
        return self.rail_height - self.groove_up - self.panel_thickness

    @property
    def diagonal(self) -> Length:
        """From corner to opposite corner of a rectangle."""
        return Length.nearest(math.hypot(self.long.nm, self.short.nm))

    def rough(self, length: Length) -> Length:
        """A rough size: up to the next easy mark on the tape."""
        return Length(-(-length.nm // self.step.nm) * self.step.nm)

    def uncut(self, side: Length) -> Length:
        """A rail of this outer side before its mitres: over size in length."""
        key = "rail"
        if self.oblong:
            key = "long_rail" if side == self.long_side else "short_rail"
        return side + self.allowances.of(key).length

    def run(self, rails: tuple[Length, ...]) -> Length:
        """What these rails take of a moulding, square and over size, before trim."""
        if not rails:
            return NOTHING
        return sum(map(self.uncut, rails), NOTHING) + self.kerf * (len(rails) - 1)


NOTHING = Length(0)
