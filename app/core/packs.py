"""Bottles and cans: what to buy of what is used up."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil

from app.core.figures import table
from app.core.length import Unit

GLUE, FINISH = "PVA wood glue", "finish"
_NUMBERS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


@dataclass(frozen=True, slots=True)
class Pack:
    """One size that a supply is sold in."""

    name: str
    millilitres: Fraction


@cache
def sold(supply: str, unit: Unit) -> tuple[Pack, ...]:
    """The usual sizes in the shop's system, the smallest first."""
    rows = (row for row in table("packs") if row["supply"] == supply)
    packs = [
        Pack(row["name"], Fraction(row["millilitres"]))
        for row in rows
        if row["unit"] == unit.value
    ]
    return tuple(sorted(packs, key=lambda pack: pack.millilitres))


def to_buy(supply: str, millilitres: Fraction, unit: Unit) -> str:
    """What holds that much: ``one 8 fl oz bottle``, ``two gallon cans``.

    The smallest that is enough, or so many of the largest.
    """
    packs = sold(supply, unit)
    enough = next((one for one in packs if one.millilitres >= millilitres), None)
    if enough:
        return f"one {enough.name}"
    count = ceil(millilitres / packs[-1].millilitres)
    number = _NUMBERS[count] if count < len(_NUMBERS) else str(count)
    return f"{number} {packs[-1].name}s"
