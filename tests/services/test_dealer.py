"""What the dealer sells: lines as a maker writes them down at the counter."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.job import Blank
from app.core.cutting.random_widths import RandomWidths
from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit, inches, mm
from app.core.movement import PieceKind
from app.core.receiving import Per
from app.core.shop import Shop
from app.services import dealer

INCH = Shop()
METRIC = replace(Shop(), unit=Unit.MILLIMETRE, display=Display(Unit.MILLIMETRE))
TABLE = "four public tables stating the hardwood grading standard"
PS20 = "US Voluntary Product Standard PS 20"


def one(line: str, shop: Shop = INCH) -> dealer.Offer | RandomWidths:
    (found,) = dealer.offers(line, shop)
    return found


@pytest.mark.parametrize(
    ("line", "size", "cost", "kind"),
    [
        ("walnut, 13/16, 6, 96, 48.00", ("13/16", "6", "96"), 4800, PieceKind.BOARD),
        ("walnut, 13/16, 6, 96, 48 each", ("13/16", "6", "96"), 4800, PieceKind.BOARD),
        ("ply, 1/2, 48, 96, 62 a sheet", ("1/2", "48", "96"), 6200, PieceKind.SHEET),
        ("walnut, 4/4, 6, 8 ft, 48", ("1", "6", "96"), 4800, PieceKind.BOARD),
        # 1 x 6 x 96 in = 4 board feet: US Navy training text, board measure.
        ("ash, 4/4, 6, 96, 5.50 per bf", ("1", "6", "96"), 2200, PieceKind.BOARD),
        # Planed on both faces it is thinner and charged as it was.
        ("ash, 4/4 S2S, 6, 96, 5.50/bf", ("13/16", "6", "96"), 2200, PieceKind.BOARD),
    ],
)
def test_a_piece_of_fixed_size_has_one_price(
    line: str, size: tuple[str, str, str], cost: int, kind: PieceKind
) -> None:
    found = one(line)
    assert isinstance(found, dealer.Offer)
    stock = found.stock
    assert (stock.thickness, stock.width, stock.length) == tuple(map(inches, size))
    assert (stock.cost, stock.quantity, found.kind) == (cost, None, kind)


@pytest.mark.parametrize(
    ("nominal", "thickness", "width", "source"),
    [
        ("1 x 4", "3/4", "3 1/2", PS20),
        ("2x4", "1 1/2", "3 1/2", PS20),
        ("1 × 12", "3/4", "11 1/4", PS20),
        ("2 x 8", "1 1/2", "7 1/4", PS20),
    ],
)
def test_a_stick_is_sold_by_its_nominal_size_and_measures_less(
    nominal: str, thickness: str, width: str, source: str
) -> None:
    found = one(f"pine, {nominal}, 96, 7.50 a stick")
    assert isinstance(found, dealer.Offer)
    measured = (found.stock.thickness, found.stock.width)
    assert measured == (inches(thickness), inches(width)), source
    assert found.stock.length == inches("96")


@pytest.mark.parametrize(
    ("quarters", "thickness", "charged", "source"),
    [
        ("4/4", "1", "1", TABLE),
        ("8/4", "2", "2", TABLE),
        ("4/4 S2S", "13/16", "1", TABLE),
        ("6/4 s1s", "1 3/8", "1 1/2", TABLE),
        ("8/4 planed both sides", "1 3/4", "2", TABLE),
    ],
)
def test_quarters_are_rough_and_charged_as_rough(
    quarters: str, thickness: str, charged: str, source: str
) -> None:
    found = one(f"oak, {quarters}, 5 to 9 wide, 96 to 120 long, 12.50 per board foot")
    assert isinstance(found, RandomWidths)
    assert (found.thickness, found.charged) == (inches(thickness), inches(charged))
    assert source


def test_random_width_boards_have_limits_and_a_rate() -> None:
    found = one("walnut, 4/4, 5 to 9 wide, 96 to 120 long, 12.50 per board foot")
    assert isinstance(found, RandomWidths)
    assert found.widths == (inches("5"), inches("9"))
    assert found.lengths == (inches("96"), inches("120"))
    assert (found.rate, found.per) == (1250, Per.BOARD_FOOT)
    assert found.cost(inches("6"), inches("96")) == 5000


@pytest.mark.parametrize(
    ("price", "per", "cost"),
    [
        # 27 mm x 200 mm x 2.5 m = 0.0135 m3 and 0.5 m2: exact units.
        ("2900 per m3", Per.CUBIC_METRE, 3915),
        ("78 per m²", Per.SQUARE_METRE, 3900),
        ("78 / square metre", Per.SQUARE_METRE, 3900),
    ],
)
def test_metric_boards_go_by_the_cubic_or_the_square_metre(
    price: str, per: Per, cost: int
) -> None:
    line = f"oak, 27, 120 to 240 wide, 2000 to 3000 long, {price}"
    found = one(line, METRIC)
    assert isinstance(found, RandomWidths)
    assert (found.thickness, found.per) == (mm(27), per)
    assert found.cost(mm(200), mm(2500)) == cost


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        ("walnut, 4/4, 5 to 9 wide, 96 to 120 long, 12", "no price by the piece"),
        ("walnut, 4/4, 9 to 5 wide, 96 long, 12 per bf", "ends before it begins"),
        ("walnut, 4/4, 96 to 120 long, 5 to 9 wide, 12 per bf", "Widths come first"),
        ("walnut, 9/4, 5 to 9 wide, 96 long, 12 per bf", "not a hardwood thickness"),
        ("walnut, 7/4 S1S, 6, 96, 12 per bf", "no standard size planed on one side"),
        ("walnut, 4/4, 5 to wide, 96 long, 12 per bf", "is not a length"),
        ("walnut, 4/4, 6, 96, 12 per truck", "is for what"),
        ("walnut, 4/4, 6, 96, 12 50", "is not a price"),
        ("pine, 2x4, 96", "five parts"),
        ("pine, 2 x 5, 96, 4.00", "not a nominal width"),
        ("pine, 2 x 4, 96, 4.00 per bf", "by their nominal size"),
        ("walnut, " + "1" * 90 + ", 6, 96, 4", "five parts"),
    ],
)
def test_a_line_that_is_not_understood_says_why(line: str, fault: str) -> None:
    with pytest.raises(WorkshopError, match=fault) as refused:
        dealer.offers("walnut, 1, 6, 96, 48\n" + line, INCH)
    assert str(refused.value).startswith("Line 2")
    assert refused.value.input == "dealer"


def test_a_pile_is_planned_on_only_where_something_could_come_of_it() -> None:
    line = "walnut, 4/4, 5 to 9 wide, 96 to 120 long, 12.50 per board foot"
    shelf = Blank("shelf", inches("30"), inches("6"), inches("7/8"), 4, "walnut")
    assert dealer.read(line, INCH) == ()
    assert dealer.read(line, INCH, [replace(shelf, species="oak")]) == ()
    boards = dealer.read(line, INCH, [shelf])
    assert boards
    for board in boards:
        assert board.width is not None
        assert inches("5") <= board.width <= inches("9")
        assert inches("96") <= board.length <= inches("120")
        assert dealer.is_random(board.id)
        assert dealer.line_of(board.id) == "dealer-1"
    assert boards == dealer.read(line, INCH, [shelf])


def test_boards_of_fixed_size_are_what_they_are() -> None:
    (board,) = dealer.read("walnut, 1, 8, 96, 60.00", INCH)
    assert not dealer.is_random(board.id)
    assert dealer.line_of(board.id) == board.id == "dealer-1"
    assert board.length == Length(96 * 25_400_000)
