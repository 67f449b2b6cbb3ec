"""Reading a volume as a maker types it: what a vessel is to hold."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Self

from app.core.errors import WorkshopError
from app.core.length_typed import NM_PER_INCH, NUMBER, Fault, Unit, number, plain

ACCEPTED = "2 l, 2.5 litres, 750 ml, 120 in3, 1 qt or 1 gal (US)"
LITRE = 10**24  # nm³
CUBIC_INCH = NM_PER_INCH**3
# The US liquid gallon is 231 cubic inches: NIST Handbook 44, appendix C.
GALLON = 231 * CUBIC_INCH
# No shop builds a larger vessel; a larger number is a slip of the finger.
LARGEST = 100_000 * LITRE
_UNITS = {
    LITRE: ("l", "litre", "litres", "liter", "liters"),
    LITRE // 100: ("cl",),
    LITRE // 1000: ("ml", "cc", "cm3", "cm³"),
    CUBIC_INCH: ("in3", "in³", "cu in", "cubic inch", "cubic inches"),
    GALLON: ("gal", "gallon", "gallons"),
    GALLON // 4: ("qt", "quart", "quarts"),
    GALLON // 8: ("pt", "pint", "pints"),
    GALLON // 128: ("fl oz", "fluid ounce", "fluid ounces"),
}
_NM3 = {word: nm3 for nm3, words in _UNITS.items() for word in words}
_TYPED = re.compile(rf"({NUMBER}) ?([a-z³ ]+3?)?", re.ASCII)


class NotAVolume(WorkshopError):
    """Text that is not a volume, with the fault and what would do."""

    def __init__(self, typed: str, fault: str, *, input: str = "") -> None:
        shown = typed if len(typed) <= 40 else typed[:40] + "…"
        message = f"“{shown}” is not a volume: {fault}. Type it like {ACCEPTED}."
        super().__init__(message, input=input)


@dataclass(frozen=True, order=True, slots=True)
class Volume:
    """A whole number of cubic nanometres."""

    nm3: int

    @classmethod
    def read(cls, typed: str, unit: Unit = Unit.INCH, *, input: str = "") -> Self:
        """Read a volume; gallons, quarts, pints and fluid ounces are US ones.

        A bare number is in what a volume is shown in: cubic inches in a shop that
        works in inches, litres in one that works in millimetres. Raises NotAVolume.
        """
        try:
            return cls(round(_read(plain(typed), unit)))
        except Fault as fault:
            raise NotAVolume(typed, str(fault), input=input) from None

    def typed(self, unit: Unit = Unit.INCH) -> str:
        """As it would be typed; reading it gives the same volume."""
        if unit is Unit.INCH and self.nm3 % (CUBIC_INCH // 64) == 0:
            whole, rest = divmod(Fraction(self.nm3, CUBIC_INCH), 1)
            parts = [str(whole)] if whole or not rest else []
            return " ".join([*parts, *([str(rest)] if rest else []), "in3"])
        whole_litres, below = divmod(self.nm3, LITRE)
        return f"{whole_litres}.{below:024d}".rstrip("0").rstrip(".") + " l"


def _read(text: str, unit: Unit) -> Fraction:
    if not text:
        raise Fault("nothing is there")
    if text.startswith("-"):
        raise Fault("a volume cannot be negative")
    found = _TYPED.fullmatch(text)
    word = (found[2] or "").strip() if found else ""
    if not found or (word and word not in _NM3):
        raise Fault(_why(text))
    bare = CUBIC_INCH if unit is Unit.INCH else LITRE
    nm3 = number(found[1]) * _NM3.get(word, bare)
    if nm3 > LARGEST:
        raise Fault("it is more than 100 000 litres")
    return nm3


def _why(text: str) -> str:
    if "," in text:
        return "it has a comma; write decimals with a full stop"
    if not re.search(r"\d", text, re.ASCII):
        return "it has no number in it"
    unknown = re.search(r"[^\W\d_][^\d]*", text)
    if unknown and unknown[0].strip() not in _NM3:
        return f"“{unknown[0].strip()}” is no unit of volume known here"
    return "its parts do not fit together"
