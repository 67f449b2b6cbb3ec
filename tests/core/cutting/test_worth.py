"""What an offcut is worth."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from app.core.cutting.job import Blank, Job, Keep, OffcutValue, Saw, Stock
from app.core.cutting.worth import Policy, worth
from app.core.length import Length, mm

KEEP = Keep(mm(200), mm(50))
FULL = OffcutValue(mm(1200), mm(150))


def job_of(width: Length | None = mm(200), keep: Keep = KEEP) -> Job:
    stock = Stock("board", mm(2400), width)
    blank = Blank("leg", mm(500), width and mm(50))
    return Job(Saw(mm(3)), keep, (stock,), (blank,), offcut_value=FULL)


def of(length: int, width: int) -> int:
    return worth(mm(length).nm, mm(width).nm, job_of())


def by_hand(length: int, width: int) -> int:
    """The rule in exact fractions, as one would work it out on paper."""
    area = length * width
    full_length = FULL.full_length.nm
    full_area = full_length * FULL.full_width.nm
    by_length = Fraction(min(length, full_length), full_length)
    by_area = Fraction(min(area, full_area), full_area)
    return int(area * (by_length + by_area) / 2)


def test_an_offcut_of_the_full_size_counts_with_all_its_wood() -> None:
    assert of(1200, 150) == mm(1200).nm * mm(150).nm
    assert of(2400, 200) == mm(2400).nm * mm(200).nm


def test_half_the_length_counts_for_a_quarter() -> None:
    assert of(600, 150) * 4 == of(1200, 150)


def test_of_two_with_the_same_wood_the_longer_counts_more() -> None:
    assert of(1200, 75) > of(600, 150)


def test_what_is_too_small_to_keep_counts_for_nothing() -> None:
    assert of(199, 1000) == of(5000, 49) == 0
    assert of(200, 50) > 0


def test_without_widths_only_lengths_count() -> None:
    flat = job_of(None)
    assert worth(mm(600).nm, 0, flat) == mm(300).nm
    assert worth(mm(2000).nm, 1, flat) == mm(2000).nm
    assert worth(mm(199).nm, 0, flat) == 0


def test_a_rule_without_sizes_counts_all_wood_in_full() -> None:
    rule = Policy(0, 0, 1, 1, flat=False)
    assert rule.worth(7, 9) == 63


sizes = st.integers(1, 3 * 10**9)


@given(sizes, sizes)
def test_the_worth_is_what_the_rule_gives_on_paper(length: int, width: int) -> None:
    keep = job_of(keep=Keep(mm(0), mm(0)))
    assert worth(length, width, keep) == by_hand(length, width)


@given(sizes, sizes, st.integers(0, 10**7), st.data())
def test_no_offcut_gains_by_being_cut_in_two(
    length: int, width: int, kerf: int, data: st.DataObject
) -> None:
    rule = Policy.of(job_of())
    whole = rule.worth(length, width)
    at, across = data.draw(st.integers(0, length)), data.draw(st.integers(0, width))
    rest, beside = max(length - at - kerf, 0), max(width - across - kerf, 0)
    assert rule.worth(at, width) + rule.worth(rest, width) <= whole
    assert rule.worth(length, across) + rule.worth(length, beside) <= whole


@given(sizes, sizes, st.integers(2, 9))
def test_bigger_counts_more_than_in_proportion(
    length: int, width: int, times: int
) -> None:
    rule = Policy.of(job_of())
    assert rule.worth(length * times, width) >= times * rule.worth(length, width)
    assert rule.worth(length, width * times) >= times * rule.worth(length, width)
    assert rule.worth(length, width) <= length * width
