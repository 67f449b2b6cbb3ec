"""The straight vessel as numbers, every one following from the others."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from app.core import geometry
from app.core.length import Length, inches

# Above this a board for one base is hard to find: common practice, no source.
WIDEST_STRIP = inches("5")


@dataclass(frozen=True, slots=True)
class Vessel:
    """A vessel that can be built: every number resolved, none contradicting.

    ``given`` is the size across that was typed; the other three follow from it.
    ``step`` is the mark that rough sizes go up to; ``rows`` are the species bottom
    to top with each row's finished width.
    """

    given: str
    step: Length
    sides: int
    outside_side: Length
    outside_inscribed: Length
    outside_circumscribed: Length
    inside_inscribed: Length
    inside_side: Length
    height: Length
    wall: Length
    base: str
    base_thickness: Length
    groove_depth: Length
    groove_up: Length
    clearance: Length
    base_inscribed: Length
    base_species: str
    base_strips: int
    rows: tuple[tuple[str, Length], ...]
    panels: int
    kerf: Length
    splines: int
    spline_thickness: Length
    spline_share: Fraction
    spline_species: str

    @property
    def has_base(self) -> bool:
        """Whether there is a bottom to make."""
        return self.base != "none"

    @property
    def housed(self) -> bool:
        """Whether the base sits in wood cut out of the walls."""
        return self.base in ("groove", "rebate")

    @property
    def base_side(self) -> Length:
        """One side of the base."""
        return geometry.side_of_inscribed(self.base_inscribed, self.sides)

    @property
    def strip_width(self) -> Length:
        """One row, finished."""
        return self.height / len(self.rows)

    @property
    def panel_length(self) -> Length:
        """All walls side by side with a kerf between, before trim."""
        return self.outside_side * self.sides + self.kerf * (self.sides - 1)

    @property
    def walls_per_panel(self) -> int:
        """How many walls come from each panel."""
        return -(-self.sides // self.panels)

    @property
    def each_panel_length(self) -> Length:
        """One of the panels, before trim."""
        walls = self.walls_per_panel
        return self.outside_side * walls + self.kerf * (walls - 1)

    @property
    def corner_thickness(self) -> Length:
        """Wood at a corner, from the inner corner to the outer one."""
        return Length.nearest(self.wall.nm / geometry.cos(self.sides))

    @property
    def spline_depth(self) -> Length:
        """How deep a spline's slot goes along the line to the middle."""
        return self.corner_thickness * self.spline_share

    @property
    def spline_visible(self) -> Length:
        """How long a spline shows on each face."""
        return Length.nearest(self.spline_depth.nm / geometry.sin(self.sides))

    @property
    def spline_long(self) -> Length:
        """The inner, longest edge of a finished spline."""
        return Length.nearest(2 * self.spline_depth.nm / geometry.tan(self.sides))

    @property
    def base_reach(self) -> Length:
        """How far the base reaches along or across a side, whichever is more."""
        return max(geometry.extent(geometry.corners(self.sides, self.base_side)))

    @property
    def base_blank(self) -> Length:
        """The square the base is cut from: room to cut every side."""
        room = self.base_reach + inches("1/2")
        return self.rough(max(self.base_inscribed * Fraction(5, 4), room))

    def rough(self, length: Length) -> Length:
        """A rough size: up to the next easy mark on the tape."""
        return Length(-(-length.nm // self.step.nm) * self.step.nm)

    @property
    def base_strip_count(self) -> int:
        """How many strips the base is glued up from; 1 is a plain board."""
        return self.base_strips or -(-self.base_blank.nm // WIDEST_STRIP.nm)

    @property
    def inside_height(self) -> Length:
        """From the top of the base to the top of the walls."""
        if not self.housed:
            return self.height
        return self.height - self.groove_up - self.base_thickness

    @property
    def spline_heights(self) -> tuple[Length, ...]:
        """Each spline's middle, up from the walls' lower edge, clear of the base."""
        low = self.height - self.inside_height
        step = Fraction(1, self.splines + 1)
        heights = range(1, self.splines + 1)
        return tuple(low + self.inside_height * (step * i) for i in heights)

    @property
    def closing_gap(self) -> Length:
        """The last joint's gap with every bevel off by a tenth of a degree."""
        off = math.radians(0.1)
        ratio = math.sin(self.sides * off) / math.sin(math.pi / self.sides - off)
        return Length.nearest(self.outside_side.nm * ratio)
