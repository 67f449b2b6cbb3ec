"""How far a shelf sags: published stiffness, and a beam held at both ends."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.figures import table
from app.core.length import NM_PER_INCH, Length
from app.core.wood import Species, species_or_plain

# Exact: NIST SP 811 (2008), appendix B.8; a pound-force is 0.45359237 kg × g.
GRAVITY = Fraction("9.80665")
PASCALS_PER_PSI = Fraction("0.45359237") * GRAVITY / Fraction("0.0254") ** 2
NM_PER_METRE = 1_000_000_000
# Loaded for years, wood gives about as much again: FPL-GTR-190 (2010) chapter 5, time
# under load; from memory.
CREEP = 2
# A sag that the eye does not notice, for the span: common practice, no source.
UNSEEN = Fraction(2, 100) * NM_PER_INCH / (12 * NM_PER_INCH)


@dataclass(frozen=True, slots=True)
class Stiffness:
    """A modulus of elasticity along the grain, at 12 percent moisture, in pascals.

    ``confidence`` is ``read`` or ``memory``, as in the table.
    """

    pascals: Fraction
    source: str
    confidence: str

    @property
    def gigapascals(self) -> Fraction:
        """As tables print it."""
        return self.pascals / 10**9


def stiffness(name: str) -> Stiffness | None:
    """What is published for a wood, plywood or MDF; None where nothing is."""
    known = species_or_plain(name)
    key = known.key if isinstance(known, Species) else name.strip().lower()
    for row in table("stiffness"):
        if row["key"] == key:
            pascals = Fraction(row["modulus"]) * 10**6 * PASCALS_PER_PSI
            return Stiffness(pascals, row["source"], row["confidence"])
    return None


def second_moment(width: Length, thickness: Length) -> Fraction:
    """Of a board lying flat, nm⁴: width × thickness³ / 12."""
    return Fraction(width.nm * thickness.nm**3, 12)


def sag(load: Fraction, span: Length, modulus: Stiffness, moment: Fraction) -> Length:
    """At mid-span, ends simply supported, under an even ``load`` in kg per metre.

    ``moment`` is the second moment in nm⁴. 5 w L⁴ / (384 E I).
    Source: FPL-GTR-190 (2010), chapter 9, deflection of beams; any handbook of statics.
    """
    newtons_per_metre = load * GRAVITY
    # Four powers of the span over four of the section: what is left is metres.
    bent = 5 * newtons_per_metre * span.nm**4 / (384 * modulus.pascals * moment)
    return Length.nearest(bent * NM_PER_METRE)
