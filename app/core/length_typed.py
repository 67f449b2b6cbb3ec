"""Reading a length as a maker types it, naming the fault where it is none."""

from __future__ import annotations

import re
import unicodedata
from enum import StrEnum
from fractions import Fraction

from app.core.errors import WorkshopError

NM_PER_INCH = 25_400_000  # exact: NIST SP 811 (2008), appendix B.8
NM_PER_MM = 1_000_000
# No shop holds a longer piece; a longer number is a slip of the finger.
LONGEST_NM = 100 * 1000 * NM_PER_MM
LONGEST_TYPED = 40

ACCEPTED = '1 7/8, 1-7/8", 1\' 3 1/2", 0.1875, 47.6 mm or 4.76 cm'


class Unit(StrEnum):
    """The unit of a number typed without one."""

    INCH = "in"
    MILLIMETRE = "mm"


class NotALength(WorkshopError):
    """Text that is not a length, with the fault and what would do."""

    def __init__(self, typed: str, fault: str, *, input: str = "") -> None:
        shown = typed if len(typed) <= LONGEST_TYPED else typed[:LONGEST_TYPED] + "…"
        super().__init__(
            f"“{shown}” is not a length: {fault}. Type it like {ACCEPTED}.", input=input
        )


_MARKS = str.maketrans(
    {"”": '"', "“": '"', "″": '"', "’": "'", "‘": "'", "′": "'", "−": "-", "⁄": "/"}
)
NUMBER = r"(?:\d+ \d+/\d+|\d+-\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+)"
_INCH_WORDS = r'(?:"|\'\'|inches|inch|in\.|in)'
_FOOT_WORDS = r"(?:'|feet|foot|ft\.|ft)"
_METRIC = re.compile(rf"({NUMBER}) ?(mm|cm|m)", re.ASCII)
_FEET = re.compile(
    rf"({NUMBER}) ?{_FOOT_WORDS}(?:[ -]?({NUMBER}) ?(?:{_INCH_WORDS})?)?", re.ASCII
)
_INCHES = re.compile(rf"({NUMBER}) ?{_INCH_WORDS}", re.ASCII)
_BARE = re.compile(NUMBER, re.ASCII)
_METRIC_NM = {"mm": NM_PER_MM, "cm": 10 * NM_PER_MM, "m": 1000 * NM_PER_MM}


class Fault(Exception):
    """Why the text is no length, before the sentence is made."""


def read_nm(typed: str, unit: Unit, field: str = "") -> Fraction:
    """The length as typed, in nanometres, exactly; a bare number is in ``unit``.

    Raises NotALength, naming the fault and the ``field``, for anything else.
    """
    try:
        return _bounded(plain(typed), unit)
    except Fault as fault:
        raise NotALength(typed, str(fault), input=field) from None


def _bounded(text: str, unit: Unit) -> Fraction:
    if not text:
        raise Fault("nothing is there")
    if text.startswith("-"):
        raise Fault("a size cannot be negative")
    nm = _matched(text, unit)
    if nm is None:
        raise Fault(_why(text))
    if nm > LONGEST_NM:
        raise Fault("it is longer than 100 m")
    return nm


def plain(typed: str) -> str:
    """The text with one kind of digit, quote, space and fraction."""
    if len(typed) > 4 * LONGEST_TYPED:
        raise Fault("it is too long to be one size")
    text = "".join(map(_ascii, typed.translate(_MARKS)))
    text = " ".join(text.split()).lower().replace("- ", "-")
    if len(text) > LONGEST_TYPED:
        raise Fault("it is too long to be one size")
    return text


def _ascii(mark: str) -> str:
    """A mark as the keyboard's own: ``⅞`` becomes `` 7/8``, full-width 5 a 5.

    A decimal digit of any script has one value. A superscript has none here:
    5² is not 52, so it stays as it is and is refused.
    """
    if "FRACTION" in unicodedata.name(mark, ""):
        return " " + unicodedata.normalize("NFKC", mark).translate(_MARKS)
    if mark.isdecimal():
        return str(unicodedata.decimal(mark))
    if "！" <= mark <= "～":
        return unicodedata.normalize("NFKC", mark)
    return mark


def _matched(text: str, unit: Unit) -> Fraction | None:
    if found := _METRIC.fullmatch(text):
        return number(found[1]) * _METRIC_NM[found[2]]
    if found := _FEET.fullmatch(text):
        return _feet(found[1], found[2] or "0") * NM_PER_INCH
    if found := _INCHES.fullmatch(text):
        return number(found[1]) * NM_PER_INCH
    if _BARE.fullmatch(text):
        return number(text) * (NM_PER_INCH if unit is Unit.INCH else NM_PER_MM)
    return None


def _feet(feet: str, inches: str) -> Fraction:
    rest = number(inches)
    if rest >= 12:
        raise Fault(f"{inches} inches beside feet is a foot or more")
    return number(feet) * 12 + rest


def number(text: str) -> Fraction:
    whole, _, rest = text.replace("-", " ").rpartition(" ")
    if "/" in rest and int(rest.split("/")[1]) == 0:
        raise Fault("nothing can be divided by zero")
    if whole and Fraction(rest) >= 1:
        raise Fault(f"{rest} beside a whole number is not a proper fraction")
    return Fraction(whole or 0) + Fraction(rest)


_UNIT_WORDS = re.compile(r"(?:mm|cm|inch(?:es)?|in|ft|feet|foot|m)\b")


def _why(text: str) -> str:
    if "," in text:
        return "it has a comma; write decimals with a full stop"
    if re.search(r"[\d\"'a-z.] ?[x×] ?[\d.]|\bby\b", text):
        return "it holds more than one size; type one at a time"
    if not re.search(r"\d", text, re.ASCII):
        return "it has no number in it"
    if unknown := re.search(r"[^\W\d_]+", _UNIT_WORDS.sub("", text)):
        return f"“{unknown[0]}” is no unit known here"
    return "its parts do not fit together"
