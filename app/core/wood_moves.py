"""What the air does to each size across the grain, and whether it has room.

From the air in the shop, where the wood is measured, to the driest and to the
dampest air it will live in.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.design import Moving
from app.core.length import Length
from app.core.moisture import Moved, moved
from app.core.shop import Shop
from app.core.wood import Species, species_or_plain

NOTHING = Length(0)


@dataclass(frozen=True, slots=True)
class Movement:
    """One size between the shop's air and two others; every wood has figures."""

    of: Moving
    woods: tuple[Species, ...]
    tangential: bool
    to_dry: Moved
    to_damp: Moved

    @property
    def swells(self) -> Length:
        """The most it grows from the size it has in the shop."""
        return max(NOTHING, self.to_dry.change, self.to_damp.change)

    @property
    def shrinks(self) -> Length:
        """The most it loses from the size it has in the shop."""
        return max(NOTHING, -self.to_dry.change, -self.to_damp.change)

    @property
    def name(self) -> str:
        """The species across it."""
        return " and ".join(wood.name for wood in self.woods)

    @property
    def captured(self) -> bool:
        """Whether something holds it on both sides."""
        return self.of.room is not None

    @property
    def pushes(self) -> bool:
        """Whether it grows by more than it has room for."""
        return self.of.room is not None and self.swells > self.of.room


def movements(moving: tuple[Moving, ...], sawn: str, shop: Shop) -> list[Movement]:
    """Each size whose wood is known; ``sawn`` is ``flat`` or ``quarter``.

    The width of a flat-sawn board lies along the growth rings and moves by the
    tangential figures, its thickness by the radial ones; a quarter-sawn board's the
    other way about.
    """
    now, dry, damp = (
        air.moisture for air in (shop.air_now, shop.air_dry, shop.air_damp)
    )
    found = []
    for one in moving:
        shares = _shares(one)
        if shares:
            rings = (one.across == "width") == (sawn != "quarter")
            changes = (_moved(one.size, shares, rings, now, end) for end in (dry, damp))
            woods = tuple(wood for wood, _ in shares)
            found.append(Movement(one, woods, rings, *changes))
    return found


Shares = list[tuple[Species, Fraction]]


def _shares(one: Moving) -> Shares:
    """Its species with their shares; nothing where one of them has no figures."""
    found: dict[str, tuple[Species, Fraction]] = {}
    for name, share in one.woods or ((one.species, Fraction(1)),):
        wood = species_or_plain(name)
        if not isinstance(wood, Species):
            return []
        so_far = found.get(wood.key, (wood, Fraction(0)))[1]
        found[wood.key] = (wood, so_far + share)
    return list(found.values())


def _moved(
    size: Length, shares: Shares, rings: bool, start: Fraction, end: Fraction
) -> Moved:
    """Each wood by its own figures, together."""
    if len(shares) == 1:
        return moved(size, shares[0][0], tangential=rings, start=start, end=end)
    each = [
        moved(size * share, wood, tangential=rings, start=start, end=end)
        for wood, share in shares
    ]
    values = " + ".join(
        f"{float(share):.3g} × {one.values}"
        for one, (_, share) in zip(each, shares, strict=True)
    )
    total = sum((one.change for one in each), NOTHING)
    sources = "; ".join(dict.fromkeys(one.source for one in each))
    return Moved(total, f"({values})", sources)
