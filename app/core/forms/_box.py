"""The box as numbers, every one following from the others.

Its walls are numbered anticlockwise as seen from above, the front first: 0 and 2 are
the sides, which run along the length, 1 and 3 the ends, the right one first. Heights
are up from the walls' lower edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.corner_splines import Splines
from app.core.forms._box_fingers import Fingers
from app.core.length import Length, inches
from app.core.part import Dimensions
from app.core.pattern import Pattern
from app.core.volume import share

# Wider boards are hard to find and cup: common practice, no source.
WIDEST_STRIP = inches("5")
NONE = Length(0)


@dataclass(frozen=True, slots=True)
class Groove:
    """A groove along the inside of walls, from ``low`` up to ``high``."""

    low: Length
    high: Length


@dataclass(frozen=True, slots=True)
class Held:
    """Dividers of one direction: where they stand and how long they are.

    ``starts`` are from the inside face of the wall that lies first on the way right
    or back to each divider's near face; ``compartment`` is the room between two.
    """

    starts: tuple[Length, ...]
    length: Length
    compartment: Length


@dataclass(frozen=True, slots=True)
class Dividers:
    """All dividers: those across run from side to side, those along from end to end.

    ``dado`` is the depth of the dados they stand in, nothing where they are loose.
    """

    across: Held
    along: Held
    thickness: Length
    height: Length
    dado: Length
    room: Length
    species: str

    @property
    def slot(self) -> Length:
        """How wide the slots are where two dividers cross."""
        return self.thickness + self.room

    @property
    def slot_down(self) -> Length:
        """How deep the slots of those across are, from the top."""
        return Length(self.height.nm // 2)

    @property
    def slot_up(self) -> Length:
        """How deep the slots of those along are, from below."""
        return self.height - self.slot_down

    @property
    def crossing(self) -> bool:
        """Whether any two cross."""
        return bool(self.across.starts and self.along.starts)


@dataclass(frozen=True, slots=True)
class Lid:
    """The lid: ``kind`` as asked for, its sizes and what holds it.

    ``lip`` is how far a lift-off lid reaches into the box, ``room`` what it has at
    each edge, ``plug`` the size of what reaches in. ``groove`` is a sliding lid's.
    """

    kind: str
    size: Dimensions
    lip: Length
    room: Length
    plug: tuple[Length, Length]
    species: str
    strips: int
    groove: Groove | None = None

    @property
    def batten(self) -> Dimensions:
        """One of the two battens under a lid, across its grain."""
        wide = max(self.plug[0] / 8, self.lip)
        return Dimensions(self.plug[1], wide, self.lip)


@dataclass(frozen=True, slots=True)
class Box:
    """A box that can be built: every number resolved, none contradicting.

    ``whisker`` is how much longer than the wall fingers are cut, to be sanded off.
    """

    length: Length
    width: Length
    height: Length
    wall: Length
    joint: str
    fingers: Fingers | None
    cutter: Length
    whisker: Length
    rebate_depth: Length
    rebate_on: str
    base: str
    base_size: Dimensions
    base_up: Length
    groove_depth: Length
    clearance: Length
    plywood: bool
    base_species: str
    base_strips: int
    pattern: Pattern
    kerf: Length
    lid: Lid | None
    dividers: Dividers | None
    splines: Splines | None
    spline_share: Fraction | None
    sawn: str
    spares: int
    coats: int
    finish: str

    @property
    def under(self) -> Length:
        """How far the walls stand above the bench: on a base under them."""
        return self.base_size.thickness if self.base == "under" else NONE

    @property
    def wall_height(self) -> Length:
        """The walls, from their lower to their upper edge."""
        return self.height - self.under

    @property
    def inside_length(self) -> Length:
        """Between the ends."""
        return self.length - self.wall * 2

    @property
    def inside_width(self) -> Length:
        """Between the sides."""
        return self.width - self.wall * 2

    @property
    def base_top(self) -> Length:
        """The base's upper face, up from the walls' lower edge."""
        return NONE if self.base == "under" else self.base_up + self.base_size.thickness

    @property
    def base_groove(self) -> Groove | None:
        """The groove or rebate that the base sits in."""
        if self.base == "under":
            return None
        return Groove(self.base_up, self.base_top)

    @property
    def lid_groove(self) -> Groove | None:
        """The groove that a sliding lid runs in."""
        return self.lid.groove if self.lid else None

    @property
    def ceiling(self) -> Length:
        """What is free above the base ends here, up from the walls' lower edge."""
        if self.lid_groove:
            return self.lid_groove.low
        return self.wall_height - (self.lid.lip if self.lid else NONE)

    @property
    def inside_height(self) -> Length:
        """From the base to the top of the walls, or to what a lid leaves."""
        return self.ceiling - self.base_top

    @property
    def rows(self) -> tuple[Length, ...]:
        """The strips' finished widths, bottom up."""
        count = len(self.pattern.rows)
        return tuple(Length(nm) for nm in share(self.wall_height.nm, [1] * count))

    def outer(self, number: int) -> Length:
        """The outside of the box along a wall."""
        return self.width if number % 2 else self.length

    def carries(self, number: int) -> bool:
        """Whether the corner rebates are cut in this wall."""
        return (self.rebate_on == "ends") == bool(number % 2)

    def cut_length(self, number: int) -> Length:
        """The finished length of a wall, between its farthest ends."""
        if self.joint == "rebate" and not self.carries(number):
            return self.outer(number) - (self.wall - self.rebate_depth) * 2
        return self.outer(number)

    def sawn_length(self, number: int) -> Length:
        """A wall as it comes off the saw: its fingers stand proud at both ends."""
        return self.cut_length(number) + self.whisker * 2

    def shows(self, number: int, groove: Groove) -> bool:
        """Whether a groove run through would show at this wall's ends."""
        if self.fingers:
            return any(
                i % 2 == number % 2 for i in self.fingers.met(groove.low, groove.high)
            )
        return (
            self.joint == "rebate"
            and self.carries(number)
            and self.groove_depth > self.rebate_depth
        )

    @property
    def groove_end(self) -> Length:
        """Where a stopped groove begins, from the outer corner."""
        return self.wall - self.groove_depth
