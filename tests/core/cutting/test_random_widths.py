"""Random-width boards: what a pile may hold, and how much of it to buy."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core.cutting.how_much import PILES, how_much, sold
from app.core.cutting.job import Blank, Job, Keep, Saw
from app.core.cutting.pile import representative
from app.core.cutting.random_widths import (
    Board,
    Must,
    RandomWidths,
    chosen,
    drawn,
    musts,
)
from app.core.cutting.solve import solve
from app.core.length import Length, inches, mm
from app.core.measure import Board as Tallied
from app.core.measure import hardwood_tally
from app.core.receiving import Per

SAW = Saw(inches("1/8"), inches("1/2"), inches("1/8"))
NOTHING = Length(0)
NAVY = "US Navy engineering-aid training text, board measure"


def walnut(
    widths: tuple[str, str] = ("5", "9"), lengths: tuple[str, str] = ("96", "120")
) -> RandomWidths:
    return RandomWidths(
        "dealer-1",
        "walnut",
        inches("1"),
        inches("1"),
        (inches(widths[0]), inches(widths[1])),
        (inches(lengths[0]), inches(lengths[1])),
        1250,
        Per.BOARD_FOOT,
        "walnut 4/4",
    )


def blank(length: str, width: str, quantity: int = 1, key: str = "") -> Blank:
    name = key or f"{length} x {width}"
    return Blank(name, inches(length), inches(width), inches("7/8"), quantity, "walnut")


@pytest.mark.parametrize(
    ("thickness", "width", "length", "feet", "source"),
    [
        ("1", "6", "96", "4", NAVY),
        ("1", "9", "96", "6", NAVY),
        ("1.5", "9", "96", "9", NAVY),
        ("1", "12", "12", "1", NAVY),
        ("1.25", "7.5", "96", "6.25", "144 cubic inches, exact units"),
        ("3/4", "6", "48", "2", f"{NAVY}: under 1 in counts as 1 in"),
    ],
)
def test_a_board_counts_the_board_feet_of_the_definition(
    thickness: str, width: str, length: str, feet: str, source: str
) -> None:
    line = replace(walnut(), charged=inches(thickness))
    assert line.amount(inches(width), inches(length)) == Fraction(feet), source


def test_a_yards_tally_differs_by_no_more_than_its_rounding() -> None:
    # Surface measure goes to the nearest whole square foot of each board
    # (encyclopaedia article on the board foot): half a foot a board at 1 in thick.
    boards = list(islice(drawn(walnut(), 3), 40))
    true = sum(walnut().amount(one.width, one.length) for one in boards)
    yard = hardwood_tally(Tallied(inches("1"), x.width, x.length) for x in boards)
    assert abs(true - yard) <= Fraction(len(boards), 2)
    assert abs(true - yard) <= true / 20


def test_a_pile_lies_between_the_limits_and_uses_all_of_them() -> None:
    boards = list(islice(drawn(walnut(), 0), 300))
    assert boards == list(islice(drawn(walnut(), 0), 300))
    assert {one.length for one in boards} == {
        inches("96"),
        inches("108"),
        inches("120"),
    }
    widths = [one.width for one in boards]
    assert (min(widths), max(widths)) == (inches("5"), inches("9"))
    mean = sum(one.nm for one in widths) / len(widths)
    assert abs(mean - inches("7").nm) < inches("1/4").nm


def test_metric_boards_go_by_metric_steps() -> None:
    line = replace(
        walnut(), widths=(mm(120), mm(240)), lengths=(mm(2000), mm(3000)), metric=True
    )
    for one in islice(drawn(line, 1), 50):
        assert one.width.nm % 5_000_000 == 0
        assert one.length.nm % 100_000_000 == 0


def told(found: tuple[Must, ...]) -> list[tuple[int, Length, Length]]:
    return [(one.quantity, one.width, one.length) for one in found]


def test_the_largest_blanks_say_what_some_boards_must_be() -> None:
    # 7 in and two edge trims; 62 in and two end trims: two do not go end to end
    # on the shortest board.
    found = musts(walnut(), [blank("62", "7", 2), blank("30", "4", 9)], SAW)
    assert told(found) == [(2, inches("7 1/4"), inches("63"))]


def test_blanks_that_share_a_board_ask_for_its_whole_length() -> None:
    found = musts(walnut(), [blank("30", "8", 1), blank("62", "7", 2)], SAW)
    assert told(found) == [
        (1, inches("8 1/4"), inches("93 1/8")),  # 30 + 1/8 + 62 + two trims
        (2, inches("7 1/4"), inches("63")),
    ]


def test_what_every_board_holds_is_not_asked_for() -> None:
    assert musts(walnut(), [blank("60", "4 3/4", 12)], SAW) == ()


def test_a_long_blank_asks_for_a_long_board() -> None:
    found = musts(walnut(), [blank("110", "3", 2)], SAW)
    assert told(found) == [(2, inches("3 1/4"), inches("111"))]


def test_a_buyer_goes_through_the_pile_for_what_must_fit() -> None:
    needed = (Must(2, inches("8 1/2"), inches("63")),)
    boards = chosen(walnut(), needed, 0, 20)
    assert all(one.width >= inches("8 1/2") for one in boards[:2])
    assert len(boards) == 20
    narrow = walnut(widths=("5", "5 1/4"))
    asked = chosen(narrow, (Must(1, inches("5 1/4"), inches("63")),), 0, 1)
    assert asked[0] == Board(inches("5 1/4"), asked[0].length)


def test_waste_comes_of_planning_and_not_of_a_percentage() -> None:
    easy = how_much(walnut(), (blank("15", "2", 400),), SAW)
    hard = how_much(walnut(), (blank("60", "4 1/2", 8),), SAW)
    assert easy is not None
    assert hard is not None
    assert easy.waste(easy.average) < 30
    # One 60 in long and 4 1/2 in wide a board: the rest of it is good for nothing.
    assert hard.boards[0] == 8
    assert hard.waste(hard.average) > 60


def test_narrow_boards_cost_more_of_them() -> None:
    wide = how_much(walnut(("8", "9")), (blank("30", "3 3/4", 12),), SAW)
    narrow = how_much(walnut(("5", "6")), (blank("30", "3 3/4", 12),), SAW)
    assert wide is not None
    assert narrow is not None
    assert narrow.boards[0] > wide.boards[0]


def test_blanks_no_board_holds_are_no_amount_at_all() -> None:
    assert how_much(walnut(), (blank("30", "12"),), SAW) is None
    assert how_much(walnut(), (blank("130", "3"),), SAW) is None


@pytest.mark.parametrize(
    ("amount", "per", "bill"),
    [
        ("22.01", Per.BOARD_FOOT, "23"),
        ("22", Per.BOARD_FOOT, "22"),
        ("0.0612", Per.CUBIC_METRE, "0.062"),
        ("1.231", Per.SQUARE_METRE, "1.24"),
    ],
)
def test_what_is_bought_is_what_a_bill_says(amount: str, per: Per, bill: str) -> None:
    # Common practice, no source: whole board feet, litres, hundredths of a m2.
    assert sold(Fraction(amount), per) == Fraction(bill)


some_blanks = st.lists(
    st.builds(
        Blank,
        st.integers().map(str),
        st.integers(4, 90).map(lambda n: inches("1") * n),
        st.integers(4, 34).map(lambda n: inches("1/4") * n),
        st.just(inches("7/8")),
        st.integers(1, 6),
        st.just("walnut"),
    ),
    min_size=1,
    max_size=5,
    unique_by=lambda one: one.id,
).map(tuple)


@settings(max_examples=25, deadline=None)
@given(some_blanks)
def test_a_bad_pile_takes_no_less_than_an_average_one(
    blanks: tuple[Blank, ...],
) -> None:
    found = how_much(walnut(), blanks, SAW)
    assert found is not None
    assert found.most >= found.average >= found.blanks > 0
    # No board may do for less than its share: the average is over all piles.
    assert found.most * PILES >= found.average


@settings(max_examples=10, deadline=None)
@given(some_blanks)
def test_the_pile_to_plan_on_holds_every_blank(blanks: tuple[Blank, ...]) -> None:
    boards = representative(walnut(), blanks, SAW, inches("3/8"))
    job = Job(SAW, Keep(inches("8"), inches("1")), boards, blanks, 3)
    assert not solve(replace(job, plane=inches("3/8")), work=100_000).unplaced


def test_the_pile_to_plan_on_reaches_to_the_board_that_a_wide_blank_needs() -> None:
    # Of the first five, three hold none: a board of 7 in has its edges to trim.
    blanks = (blank("60", "7 1/4", 2), blank("61", "7"))
    boards = representative(walnut(), blanks, SAW, inches("3/8"))
    assert len(boards) == 5
    assert sum(one.width is not None and one.width > inches("7") for one in boards) >= 3
