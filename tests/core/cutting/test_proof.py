"""What is said of how good a plan is: proven, or at most so far from the best."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.core.cutting.job import Area, Blank, Job, Keep, Saw, Stock
from app.core.cutting.plan import Bound, Layout, Placed, Plan, Unplaced
from app.core.cutting.proof import gap, in_words, value_of_parts
from app.core.length import Length, inches

# A bar of 100 in for 1000: 10 an inch. Four parts of 25 in are worth 1000.
BAR = Stock("bar", inches("100"), quantity=None, cost=1000)
DEAR = Stock("dear", inches("100"), quantity=None, cost=2000)
PART = Blank("part", inches("25"), quantity=4)


def plan(bars: int, *unplaced: Unplaced, bound: int = 0) -> Plan:
    job = Job(Saw(Length(0)), Keep(Length(0), Length(0)), (BAR, DEAR), (PART,))
    placed = Placed("part", Area(Length(0), Length(0), PART.length, Length(0)))
    layouts = (
        Layout("bar", 1, (placed,) * 4, (), ()),
        Layout("bar", bars - 1, (), (), ()),
    )
    return Plan(job, layouts, unplaced, (Bound("cost", bound),))


def test_parts_are_worth_their_share_of_the_cheapest_stock() -> None:
    assert value_of_parts(plan(1)) == 1000


@pytest.mark.parametrize(
    ("found", "far", "words"),
    [
        (plan(1), Fraction(0), "Proven: nothing costs less."),
        (
            plan(2),
            Fraction(1),
            "At most 100.0 % of the value of the parts from the best possible.",
        ),
        (
            plan(3, bound=2979),
            Fraction(21, 1000),
            "At most 2.1 % of the value of the parts from the best possible.",
        ),
        (plan(3, bound=2999), Fraction(1, 1000), "At most 0.1 %"),
    ],
)
def test_the_gap_is_a_share_of_the_parts_and_never_rounded_down(
    found: Plan, far: Fraction, words: str
) -> None:
    assert gap(found) == far
    assert in_words(found).startswith(words)


def test_with_parts_left_out_nothing_is_proven() -> None:
    short = plan(1, Unplaced("part", 1, "There is no stock to cut it from."))
    assert gap(short) is None
    assert in_words(short) == "Nothing is proven: some parts found no place."
