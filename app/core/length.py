"""Lengths: exact values, how makers type them, how a tape shows them."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Self

from app.core.errors import WorkshopError

NM_PER_INCH = 25_400_000  # exact: NIST SP 811 (2008), appendix B.8
NM_PER_MM = 1_000_000
# No shop holds a longer piece; a longer number is a slip of the finger.
LONGEST_NM = 100 * 1000 * NM_PER_MM

ACCEPTED = '1 7/8, 1-7/8", 1\' 3 1/2", 0.1875, 47.6 mm or 4.76 cm'


class Unit(StrEnum):
    """The unit of a number typed without one."""

    INCH = "in"
    MILLIMETRE = "mm"


class NotALength(WorkshopError):
    """Text that is not a length, with the fault and what would do."""

    def __init__(self, typed: str, fault: str, *, input: str = "") -> None:
        shown = typed if len(typed) <= 40 else typed[:40] + "…"
        super().__init__(
            f"“{shown}” is not a length: {fault}. Type it like {ACCEPTED}.", input=input
        )


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
        return Length.nearest(self.nm * times)

    __rmul__ = __mul__

    def __truediv__(self, by: int) -> Length:
        return Length.nearest(Fraction(self.nm, by))

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
        return cls.nearest(_read_nm(typed, unit, input))


def inches(typed: str) -> Length:
    """A length written in inches: for constants and tables."""
    return Length.read(typed, Unit.INCH)


def mm(typed: str | int) -> Length:
    """A length written in millimetres: for constants and tables."""
    return Length.read(str(typed), Unit.MILLIMETRE)


_MARKS = str.maketrans(
    {"”": '"', "“": '"', "″": '"', "’": "'", "‘": "'", "′": "'", "−": "-", "⁄": "/"}
)
_NUMBER = r"(?:\d+ \d+/\d+|\d+-\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+)"
_INCH_WORDS = r'(?:"|\'\'|inches|inch|in\.|in)'
_FOOT_WORDS = r"(?:'|feet|foot|ft\.|ft)"
_METRIC = re.compile(rf"({_NUMBER}) ?(mm|cm|m)")
_FEET = re.compile(
    rf"({_NUMBER}) ?{_FOOT_WORDS}(?:[ -]?({_NUMBER}) ?(?:{_INCH_WORDS})?)?"
)
_INCHES = re.compile(rf"({_NUMBER}) ?{_INCH_WORDS}")
_BARE = re.compile(_NUMBER)
_METRIC_NM = {"mm": NM_PER_MM, "cm": 10 * NM_PER_MM, "m": 1000 * NM_PER_MM}


def _read_nm(typed: str, unit: Unit, field: str) -> Fraction:
    text = _plain(typed)
    if not text:
        raise NotALength(typed, "nothing is there", input=field)
    if len(text) > 40:
        raise NotALength(typed, "it is too long to be one size", input=field)
    if text.startswith("-"):
        raise NotALength(typed, "a size cannot be negative", input=field)
    nm = _matched(text, unit, typed, field)
    if nm is None:
        raise NotALength(typed, _fault(text), input=field)
    if nm > LONGEST_NM:
        raise NotALength(typed, "it is longer than 100 m", input=field)
    return nm


def _plain(typed: str) -> str:
    """The text with one kind of quote, space and fraction."""
    text = typed.translate(_MARKS)
    spaced = "".join(
        " " + unicodedata.normalize("NFKC", mark).translate(_MARKS)
        if "FRACTION" in unicodedata.name(mark, "")
        else mark
        for mark in text
    )
    return " ".join(spaced.split()).lower()


def _matched(text: str, unit: Unit, typed: str, field: str) -> Fraction | None:
    def number(part: str) -> Fraction:
        return _number(part, typed, field)

    if found := _METRIC.fullmatch(text):
        return number(found[1]) * _METRIC_NM[found[2]]
    if found := _FEET.fullmatch(text):
        rest = number(found[2]) if found[2] else Fraction(0)
        return (number(found[1]) * 12 + rest) * NM_PER_INCH
    if found := _INCHES.fullmatch(text):
        return number(found[1]) * NM_PER_INCH
    if _BARE.fullmatch(text):
        per = NM_PER_INCH if unit is Unit.INCH else NM_PER_MM
        return number(text) * per
    return None


def _number(text: str, typed: str, field: str) -> Fraction:
    whole, _, rest = text.replace("-", " ").rpartition(" ")
    if rest.endswith("/0") or ("/" in rest and int(rest.split("/")[1]) == 0):
        raise NotALength(typed, "nothing can be divided by zero", input=field)
    if whole and Fraction(rest) >= 1:
        raise NotALength(
            typed, f"{rest} beside a whole number is not a proper fraction", input=field
        )
    return Fraction(whole or 0) + Fraction(rest)


def _fault(text: str) -> str:
    if "," in text:
        return "it has a comma; write decimals with a full stop"
    if re.search(r"\d[x×]\d| [x×] | by ", text):
        return "it holds more than one size; type one at a time"
    if not re.search(r"\d", text):
        return "it has no number in it"
    if unknown := re.search(
        r"[^\W\d_]+", re.sub(r"(?:mm|cm|inch(?:es)?|in|ft|feet|foot|m)\b", "", text)
    ):
        return f"“{unknown[0]}” is no unit known here"
    return "its parts do not fit together"


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
    scaled = round(Fraction(length.nm * 10**places, per))
    hidden = length - Length.nearest(Fraction(scaled * per, 10**places))
    sign = "-" if scaled < 0 else ""
    whole, rest = divmod(abs(scaled), 10**places)
    digits = f"{rest:0{places}d}".rstrip("0")
    figure = f"{sign}{whole}" + (f".{digits}" if digits else "")
    return Shown(figure, "", "", unit, hidden, _note(hidden, per, 3, length))


def _fraction(length: Length, denominator: int) -> Shown:
    steps = round(Fraction(length.nm * denominator, NM_PER_INCH))
    hidden = length - Length.nearest(Fraction(steps * NM_PER_INCH, denominator))
    whole, rest = divmod(abs(steps), denominator)
    part = Fraction(rest, denominator)
    sign = "-" if steps < 0 else ""
    numerator = str(part.numerator) if part else ""
    number = str(whole) if whole or not part else ""
    if sign:
        number, numerator = (
            (sign + number, numerator) if number else ("", sign + numerator)
        )
    note = _note(hidden, NM_PER_INCH, 3, length)
    return Shown(
        number, numerator, str(part.denominator) if part else "", "in", hidden, note
    )


def _note(hidden: Length, per: int, places: int, length: Length) -> str:
    """What rounding hid, as the display says it: ``true size 0.006 less``."""
    if not hidden:
        return ""
    amount = round(Fraction(abs(hidden.nm), per), places)
    # Past the last digit there is still a difference, and it is said.
    least = Fraction(1, 10**places)
    figure = (
        f"{float(amount):.{places}f}" if amount else f"under {float(least):.{places}f}"
    )
    less = (hidden.nm < 0) == (length.nm >= 0)
    return f"true size {figure} {'less' if less else 'more'}"
