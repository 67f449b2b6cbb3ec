"""The tapered vessel as numbers, every one following from the others.

A wall's section, square to its length, lies in a plane with the axis: ``up`` runs
up the outer face from its lower edge, ``deep`` square to it into the wood. The
wall is as long there as the polygon at that distance from the axis allows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from app.core import compound, geometry
from app.core.allowance import Allowances
from app.core.angle import Angle
from app.core.length import Length, inches
from app.core.pattern import Cut, Panel, Pattern, Way, ways
from app.core.volume import share

# Above this a board for one base is hard to find: common practice, no source.
WIDEST_STRIP = inches("5")
MOST_STRIPS = 30
BASE_KEYS = ("wall", "base")


@dataclass(frozen=True)
class Tapered:
    """A tapered vessel that can be built: every number resolved.

    ``lean`` is the slope with its sign, degrees: above nothing where the top is the
    wider end. ``rise`` is the outer face's own height as it stands, the whole
    height where the edges are level. ``step`` is the mark rough sizes go up to.
    """

    sides: int
    top: Length
    bottom: Length
    height: Length
    wall: Length
    level: bool
    lean: Angle
    rise: Fraction
    head_to_tail: bool
    kerf: Length
    base: str
    base_thickness: Length
    base_up: Length
    clearance: Length
    base_species: str
    base_strips: int
    pattern: Pattern
    spares: int
    allowed: Allowances
    step: Length

    @cached_property
    def slope(self) -> Angle:
        """How far the sides lean, either way."""
        return abs_angle(self.lean)

    @cached_property
    def sin(self) -> Fraction:
        """Of the lean, with its sign."""
        return Fraction(math.sin(self.lean.radians)) if self.lean.degrees else NIL

    @cached_property
    def cos(self) -> Fraction:
        """Of the lean."""
        return Fraction(math.cos(self.lean.radians)) if self.lean.degrees else ONE

    @property
    def tan(self) -> Fraction:
        """Of the lean, with its sign."""
        return self.sin / self.cos

    @cached_property
    def part(self) -> Fraction:
        """The tangent of 180° over the sides."""
        return geometry.tan(self.sides)

    @cached_property
    def tilt(self) -> Angle:
        """The blade's, with a face flat on the table."""
        return compound.blade_tilt(self.sides, self.slope)

    @cached_property
    def gauge(self) -> Angle:
        """The mitre gauge's, with a face flat on the table."""
        return compound.gauge_angle(self.sides, self.slope)

    @property
    def out(self) -> bool:
        """Whether the top is the wider end."""
        return self.lean.degrees >= 0

    @property
    def bevelled(self) -> bool:
        """Whether the edges at top and bottom are sawn at the slope."""
        return self.level and bool(self.lean.degrees)

    # The section of a wall.

    @property
    def slant(self) -> Length:
        """The outer face along the slope; the inner one is as long."""
        return Length.nearest(self.rise / self.cos)

    @property
    def shift(self) -> Fraction:
        """How far the inner face lies down the slope from the outer one, nm."""
        return self.wall.nm * self.tan if self.level else NIL

    @property
    def across(self) -> Length:
        """A wall's whole width, with what the level edges reach beyond a face."""
        return Length.nearest(self.rise / self.cos + abs(self.shift))

    @property
    def inset(self) -> Fraction:
        """How much nearer the axis an inner edge is than its outer one, nm."""
        return self.wall.nm / self.cos if self.level else self.wall.nm * self.cos

    @property
    def foot(self) -> Fraction:
        """How high the outer face's lower edge stands over the bench, nm."""
        return NIL if self.level else max(NIL, -self.wall.nm * self.sin)

    def radius(self, up: Fraction, deep: Fraction) -> Fraction:
        """How far a place of the section is from the axis, nm."""
        return Fraction(self.bottom.nm, 2) + up * self.sin - deep * self.cos

    def stands(self, up: Fraction, deep: Fraction) -> Fraction:
        """How high a place of the section stands, nm."""
        return self.foot + up * self.cos + deep * self.sin

    def place(self, up: float, deep: float) -> tuple[float, float]:
        """How far out and how high a place of the section is, nm, for solids."""
        sin, cos = self._turn
        return (
            self.bottom.nm / 2 + up * sin - deep * cos,
            self._foot + up * cos + deep * sin,
        )

    @cached_property
    def _turn(self) -> tuple[float, float]:
        return float(self.sin), float(self.cos)

    @cached_property
    def _foot(self) -> float:
        return float(self.foot)

    @cached_property
    def section(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Up and deep of outer bottom, outer top, inner top and inner bottom."""
        long, wall = self.rise / self.cos, Fraction(self.wall.nm)
        down = -self.shift
        return ((NIL, NIL), (long, NIL), (long + down, wall), (down, wall))

    def _long(self, corner: int) -> Length:
        up, deep = self.section[corner]
        return Length.nearest(2 * self.part * self.radius(up, deep))

    @property
    def face_bottom(self) -> Length:
        """The outer face's lower edge."""
        return self.bottom * self.part

    @property
    def face_top(self) -> Length:
        """The outer face's upper edge."""
        return self.top * self.part

    @property
    def inner_top(self) -> Length:
        """The inner face's upper edge."""
        return self._long(2)

    @property
    def inner_bottom(self) -> Length:
        """The inner face's lower edge."""
        return self._long(3)

    @property
    def face_long(self) -> Length:
        """The outer face's longer edge."""
        return max(self.face_top, self.face_bottom)

    @property
    def mean_length(self) -> Fraction:
        """A wall's mean length, nm: of its four edges."""
        lengths = (self.face_top, self.face_bottom, self.inner_top, self.inner_bottom)
        return Fraction(sum(one.nm for one in lengths), 4)

    # Inside.

    @property
    def inside_top(self) -> Length:
        """Across the flats between the inner faces' upper edges."""
        return Length.nearest(2 * self.radius(*self.section[2]))

    @property
    def inside_bottom(self) -> Length:
        """Across the flats between the inner faces' lower edges."""
        return Length.nearest(2 * self.radius(*self.section[3]))

    @property
    def inside_low(self) -> Fraction:
        """How high the inner faces begin, nm."""
        return self.stands(*self.section[3])

    @property
    def inside_high(self) -> Fraction:
        """How high the inner faces end, nm."""
        return self.stands(*self.section[2])

    def inside_at(self, high: Fraction) -> Fraction:
        """Across the flats inside at a height, nm."""
        start = 2 * self.radius(*self.section[3])
        return start + 2 * (high - self.inside_low) * self.tan

    # The base.

    @property
    def has_base(self) -> bool:
        """Whether there is a bottom to make."""
        return self.base != "none"

    @property
    def inside_base(self) -> bool:
        """Whether the base stands between the walls."""
        return self.base in ("loose", "glued")

    @property
    def room(self) -> Length:
        """What an inside base is smaller at each flat than the walls leave."""
        return self.clearance if self.base == "loose" else Length(0)

    @cached_property
    def base_faces(self) -> tuple[Length, Length]:
        """The base across the flats, below and above."""
        thick = self.base_thickness.nm
        if self.base == "under":
            flush = Length.nearest(self.bottom.nm - 2 * thick * self.tan)
            return flush, self.bottom
        low = Fraction(self.base_up.nm)
        below, above = self.inside_at(low), self.inside_at(low + thick)
        less = self.room * 2
        return Length.nearest(below) - less, Length.nearest(above) - less

    @property
    def base_inscribed(self) -> Length:
        """Across the flats of the base's larger face."""
        return max(self.base_faces)

    @property
    def base_side(self) -> Length:
        """One side of the base's larger face."""
        return geometry.side_of_inscribed(self.base_inscribed, self.sides)

    @property
    def base_reach(self) -> Length:
        """How far the base reaches along or across a side, whichever is more."""
        return max(geometry.extent(geometry.corners(self.sides, self.base_side)))

    @cached_property
    def base_blank(self) -> Length:
        """The square the base is cut from: room to cut every side."""
        room = self.base_reach + inches("1/2")
        return self.rough(max(self.base_inscribed * Fraction(5, 4), room))

    @property
    def base_strip_count(self) -> int:
        """How many strips the base is glued up from; 1 is a plain board."""
        usual = -(-self.base_blank.nm // WIDEST_STRIP.nm)
        return self.base_strips or min(usual, MOST_STRIPS)

    def rough(self, length: Length) -> Length:
        """A rough size: up to the next easy mark on the tape."""
        return Length(-(-length.nm // self.step.nm) * self.step.nm)

    # The wood of the walls.

    @cached_property
    def row_widths(self) -> tuple[Length, ...]:
        """Each row's finished width, bottom up; together the wall's whole width."""
        rows = len(self.pattern.rows)
        return tuple(map(Length, share(self.across.nm, [1] * rows)))

    @property
    def glued(self) -> bool:
        """Whether the walls come from panels of strips."""
        return len(self.pattern.rows) > 1

    @property
    def along_kerf(self) -> Length:
        """What a cut between two walls takes of the board's length."""
        if not self.head_to_tail:
            return self.kerf
        taken = compound.along_kerf(self.kerf.nm, self.tilt, self.gauge)
        return Length.nearest(taken)

    @property
    def pitch(self) -> Length:
        """What every further wall takes of a board, without its kerf."""
        if not self.head_to_tail:
            return self.face_long
        return Length.nearest(self.mean_length)

    def run(self, walls: int) -> Length:
        """The length of board that so many walls take, before trim."""
        return self.face_long + (self.pitch + self.along_kerf) * (walls - 1)

    @cached_property
    def cut(self) -> Cut:
        """How the walls come off their panels."""
        over = self.allowed.of("wall")
        strip = self.row_widths[0] + over.width
        return Cut(
            wall=self.pitch,
            strip_width=strip,
            thickness=self.wall + over.thickness,
            kerf=self.along_kerf,
            # The first wall is as long as its longer edge.
            over_length=over.length + (self.face_long - self.pitch),
            spares=self.spares,
            may_turn=not self.head_to_tail,
        )

    @cached_property
    def ways(self) -> tuple[Way, ...]:
        """Every way to glue the panels up, the best first."""
        return ways(self.pattern, self.cut)

    @property
    def panels(self) -> tuple[Panel, ...]:
        """The panels of the best way."""
        return self.ways[0].panels


NIL, ONE = Fraction(0), Fraction(1)


def abs_angle(angle: Angle) -> Angle:
    """The angle without its sign."""
    return Angle(abs(angle.degrees))
