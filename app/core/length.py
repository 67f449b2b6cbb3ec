"""Lengths: exact values, and how a tape shows them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import Self

from app.core.length_typed import (
    ACCEPTED,
    LONGEST_NM,
    NM_PER_INCH,
    NM_PER_MM,
    NotALength,
    Unit,
    read_nm,
)

__all__ = [
    "ACCEPTED",
    "LONGEST_NM",
    "NM_PER_INCH",
    "NM_PER_MM",
    "Display",
    "Length",
    "NotALength",
    "Shown",
    "Unit",
    "inches",
    "mm",
    "show",
]


@dataclass(frozen=True, order=True, slots=True)
class Length:
    """An exact length: a whole number of nanometres."""

    nm: int

    def __post_init__(self) -> None:
        # A float would let in 0.1 + 0.2, which is not 0.3.
        if type(self.nm) is not int:
            raise TypeError(f"a Length holds whole nanometres, not {self.nm!r}")

    @classmethod
    def nearest(cls, nm: Fraction | float) -> Self:
        """The length closest to a ratio; core rounds nowhere else."""
        return cls(round(nm))

    def __add__(self, other: Length) -> Length:
        return Length(self.nm + other.nm)

    def __sub__(self, other: Length) -> Length:
        return Length(self.nm - other.nm)

    def __neg__(self) -> Length:
        return Length(-self.nm)

    def __abs__(self) -> Length:
        return Length(abs(self.nm))

    def __mul__(self, times: Fraction | int) -> Length:
        if isinstance(times, int):
            return Length(self.nm * times)
        return Length(_divided(self.nm * times.numerator, times.denominator))

    __rmul__ = __mul__

    def __truediv__(self, by: int) -> Length:
        return Length(_divided(self.nm, by))

    def __bool__(self) -> bool:
        return self.nm != 0

    @property
    def inches(self) -> Fraction:
        """The same length in inches, exactly."""
        return Fraction(self.nm, NM_PER_INCH)

    @property
    def millimetres(self) -> Fraction:
        """The same length in millimetres, exactly."""
        return Fraction(self.nm, NM_PER_MM)

    @classmethod
    def read(cls, typed: str, unit: Unit = Unit.INCH, *, input: str = "") -> Self:
        """Read a length as a maker types it; a bare number is in ``unit``.

        Raises NotALength, naming the fault, for anything else.
        """
        return cls.nearest(read_nm(typed, unit, input))


def inches(typed: str) -> Length:
    """A length written in inches: for constants and tables."""
    return Length.read(typed, Unit.INCH)


def mm(typed: str | int) -> Length:
    """A length written in millimetres: for constants and tables."""
    return Length.read(str(typed), Unit.MILLIMETRE)


@dataclass(frozen=True, slots=True)
class Display:
    """How the workspace shows lengths."""

    unit: Unit = Unit.INCH
    denominator: int = 32  # the finest line on the tape: 8, 16, 32 or 64
    decimal: bool = False  # inches as decimals instead of fractions
    both: bool = False  # the other system in brackets


@dataclass(frozen=True, slots=True)
class Shown:
    """A length as shown, in pieces a page can set, with what rounding hid.

    ``hidden`` is the true length less the shown one: negative where the true
    size is less.
    """

    whole: str
    numerator: str
    denominator: str
    unit: str
    hidden: Length
    note: str = ""
    other: str = ""

    @property
    def figure(self) -> str:
        """The number alone, as it would be typed: ``1 7/8``."""
        fraction = f"{self.numerator}/{self.denominator}" if self.numerator else ""
        return " ".join(filter(None, [self.whole, fraction]))

    @property
    def text(self) -> str:
        """Number and unit, without what rounding hid."""
        return f"{self.figure} {self.unit}" + (f" ({self.other})" if self.other else "")

    def __str__(self) -> str:
        return self.text + (f" ({self.note})" if self.note else "")


def show(length: Length, display: Display = Display()) -> Shown:
    """A length rounded once, for reading."""
    shown = _show_one(length, display)
    if not display.both:
        return shown
    other_unit = Unit.MILLIMETRE if display.unit is Unit.INCH else Unit.INCH
    other = _show_one(length, Display(other_unit, display.denominator, display.decimal))
    pieces = (shown.whole, shown.numerator, shown.denominator, shown.unit)
    return Shown(*pieces, shown.hidden, shown.note, other.text)


def _show_one(length: Length, display: Display) -> Shown:
    if display.unit is Unit.MILLIMETRE:
        return _decimal(length, NM_PER_MM, 1, "mm")
    if display.decimal:
        return _decimal(length, NM_PER_INCH, 4, "in")
    return _fraction(length, display.denominator)


def _decimal(length: Length, per: int, places: int, unit: str) -> Shown:
    scaled = _divided(length.nm * 10**places, per)
    hidden = Length(length.nm - _divided(scaled * per, 10**places))
    sign = "-" if scaled < 0 else ""
    whole, rest = divmod(abs(scaled), 10**places)
    digits = f"{rest:0{places}d}".rstrip("0")
    figure = f"{sign}{whole}" + (f".{digits}" if digits else "")
    return Shown(figure, "", "", unit, hidden, _note(hidden, per, 3, length))


def _fraction(length: Length, denominator: int) -> Shown:
    steps = _divided(length.nm * denominator, NM_PER_INCH)
    hidden = Length(length.nm - _divided(steps * NM_PER_INCH, denominator))
    whole, rest = divmod(abs(steps), denominator)
    common = gcd(rest, denominator)
    sign = "-" if steps < 0 else ""
    numerator = str(rest // common) if rest else ""
    number = str(whole) if whole or not rest else ""
    if sign:
        number, numerator = (
            (sign + number, numerator) if number else ("", sign + numerator)
        )
    note = _note(hidden, NM_PER_INCH, 3, length)
    below = str(denominator // common) if rest else ""
    return Shown(number, numerator, below, "in", hidden, note)


def _divided(number: int, by: int) -> int:
    """A ratio's nearest whole number, halves to the even one, as `round` does.

    A page shows hundreds of lengths; whole numbers are many times quicker than
    ratios.
    """
    whole, rest = divmod(number, by)
    return whole + (2 * rest > by or (2 * rest == by and whole % 2))


def _note(hidden: Length, per: int, places: int, length: Length) -> str:
    """What rounding hid, as the display says it: ``true size 0.006 less``."""
    if not hidden:
        return ""
    amount = _divided(abs(hidden.nm) * 10**places, per)
    # Past the last digit there is still a difference, and it is said.
    figure = f"{max(amount, 1) / 10**places:.{places}f}"
    figure = figure if amount else f"under {figure}"
    less = (hidden.nm < 0) == (length.nm >= 0)
    return f"true size {figure} {'less' if less else 'more'}"
