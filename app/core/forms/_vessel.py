"""The straight vessel as numbers, every one following from the others."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from app.core import geometry
from app.core.allowance import Allowances
from app.core.corner_splines import Splines
from app.core.forms._vessel_plate import Plate
from app.core.length import Length
from app.core.pattern import Column, Cut, Panel, Pattern, Way


@dataclass(frozen=True, slots=True)
class Lid:
    """A lid that lifts off: a plate on the walls, and what drops inside them.

    ``kind`` is ``none``, ``plug`` (a second plate glued under the first) or
    ``rebate`` (one thick plate, rebated round its underside). ``lip`` is how far
    it reaches inside, ``room`` what it has at each flat, ``overhang`` what the
    plate stands out beyond the walls at each flat.
    """

    kind: str
    thickness: Length
    lip: Length
    room: Length
    overhang: Length
    species: str


@dataclass(frozen=True)
class Vessel:
    """A vessel that can be built: every number resolved, none contradicting.

    ``given`` is the size across that was typed; the others follow from it.
    ``step`` is the mark that rough sizes go up to; ``widths`` are the rows' finished
    widths bottom to top, ``pattern`` the species in each row of each wall, ``panels``
    what the walls are cut from, as ``cut`` says; ``ways`` are those that were compared,
    none where all walls are alike.
    """

    given: str
    inside_volume: int | None
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
    pattern: Pattern
    widths: tuple[Length, ...]
    cut: Cut
    panels: tuple[Panel, ...]
    ways: tuple[Way, ...]
    allow: Allowances
    lid: Lid
    splines: Splines | None
    spline_share: Fraction | None
    widest_gap: Length
    width_spread: Length

    @property
    def has_base(self) -> bool:
        """Whether there is a bottom to make."""
        return self.base != "none"

    @property
    def has_lid(self) -> bool:
        """Whether there is a lid to make."""
        return self.lid.kind != "none"

    @property
    def housed(self) -> bool:
        """Whether the base sits in wood cut out of the walls."""
        return self.base in ("groove", "rebate")

    @property
    def glued(self) -> bool:
        """Whether the walls are glued up from strips."""
        return len(self.widths) > 1

    @property
    def alike(self) -> bool:
        """Whether every wall is cut from one sort of panel."""
        return len(self.panels) == 1 and not self.panels[0].turned

    @property
    def kerf(self) -> Length:
        """What a cut between two walls takes."""
        return self.cut.kerf

    @property
    def strip_width(self) -> Length:
        """One row, finished."""
        return self.height / len(self.widths)

    @property
    def panel_length(self) -> Length:
        """All walls side by side with a kerf between, before trim."""
        return self.outside_side * self.sides + self.kerf * (self.sides - 1)

    @property
    def longest_panel(self) -> Panel:
        """The panel that gives most walls."""
        return max(self.panels, key=lambda panel: panel.each)

    @property
    def each_panel_length(self) -> Length:
        """The longest of the panels, before trim."""
        return self.cut.length(self.longest_panel.each) - self.cut.over_length

    @property
    def panel_count(self) -> int:
        """How many panels are made."""
        return sum(panel.quantity for panel in self.panels)

    @property
    def corner_thickness(self) -> Length:
        """Wood at a corner, from the inner corner to the outer one."""
        return Length.nearest(self.wall.nm / geometry.cos(self.sides))

    @property
    def flat_to_corner(self) -> Length:
        """Outside, from a side to the corner across: what an odd count can measure."""
        return (self.outside_inscribed + self.outside_circumscribed) / 2

    @property
    def inside_height(self) -> Length:
        """From the top of the base to the top of the walls."""
        if not self.housed:
            return self.height
        return self.height - self.groove_up - self.base_thickness

    @property
    def lift(self) -> Length:
        """How high the walls' lower edge stands off the bench."""
        return self.base_thickness if self.base == "under" else Length(0)

    @property
    def overall_height(self) -> Length:
        """From the bench to the top of the lid, or of the walls."""
        top = self.lid.thickness if self.has_lid else Length(0)
        return self.lift + self.height + top

    @property
    def lid_inscribed(self) -> Length:
        """The lid across its flats."""
        return self.outside_inscribed + self.lid.overhang * 2

    @property
    def plug_inscribed(self) -> Length:
        """What drops inside, across its flats."""
        return self.inside_inscribed - self.lid.room * 2

    @property
    def lid_rebate(self) -> Length:
        """How wide the rebate round the lid's underside is at each flat."""
        return (self.lid_inscribed - self.plug_inscribed) / 2

    def column(self, wall: int) -> Column:
        """The species of one wall, bottom up; walls from 0."""
        return self.pattern.column(wall)

    @cached_property
    def plates(self) -> tuple[Plate, ...]:
        """The base, the lid and its plug, as far as there are any."""
        lid = self.lid
        found = []
        if self.has_base:
            found.append(
                self._plate(
                    "base", "Base", self.base_inscribed, self.base_thickness,
                    self.base_species, self.base_strips,
                )
            )  # fmt: skip
        if self.has_lid:
            thick = lid.thickness + (lid.lip if lid.kind == "rebate" else Length(0))
            across = self.lid_inscribed
            found.append(self._plate("lid", "Lid", across, thick, lid.species))
        if lid.kind == "plug":
            across = self.plug_inscribed
            found.append(self._plate("plug", "Plug", across, lid.lip, lid.species))
        return tuple(found)

    def plate(self, key: str) -> Plate:
        """The base, the lid or the plug; there must be one."""
        return next(plate for plate in self.plates if plate.key == key)

    def _plate(
        self,
        key: str,
        name: str,
        across: Length,
        thick: Length,
        species: str,
        strips: int = 0,
    ) -> Plate:
        over = self.allow.of(key)
        return Plate(
            key, name, self.sides, across, thick, species, strips, self.step, over
        )
