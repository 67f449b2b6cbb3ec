"""The carcass as numbers, every one following from the others.

The sides run its full height. Top and bottom lie in rebates at their ends, fixed
shelves in dadoes, all of one depth, so that these are of one length. The back lies
in a rebate round the back edge, as deep into the boards as the dadoes; shelves end
before it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from app.core.allowance import Allowances
from app.core.length import Length, inches
from app.core.stiffness import (
    CREEP,
    UNSEEN,
    Stiffness,
    sag,
    second_moment,
    stiffness,
)
from app.core.wood import Species, species_or_plain

WIDEST_STRIP = inches("5")  # wider boards are hard to find: common practice
NOTHING = Length(0)
WATER = 1000  # kg/m³


@dataclass(frozen=True, slots=True)
class Carcass:
    """A carcass that can be built: every number resolved, none contradicting.

    ``strips`` is what a solid side is glued up from, 1 for a plain board or a sheet.
    ``edge`` is the strip on the front edges, nothing where there is none.
    """

    width: Length
    height: Length
    depth: Length
    material: str
    species: str
    thickness: Length
    strips: int
    edge: Length
    edge_species: str
    shelves: int
    dado: Length
    load: Fraction
    back: str
    back_thickness: Length
    back_room: Length
    back_species: str
    back_strips: int
    loose: int
    play: Length
    pinned: bool
    pin_diameter: Length
    pin_depth: Length
    pin_pitch: Length
    pin_inset: Length
    pin_clear: Length
    kerf: Length
    step: Length
    allowances: Allowances

    @property
    def solid(self) -> bool:
        """Whether the boards are of wood that moves."""
        return self.material == "solid wood"

    @property
    def has_back(self) -> bool:
        """Whether there is a back to make."""
        return self.back != "none"

    @property
    def solid_back(self) -> bool:
        """Whether the back is of wood that moves."""
        return self.back == "solid wood"

    @property
    def inside_width(self) -> Length:
        """Between the sides."""
        return self.width - self.thickness * 2

    @property
    def inside_height(self) -> Length:
        """Between bottom and top."""
        return self.height - self.thickness * 2

    @property
    def shelf_length(self) -> Length:
        """Of top, bottom and fixed shelves: into the sides at both ends."""
        return self.inside_width + self.dado * 2

    @property
    def board_depth(self) -> Length:
        """Of sides, top and bottom, without the strip on their front edge."""
        return self.depth - self.edge

    @property
    def behind(self) -> Length:
        """What the back takes of the depth."""
        return self.back_thickness if self.has_back else NOTHING

    @property
    def shelf_depth(self) -> Length:
        """Of a fixed shelf, without the strip on its front edge."""
        return self.board_depth - self.behind

    @property
    def opening(self) -> Length:
        """From one fixed shelf to the next."""
        left = self.inside_height - self.thickness * self.shelves
        return left / (self.shelves + 1)

    @property
    def shelf_heights(self) -> tuple[Length, ...]:
        """Lower edges of the dadoes, up from the sides' lower end, lowest first."""
        left = self.inside_height.nm - self.thickness.nm * self.shelves
        step = Fraction(left, self.shelves + 1)
        return tuple(
            self.thickness * i + Length.nearest(step * i)
            for i in range(1, self.shelves + 1)
        )

    @property
    def levels(self) -> tuple[tuple[Length, Length], ...]:
        """Lower and upper face of bottom, fixed shelves and top, lowest first."""
        lows = (NOTHING, *self.shelf_heights, self.height - self.thickness)
        return tuple((low, low + self.thickness) for low in lows)

    @property
    def openings(self) -> tuple[tuple[Length, Length], ...]:
        """From where to where the sides are free, lowest first."""
        levels = self.levels
        return tuple((levels[i][1], levels[i + 1][0]) for i in range(len(levels) - 1))

    @property
    def back_width(self) -> Length:
        """From rebate to rebate, less the room."""
        return self.shelf_length - self.back_room * 2

    @property
    def back_height(self) -> Length:
        """From the bottom's rebate to the top's, less the room."""
        return self.inside_height + self.dado * 2 - self.back_room * 2

    @property
    def loose_length(self) -> Length:
        """An adjustable shelf between the sides, with its play."""
        return self.inside_width - self.play * 2

    @property
    def loose_depth(self) -> Length:
        """An adjustable shelf, its play at the front and the back taken off."""
        return self.depth - self.behind - self.play * 2

    @property
    def holes(self) -> tuple[tuple[Length, ...], ...]:
        """Middles of the holes of one row, opening by opening, up from the bottom."""
        if not self.pinned:
            return ()
        return tuple(self._holes(low, high) for low, high in self.openings)

    def _holes(self, low: Length, high: Length) -> tuple[Length, ...]:
        room = high - low - self.pin_clear * 2
        if room < NOTHING:
            return ()
        count = room.nm // self.pin_pitch.nm + 1
        start = low + (high - low - self.pin_pitch * (count - 1)) / 2
        return tuple(start + self.pin_pitch * i for i in range(count))

    @property
    def loose_heights(self) -> tuple[Length, ...]:
        """Lower faces of the adjustable shelves as drawn, each on its pins.

        They are dealt out to the openings in turn and stand there evenly spread.
        """
        rows = [row for row in self.holes if row]
        found = []
        for i, row in enumerate(rows):
            share = self.loose // len(rows) + (i < self.loose % len(rows))
            for n in range(1, share + 1):
                hole = row[len(row) * n // (share + 1)]
                found.append(hole + self.pin_diameter / 2)
        return tuple(found)

    @property
    def modulus(self) -> Stiffness | None:
        """Published stiffness of the shelves; None where there is none."""
        return stiffness(self.species)

    @property
    def moment(self) -> Fraction:
        """Second moment of a shelf lying flat, without its strip, nm⁴."""
        return second_moment(self.shelf_depth, self.thickness)

    def sag_under(self, load: Fraction) -> Length | None:
        """At mid-span of a shelf, in kg per metre; None without a stiffness."""
        if self.modulus is None:
            return None
        return sag(load, self.shelf_length, self.modulus, self.moment)

    @property
    def own_load(self) -> Fraction:
        """What a shelf weighs, kg per metre; nothing where it is not known."""
        wood = species_or_plain(self.species)
        if not isinstance(wood, Species):
            return Fraction(0)
        section = Fraction(self.shelf_depth.nm * self.thickness.nm, 10**18)
        # The gravity's mass is oven-dry, on the volume at 12 percent.
        return wood.specific_gravity * WATER * section * Fraction(112, 100)

    @property
    def least_sag(self) -> Length:
        """What the eye does not notice on this span."""
        return self.shelf_length * UNSEEN

    def thickness_for(self, limit: Length) -> Length | None:
        """How thick the shelves would have to be to sag no more, for years."""
        sagged = self.sag_under(self.load + self.own_load)
        if not sagged:
            return None
        more = (CREEP * sagged.nm / limit.nm) ** (1 / 3)
        return Length(math.ceil(self.thickness.nm * more))

    def rough(self, length: Length) -> Length:
        """A rough size: up to the next easy mark on the tape."""
        return Length(-(-length.nm // self.step.nm) * self.step.nm)
