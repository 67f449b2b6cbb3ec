"""The cells of a dealer's line: thicknesses in quarters, ranges, prices by amount."""

from __future__ import annotations

import re
from dataclasses import dataclass

from app.core.errors import WorkshopError
from app.core.length import Length, show
from app.core.measure import quarters
from app.core.money import Money
from app.core.receiving import Per
from app.core.shop import Shop

FIELD = "dealer"
RANDOM_LIKE = "walnut, 4/4, 5 to 9 wide, 96 to 120 long, 12.50 per board foot"

_PER = {
    Per.BOARD_FOOT: r"board foot|board feet|bd\.? ?ft\.?|bf",
    Per.CUBIC_METRE: r"cubic met(?:re|er)|m3|m³",
    Per.SQUARE_METRE: r"square met(?:re|er)|m2|m²",
    Per.PIECE: r"piece|board|stick|sheet|each|one",
}
_PRICE = re.compile(r"(\S+?)(?: ?(?:(?:per|a|an|/) ?(.+)|(each)))?", re.IGNORECASE)
RANGE = re.compile(r"(.+?) (?:to|-|–) (.+?) (wide|long)", re.IGNORECASE)
_ROUGH = re.compile(r"(\d{1,2}/4)(?: (s1s|s2s|planed one side|planed both sides))?")


@dataclass(frozen=True, slots=True)
class Thick:
    """A thickness as it lies in the pile, and what the dealer reckons with."""

    actual: Length
    charged: Length
    name: str


@dataclass(frozen=True, slots=True)
class Price:
    """A price in minor units, what it is for, and the dealer's word for that."""

    minor: int
    per: Per
    word: str


def read_range(cell: str, word: str, shop: Shop) -> tuple[Length, Length]:
    """``5 to 9 wide``, or one size alone for both limits: ``96 long``.

    ``word`` is wide or long. Raises WorkshopError.
    """
    found = RANGE.fullmatch(cell)
    if not found:
        one = read_size(cell.removesuffix(word).strip(), shop)
        return one, one
    if found[3].lower() != word:
        raise WorkshopError(
            f"“{cell}” stands where boards are {word}. Widths come first, then "
            f"lengths, like {RANDOM_LIKE}."
        )
    low, high = read_size(found[1], shop), read_size(found[2], shop)
    if high < low:
        raise WorkshopError(
            f"“{cell}” ends before it begins. Write the smaller size first."
        )
    return low, high


def read_thickness(cell: str, shop: Shop) -> Thick:
    """A size, or quarters: ``4/4`` is rough, ``4/4 S2S`` planed on both faces.

    The dealer charges for the rough thickness either way. Raises WorkshopError.
    """
    found = _ROUGH.fullmatch(cell.lower())
    if not found:
        size = read_size(cell, shop)
        return Thick(size, size, show(size, shop.display).figure)
    known = quarters(found[1])
    planed = {
        None: known.rough,
        "s1s": known.one_side,
        "planed one side": known.one_side,
    }.get(found[2], known.two_sides)
    if planed is None:
        raise WorkshopError(
            f"{found[1]} has no standard size planed on one side. Type its thickness, "
            "or S2S for both."
        )
    return Thick(planed, known.rough, cell)


def read_price(cell: str, shop: Shop) -> Price:
    """``12.50 per board foot``, ``62 a sheet``, ``2900/m3``; alone it is for a piece.

    Raises WorkshopError.
    """
    found = _PRICE.fullmatch(cell)
    if not found:
        raise WorkshopError(f"“{cell[:40]}” is not a price. Type it like 12.50.")
    word = (found[2] or found[3] or "piece").strip().lower()
    per = next((x for x, ways in _PER.items() if re.fullmatch(ways, word)), None)
    if per is None:
        raise WorkshopError(
            f"A price “{cell[:40]}” is for what? Say board foot, m3, m2, or the piece: "
            "board, stick or sheet."
        )
    money = Money.read(found[1], shop.currency, input=FIELD)
    return Price(money.minor, per, word)


def read_size(typed: str, shop: Shop) -> Length:
    """A size of more than nothing. Raises WorkshopError."""
    found = Length.read(typed, shop.unit, input=FIELD)
    if not found:
        raise WorkshopError(f"“{typed}” is no size for a board.", input=FIELD)
    return found
