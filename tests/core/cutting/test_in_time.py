"""What is served without regard to time still finds a place for every part in time."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.length import Length, inches
from tests.core.cutting.checker import check
from tests.core.cutting.published import instances, read

NONE = Length(0)


@pytest.mark.parametrize("place", [1, 3, 7])
def test_a_series_with_boards_enough_leaves_no_part_without_a_place(place: int) -> None:
    job = read(instances("generated_series")[place])
    told: list[Plan] = []
    plan = solve(job, work=60_000, watch=lambda one: told.append(one.plan()))
    check(plan)
    assert not plan.unplaced
    assert not told[0].unplaced, "the first plan shown bought too little"


def test_a_part_that_cannot_wait_comes_from_a_board_of_its_own_episode() -> None:
    # One board would hold both, but what waits is too narrow to keep.
    board = Stock("board", inches("40"), inches("4"), None, None, 100)
    blanks = (
        Blank("now", inches("39"), inches("2"), None, 1, period="first"),
        Blank("then", inches("39"), inches("1 1/2"), None, 1, period="second"),
    )
    job = Job(
        Saw(inches("1/8")),
        Keep(inches("12"), inches("3")),
        (board,),
        blanks,
        periods=("first", "second"),
    )
    plan = solve(job)
    check(plan)
    assert not plan.unplaced
    assert [one.period for one in plan.layouts] == ["first", "second"]


def test_a_board_that_comes_later_serves_no_earlier_part() -> None:
    board = Stock("board", inches("40"), inches("4"), None, 1, None, period="second")
    blank = Blank("now", inches("20"), inches("4"), None, 1, period="first")
    job = Job(
        Saw(inches("1/8")),
        Keep(NONE, NONE),
        (board,),
        (blank,),
        periods=("first", "second"),
    )
    assert [one.blank for one in solve(job).unplaced] == ["now"]
    assert not solve(replace(job, blanks=(replace(blank, period="second"),))).unplaced
