"""The stave cylinder as numbers, every one following from the others."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core import geometry
from app.core.allowance import Allowances
from app.core.angle import Angle
from app.core.forms import _turned as turned
from app.core.forms._turned import Bottom, Profile
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class Cylinder:
    """Staves that can be ripped and glued round, and what is turned out of them.

    ``outside`` is across the outer flats, ``inside`` the circle that the inner
    corners may not pass; both hold the turned circles and the allowance. ``woods``
    are the species going round.
    """

    staves: int
    profile: Profile
    outside: Length
    inside: Length
    turning: Length
    height: Length
    thickness: Length
    woods: tuple[str, ...]
    bottom: Bottom | None
    kerf: Length
    spares: int
    allowances: Allowances

    @property
    def bevel(self) -> Angle:
        """The blade's tilt for both edges of every stave."""
        return geometry.edge_bevel(self.staves)

    @property
    def least(self) -> Length:
        """The least thickness that holds both circles."""
        return turned.least_depth(self.outside, self.inside, self.staves)

    @property
    def width(self) -> Length:
        """The outer face, edge to edge."""
        return geometry.side_of_inscribed(self.outside, self.staves)

    @property
    def inner_width(self) -> Length:
        """The inner face."""
        return self.width - self.narrows * 2

    @property
    def narrows(self) -> Length:
        """What one bevel takes off the inner face."""
        return self.thickness * geometry.tan(self.staves)

    @property
    def inner_corners(self) -> Length:
        """The circle the inner corners lie on."""
        return geometry.circumscribed(self.inner_width, self.staves)

    @property
    def face(self) -> Fraction:
        """A stave's end, nm²."""
        return Fraction((self.width + self.inner_width).nm * self.thickness.nm, 2)

    @property
    def volume(self) -> int:
        """One stave as sawn, whole nm³."""
        return round(self.face * self.height.nm)

    @property
    def sawn_volume(self) -> int:
        """The glued blank before it is turned, whole nm³."""
        wood = self.volume * self.staves
        if self.bottom is not None:
            wood += round(self.bottom.area * self.bottom.thickness.nm)
        return wood

    @property
    def across_corners(self) -> Length:
        """What the lathe must swing."""
        return turned.through_corners(self.outermost)

    @property
    def outermost(self) -> turned.Flats:
        """The flats whose corners lie furthest out."""
        return turned.outermost([(self.outside, self.staves)], self.bottom)

    @property
    def floor(self) -> Length:
        """Where the staves stand."""
        return self.profile.floor

    @property
    def kinds(self) -> dict[str, int]:
        """Staves by species, in the order met."""
        return {wood: self.woods.count(wood) for wood in dict.fromkeys(self.woods)}

    @property
    def first_fence(self) -> Length:
        """To the blade at table height for the first edge, outer face up."""
        return self.blank_width - self.narrows

    @property
    def second_fence(self) -> Length:
        """The same for the second edge, the first one's tip on the fence."""
        return self.width - self.narrows

    @property
    def blank_width(self) -> Length:
        """A stave before its bevels."""
        return self.width + self.allowances.of("stave").width

    def in_one(self, least: Length) -> int:
        """How many staves are ripped in one length, so that it is no shorter."""
        each = self.height + self.allowances.of("stave").length
        return max(-(-least.nm // each.nm), 1)
