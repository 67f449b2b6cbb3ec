"""How much wood, by the three rules of the trade, and what planing leaves of it.

True volume is geometry. A hardwood tally and a softwood tally are what a yard
counts and charges: they round and use nominal sizes, each by its own rule. A
number always says which of the three it came from.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from app.core.errors import WorkshopError
from app.core.figures import table
from app.core.length import NM_PER_INCH, Length, inches

# 1 in by 12 in by 12 in: US Navy engineering-aid training text, board measure.
BOARD_FOOT_NM3 = 144 * NM_PER_INCH**3
LITRE_NM3 = 10**24
CUBIC_METRE_NM3 = 10**27


def board_feet(volume: int) -> Fraction:
    """True volume in nm³ as board feet, exactly; a thin board counts as it is.

    Source: 144 cubic inches, US Navy engineering-aid training text.
    """
    return Fraction(volume, BOARD_FOOT_NM3)


def litres(volume: int) -> Fraction:
    """A volume in nm³ as litres, exactly."""
    return Fraction(volume, LITRE_NM3)


def cubic_metres(volume: int) -> Fraction:
    """A volume in nm³ as cubic metres, exactly."""
    return Fraction(volume, CUBIC_METRE_NM3)


def in_board_feet(volume: int) -> str:
    """A volume in nm³ for reading: ``1.00 board foot``, ``0.42 board feet``."""
    return _amount(board_feet(volume), "board foot", "board feet")


def in_litres(volume: int) -> str:
    """A volume in nm³ for reading: ``1.00 litre``, ``3.35 litres``."""
    return _amount(litres(volume), "litre", "litres")


def _amount(number: Fraction, one: str, many: str) -> str:
    shown = round(number, 2)
    if number and not shown:
        return f"under 0.01 {many}"
    return f"{float(shown):.2f} {one if shown == 1 else many}"


def nominal_board_feet(thickness: Length, width: Length, length: Length) -> Fraction:
    """Board feet where a thickness under 1 in counts as 1 in.

    Source: US Navy engineering-aid training text, board measure.
    """
    counted = max(thickness, inches("1"))
    return counted.inches * width.inches * length.inches / 144


@dataclass(frozen=True, slots=True)
class Board:
    """A board as a yard tallies it: nominal thickness, true width and length."""

    thickness: Length
    width: Length
    length: Length


def surface_measure(width: Length, length: Length) -> Fraction:
    """True width in inches by whole feet of length, over twelve: square feet.

    Not yet rounded. Source: encyclopaedia article on the board foot.
    """
    whole_feet = floor(length.inches / 12)
    return width.inches * whole_feet / 12


def hardwood_tally(boards: Iterable[Board]) -> Fraction:
    """Board feet of a hardwood tally: whole surface measure by thickness.

    Each board's surface measure goes to the nearest whole square foot; exact
    halves go up and down by turns through the tally. A thickness under 1 in
    counts as 1 in.
    Source: encyclopaedia article on the board foot; the turns from memory of
    the hardwood grading rules.
    """
    total = Fraction(0)
    up = True
    for board in boards:
        exact = surface_measure(board.width, board.length)
        whole = floor(exact + Fraction(1, 2))
        if exact % 1 == Fraction(1, 2):
            whole = floor(exact) + up
            up = not up
        total += whole * max(board.thickness, inches("1")).inches
    return total


def softwood_tally(thickness: Length, width: Length, length: Length) -> Fraction:
    """Board feet of one softwood piece by its nominal thickness and width.

    The length is cut back to the even foot and the result goes to 0.01.
    Source: encyclopaedia article on the board foot.
    """
    even_feet = floor(length.inches / 24) * 2
    exact = max(thickness, inches("1")).inches * width.inches * even_feet / 12
    return Fraction(floor(exact * 100 + Fraction(1, 2)), 100)


@dataclass(frozen=True, slots=True)
class Quarters:
    """A rough hardwood thickness as yards name it, and what planing leaves.

    ``one_side`` (S1S) is None where the standard has no such size.
    """

    name: str
    rough: Length
    one_side: Length | None
    two_sides: Length
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class Dressed:
    """A nominal softwood size and what it measures, dry and green."""

    nominal: str
    dry: Length
    green: Length
    source: str
    confidence: str


class NoSuchMeasure(WorkshopError):
    """A nominal size that the tables do not hold."""


def quarters(name: str) -> Quarters:
    """The rough thickness ``name`` (``4/4``, ``8/4`` …). Raises NoSuchMeasure."""
    rows = table("lumber_hardwood")
    found = next((row for row in rows if row["name"] == name.strip()), None)
    if not found:
        sold = ", ".join(row["name"] for row in rows)
        raise NoSuchMeasure(f"“{name}” is not a hardwood thickness. Sold are {sold}.")
    one_side = inches(found["one_side"]) if found["one_side"] else None
    sizes = (inches(found["rough"]), one_side, inches(found["two_sides"]))
    return Quarters(found["name"], *sizes, found["source"], found["confidence"])


def dressed(nominal: str, dimension: str) -> Dressed:
    """What a nominal softwood ``thickness`` or ``width`` measures.

    Raises NoSuchMeasure. Source: US Voluntary Product Standard PS 20.
    """
    rows = [row for row in table("lumber_softwood") if row["dimension"] == dimension]
    found = next((row for row in rows if row["nominal"] == nominal.strip()), None)
    if not found:
        sold = ", ".join(row["nominal"] for row in rows)
        sentence = f"“{nominal}” is not a nominal {dimension}. Sold are {sold}."
        raise NoSuchMeasure(sentence)
    sizes = (inches(found["dry"]), inches(found["green"]))
    return Dressed(found["nominal"], *sizes, found["source"], found["confidence"])
