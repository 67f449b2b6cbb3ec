"""Board feet and dressed sizes against published figures."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.length import Length, inches, mm
from app.core.measure import (
    BOARD_FOOT_NM3,
    Board,
    NoSuchMeasure,
    board_feet,
    cubic_metres,
    dressed,
    hardwood_tally,
    litres,
    nominal_board_feet,
    quarters,
    softwood_tally,
)

NAVY = "US Navy engineering-aid training text, board measure"
UNITS = "exact unit definitions"


def volume(thickness: Length, width: Length, length: Length) -> int:
    return thickness.nm * width.nm * length.nm


# Printed worked examples where the Navy text is named; the rest by exact units.
@pytest.mark.parametrize(
    ("thickness", "width", "length", "feet", "source"),
    [
        ("1", "6", "96", "4", NAVY),
        ("1", "9", "96", "6", NAVY),
        ("1.5", "9", "96", "9", NAVY),
        ("1", "12", "12", "1", NAVY),
        ("2", "4", "168", "28/3", UNITS),
        ("1.25", "7.5", "96", "6.25", UNITS),
        ("3/4", "6", "48", "1.5", UNITS),
    ],
)
def test_true_volume_in_board_feet(
    thickness: str, width: str, length: str, feet: str, source: str
) -> None:
    sizes = (inches(thickness), inches(width), inches(length))
    assert board_feet(volume(*sizes)) == Fraction(feet), source


def test_a_board_under_an_inch_is_charged_as_an_inch() -> None:
    """US Navy training text: thickness under 1 in counts as 1 in."""
    sizes = (inches("3/4"), inches("6"), inches("48"))
    assert nominal_board_feet(*sizes) == 2
    assert board_feet(volume(*sizes)) == Fraction(3, 2)


def test_board_feet_and_metric_volumes_are_one_volume() -> None:
    """144 cubic inches of 16.387064 cm³ are 2.359737216 litres (exact units)."""
    assert litres(BOARD_FOOT_NM3) == Fraction("2.359737216")
    board = volume(mm(25), mm(150), mm(2400))
    assert cubic_metres(board) == Fraction("0.009")
    assert round(board_feet(board), 4) == Fraction("3.8140")
    assert round(board_feet(10**27), 4) == Fraction("423.7760")


def test_a_hardwood_tally_rounds_each_boards_surface() -> None:
    """Width by whole feet over 12, to the nearest foot (encyclopaedia article)."""
    # 7.5 in by 8 ft: 5 square feet of 5/4; by 8 ft 11 in still 8 whole feet.
    five_quarter = Board(inches("1.25"), inches("7.5"), inches("96"))
    longer = Board(inches("1.25"), inches("7.5"), inches("107"))
    assert hardwood_tally([five_quarter]) == Fraction("6.25")
    assert hardwood_tally([longer]) == Fraction("6.25")
    # 6.2 in by 10 ft is 5.17 square feet: 5.
    assert hardwood_tally([Board(inches("1"), inches("6.2"), inches("120"))]) == 5


def test_exact_halves_of_a_tally_go_up_and_down_by_turns() -> None:
    """Hardwood grading rules, from memory."""
    half = Board(inches("1"), inches("5.5"), inches("120"))  # 4 7/12: no half
    exact = Board(inches("1"), inches("9"), inches("72"))  # 4 1/2
    assert hardwood_tally([exact]) == 5
    assert hardwood_tally([exact, exact]) == 9
    assert hardwood_tally([exact, half, exact, exact]) == 5 + 5 + 4 + 5


def test_a_softwood_piece_counts_nominal_sizes_and_even_feet() -> None:
    """Encyclopaedia article on the board foot: even foot, to 0.01."""
    two_by_four = (inches("2"), inches("4"))
    assert softwood_tally(*two_by_four, inches("168")) == Fraction("9.33")
    assert softwood_tally(*two_by_four, inches("190")) == Fraction("9.33")
    assert softwood_tally(*two_by_four, inches("192")) == Fraction("10.67")


@given(st.integers(1, 10**10), st.integers(1, 10**10), st.integers(1, 10**11))
def test_cutting_a_board_in_two_never_changes_its_board_feet(
    thickness: int, width: int, length: int
) -> None:
    cut = length // 3
    whole = board_feet(thickness * width * length)
    parts = [thickness * width * cut, thickness * width * (length - cut)]
    assert sum(map(board_feet, parts)) == whole


# Four public tables that agree, stating the hardwood grading standard.
@pytest.mark.parametrize(
    ("name", "rough", "one_side", "two_sides"),
    [
        ("4/4", "1", "7/8", "13/16"),
        ("5/4", "1 1/4", "1 1/8", "1 1/16"),
        ("6/4", "1 1/2", "1 3/8", "1 5/16"),
        ("8/4", "2", "1 13/16", "1 3/4"),
        ("12/4", "3", "2 13/16", "2 3/4"),
    ],
)
def test_quarters_name_a_rough_thickness_and_what_planing_leaves(
    name: str, rough: str, one_side: str, two_sides: str
) -> None:
    found = quarters(name)
    assert found.rough == inches(rough)
    assert (found.one_side, found.two_sides) == (inches(one_side), inches(two_sides))


def test_planing_two_sides_takes_three_sixteenths_or_a_quarter() -> None:
    """The rule printed behind the tables: up to 6/4 lose 3/16 in, from 8/4 1/4 in."""
    for name in ("3/4", "4/4", "5/4", "6/4"):
        found = quarters(name)
        assert found.rough - found.two_sides == inches("3/16")
    for name in ("7/4", "8/4", "10/4", "12/4", "16/4"):
        found = quarters(name)
        assert found.rough - found.two_sides == inches("1/4")


# US Voluntary Product Standard PS 20, dry sizes in inches and millimetres.
@pytest.mark.parametrize(
    ("nominal", "dimension", "dry", "dry_mm"),
    [
        ("1", "thickness", "3/4", 19),
        ("2", "thickness", "1 1/2", 38),
        ("2", "width", "1 1/2", 38),
        ("3", "width", "2 1/2", 64),
        ("4", "width", "3 1/2", 89),
        ("6", "width", "5 1/2", 140),
        ("8", "width", "7 1/4", 184),
        ("10", "width", "9 1/4", 235),
        ("12", "width", "11 1/4", 286),
    ],
)
def test_a_nominal_softwood_size_measures_less(
    nominal: str, dimension: str, dry: str, dry_mm: int
) -> None:
    found = dressed(nominal, dimension)
    assert found.dry == inches(dry)
    assert round(found.dry.millimetres + Fraction(1, 10**6)) == dry_mm
    assert found.dry < found.green


def test_a_size_that_is_not_sold_is_refused_with_those_that_are() -> None:
    with pytest.raises(NoSuchMeasure, match="4/4, 5/4"):
        quarters("9/4")
    with pytest.raises(NoSuchMeasure, match="6, 8, 10"):
        dressed("7", "width")
