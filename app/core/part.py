"""Parts and blanks, strips and the panels they are glued into."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from app.core.length import Length


class Grain(StrEnum):
    """Which dimension of a piece the grain runs along; NONE where it may turn."""

    LENGTH = "length"
    WIDTH = "width"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Dimensions:
    """Length along the grain, width across it, thickness."""

    length: Length
    width: Length
    thickness: Length

    @property
    def volume(self) -> int:
        """Cubic nanometres, exactly."""
        return self.length.nm * self.width.nm * self.thickness.nm


@dataclass(frozen=True, slots=True)
class Part:
    """A finished piece and the rough piece it comes from.

    ``glue_up`` names the panel it is cut from; empty where it comes straight
    from a board. ``outline`` is its larger face. ``solid`` is one finished piece
    in whole cubic nanometres; None where it is a plain block. ``more`` is what
    else its list says of it, by heading. ``woods`` is the share of each species in
    its volume, empty where ``species`` names the only one. A ``spare`` is for test
    cuts and never becomes part of the build.
    """

    key: str
    name: str
    quantity: int
    species: str
    finished: Dimensions
    blank: Dimensions
    grain: Grain = Grain.LENGTH
    glue_up: str = ""
    outline: tuple[tuple[Length, Length], ...] = ()
    solid: int | None = None
    more: tuple[tuple[str, str], ...] = ()
    woods: tuple[tuple[str, Fraction], ...] = ()
    spare: bool = False

    @property
    def over_size(self) -> Dimensions:
        """What its blank is larger by: jointed, planed, squared and sanded away."""
        return Dimensions(
            self.blank.length - self.finished.length,
            self.blank.width - self.finished.width,
            self.blank.thickness - self.finished.thickness,
        )

    @property
    def volume(self) -> int:
        """One finished piece, cubic nanometres."""
        return self.finished.volume if self.solid is None else self.solid


@dataclass(frozen=True, slots=True)
class Strip:
    """Equal strips of one species that go into a panel.

    ``finished_width`` is what each adds to the panel's width.
    """

    species: str
    quantity: int
    blank: Dimensions
    finished_width: Length


@dataclass(frozen=True, slots=True)
class GlueUp:
    """Strips glued edge to edge into a panel, in the order they lie.

    ``quantity`` panels are made; each strip's quantity is per panel.
    """

    key: str
    name: str
    quantity: int
    strips: tuple[Strip, ...]
    panel: Dimensions

    @property
    def single(self) -> bool:
        """One strip alone: it is ripped to width, and nothing is glued."""
        return sum(strip.quantity for strip in self.strips) == 1

    def strip_key(self, position: int) -> str:
        """The key under which its blanks lie on the rack; positions from 0."""
        return f"{self.key}.strip-{position + 1}"
