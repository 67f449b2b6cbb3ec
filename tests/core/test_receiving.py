"""What wood counts when it is bought, in each unit that it is sold by."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.core.length import inches, mm
from app.core.money import Money
from app.core.movement import Piece, PieceKind
from app.core.part import Dimensions
from app.core.receiving import Per, amount, price, tally

NAVY = "US Navy engineering-aid training text, board measure"
UNITS = "exact unit definitions"
BOARD = Piece(
    PieceKind.BOARD, "ash", Dimensions(inches("96"), inches("6"), inches("1"))
)
METRIC = Piece(PieceKind.BOARD, "ash", Dimensions(mm(2400), mm(150), mm(25)))


@pytest.mark.parametrize(
    ("piece", "per", "units", "source"),
    [
        (BOARD, Per.BOARD_FOOT, "4", NAVY),
        (BOARD, Per.PIECE, "1", "a piece is a piece"),
        (METRIC, Per.CUBIC_METRE, "0.009", UNITS),
        (METRIC, Per.SQUARE_METRE, "0.36", UNITS),
    ],
)
def test_a_board_counts_by_what_it_is_sold_by(
    piece: Piece, per: Per, units: str, source: str
) -> None:
    assert tally(per, piece, 1) == Fraction(units), source
    assert tally(per, piece, 3) == 3 * Fraction(units)


@pytest.mark.parametrize(
    ("per", "paid", "working"),
    [
        (Per.CUBIC_METRE, 5220, "0.018 cubic metres at 2900.00 EUR a cubic metre"),
        (Per.SQUARE_METRE, 208800, "0.72 square metres at 2900.00 EUR a square metre"),
        (Per.PIECE, 580000, "2 at 2900.00 EUR each"),
        (Per.ALL, 290000, ""),
    ],
)
def test_a_price_shows_its_working(per: Per, paid: int, working: str) -> None:
    found = price(Money(290000, "EUR"), per, METRIC, 2)
    assert (found.paid, found.working) == (paid, working)


@pytest.mark.parametrize(
    ("units", "per", "words"),
    [
        ("1", Per.BOARD_FOOT, "1.00 board foot"),
        ("14.25", Per.BOARD_FOOT, "14.25 board feet"),
        ("0.0625", Per.CUBIC_METRE, "0.062 cubic metres"),
        ("1", Per.SQUARE_METRE, "1.00 square metre"),
    ],
)
def test_amounts_read_as_on_a_bill(units: str, per: Per, words: str) -> None:
    assert amount(Fraction(units), per) == words
