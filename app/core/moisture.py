"""How wood follows the air: moisture content, change of width, weight."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.errors import WorkshopError
from app.core.length import Length
from app.core.measure import CUBIC_METRE_NM3
from app.core.wood import Species

# The span in which the straight-line coefficients hold, percent.
DRIEST, WETTEST = Fraction(6), Fraction(14)
FIBRE_SATURATION = Fraction(30)


class MoistureOutOfRange(WorkshopError):
    """A moisture content at which the formula asked for does not hold."""

    def __init__(self, content: Fraction, least: Fraction, most: Fraction) -> None:
        super().__init__(
            f"{float(content):g} % moisture is outside the {float(least):g} to "
            f"{float(most):g} % in which this formula holds."
        )


def _within(content: Fraction, least: Fraction, most: Fraction) -> None:
    if not least <= content <= most:
        raise MoistureOutOfRange(content, least, most)


def width_change(
    width: Length, coefficient: Fraction, start: Fraction, end: Fraction
) -> Length:
    """How far a board's width moves between two moisture contents.

    ``width`` is measured at ``start``. ``coefficient`` is per percent, for the
    way the board is sawn. ``start`` and ``end`` are percents. Shrinkage is
    negative.

    Raises MoistureOutOfRange outside 6-14 %, where this formula fails and
    `wide_width_change` takes over.
    Source: Wood Handbook, FPL-GTR-190 (2010), equation 13-2, table 13-5.
    """
    for content in (start, end):
        _within(content, DRIEST, WETTEST)
    return width * (coefficient * (end - start))


def wide_width_change(
    width: Length,
    shrinkage: Fraction,
    start: Fraction,
    end: Fraction,
    onset: Fraction = FIBRE_SATURATION,
) -> Length:
    """The same over any moisture content up to ``onset``.

    ``shrinkage`` is in percent from green to oven-dry, radial or tangential;
    ``onset`` the moisture content below which this wood shrinks, percent.

    Raises MoistureOutOfRange below 0 and above ``onset``.
    Source: Wood Handbook, FPL-GTR-190 (2010), equation 13-3, its form from
    memory and confirmed by the coefficients of table 13-5.
    """
    for content in (start, end):
        _within(content, Fraction(0), onset)
    return width * ((end - start) / (100 * onset / shrinkage - onset + start))


@dataclass(frozen=True, slots=True)
class Moved:
    """A change of size across the grain: how much, and by which figures.

    ``values`` is the formula with its numbers but for the size, ``source`` what it
    rests on.
    """

    change: Length
    values: str
    source: str


def moved(
    size: Length, wood: Species, *, tangential: bool, start: Fraction, end: Fraction
) -> Moved:
    """How far ``size`` moves, by the equation that holds for these contents.

    Between 6 and 14 percent the coefficients, else the shrinkage; above its onset
    wood moves no more. ``tangential``: along the growth rings, as the width of a
    flat-sawn board; else across them.

    For a few species the two tables rest on different data, and just beyond 6 or 14
    percent the shrinkage gives less than the coefficients gave up to there: then the
    larger holds, or wood in damper air would seem to move less.
    Source: Wood Handbook, FPL-GTR-190 (2010), equations 13-2 and 13-3.
    """
    start, end = min(start, wood.onset), min(end, wood.onset)
    inside = _by_coefficient(size, wood, tangential, _clamped(start), _clamped(end))
    if (_clamped(start), _clamped(end)) == (start, end):
        return inside
    outside = _by_shrinkage(size, wood, tangential, start, end)
    return max(outside, inside, key=lambda one: abs(one.change))


def _clamped(content: Fraction) -> Fraction:
    return min(max(content, DRIEST), WETTEST)


def _by_coefficient(
    size: Length, wood: Species, tangential: bool, start: Fraction, end: Fraction
) -> Moved:
    rate = wood.coefficient_tangential if tangential else wood.coefficient_radial
    values = f"{float(rate):.5f} × ({float(end):g} - {float(start):g})"
    # A few coefficients are not in the table and say where they come from.
    printed = wood.coefficient_basis.startswith("table")
    basis = "" if printed else "its coefficient "
    told = f"eq. 13-2, {_way(tangential)}, {basis}{wood.coefficient_basis}"
    change = width_change(size, rate, start, end)
    return Moved(change, values, f"Wood Handbook FPL-GTR-190 {told}")


def _by_shrinkage(
    size: Length, wood: Species, tangential: bool, start: Fraction, end: Fraction
) -> Moved:
    share = wood.shrinkage_tangential if tangential else wood.shrinkage_radial
    values = (
        f"({float(end):g} - {float(start):g}) / ({float(100 * wood.onset):g} / "
        f"{float(share):g} - {float(wood.onset):g} + {float(start):g})"
    )
    told = f"eq. 13-3, {_way(tangential)} shrinkage of tables 4-3 and 4-4"
    change = wide_width_change(size, share, start, end, wood.onset)
    return Moved(change, values, f"Wood Handbook FPL-GTR-190 {told}")


def _way(tangential: bool) -> str:
    return "tangential" if tangential else "radial"


def equilibrium(fahrenheit: float, humidity: float) -> float:
    """The moisture content, percent, that wood comes to in still air.

    ``humidity`` is relative, in percent. Raises WorkshopError outside 30 to
    200 °F and 0 to 95 %, where the equation was checked.
    Source: Wood Handbook, FPL-GTR-190 (2010), equation 4-5 (two-hydrate
    sorption) for °C, whose constants give more of the printed digits of table 4-2
    than those for °F; from memory, then seen in public source text.
    """
    if not (30 <= fahrenheit <= 200 and 0 <= humidity <= 95):
        raise WorkshopError(
            "The moisture table holds from 30 to 200 °F (-1 to 93 °C) "
            "and up to 95 % relative humidity."
        )
    t, h = (fahrenheit - 32) / 1.8, humidity / 100
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * h
    bound = k1 * kh + 2 * k1 * k2 * kh**2
    return 1800 / w * (kh / (1 - kh) + bound / (1 + k1 * kh + k1 * k2 * kh**2))


def grams(volume: int, species: Species) -> Fraction:
    """The weight of ``volume`` nm³ at 12 percent moisture content, grams.

    Specific gravity is on the volume at 12 percent, so a cubic metre weighs
    it a thousandfold and the water, 12 percent, on top.
    Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4, and the table's rows.
    """
    per_cubic_metre = species.specific_gravity * 1_000_000 * Fraction(112, 100)
    return Fraction(volume, CUBIC_METRE_NM3) * per_cubic_metre
