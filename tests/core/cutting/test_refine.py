"""Each board by itself: what is easier and safer to saw with the same result."""

from __future__ import annotations

from dataclasses import replace

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.plan import Direction
from app.core.cutting.solve import solve
from app.core.length import Length, inches, mm
from tests.core.cutting.checker import check

JOB = Job(
    Saw(inches("1/8"), inches("1/2"), inches("1/8")),
    Keep(inches("8"), inches("1")),
    (
        Stock("narrow", inches("16 3/4"), inches("2 7/8"), offcut=True, trimmed=True),
        Stock("wide", inches("18 1/8"), inches("4 3/4"), offcut=True, trimmed=True),
    ),
    (
        Blank("wall", inches("2 11/16"), inches("2 5/8"), quantity=5),
        Blank("base", inches("4 1/8"), inches("4 1/8")),
    ),
    stages=3,
)


def short_rips(job: Job, stock: str) -> int:
    # Under 300 mm is too short for most machines: the cautions' rule of thumb.
    return sum(
        cut.direction is Direction.RIP and cut.of.length < mm(300)
        for layout in solve(job).layouts
        if layout.stock == stock
        for cut in layout.cuts
    )


def test_a_board_is_ripped_while_it_is_long_though_its_neighbour_is_not() -> None:
    assert short_rips(JOB, "narrow") == 0


def test_an_offcut_worth_more_is_not_given_up_for_it() -> None:
    [wide] = [one for one in solve(JOB).layouts if one.stock == "wide"]
    kept = [one.area for one in wide.leftovers if one.keep]
    assert [(one.length, one.width) for one in kept] == [
        (inches("13 7/8"), inches("4 3/4"))
    ]


def test_the_maker_who_crosscuts_first_is_obeyed() -> None:
    asked = replace(JOB, first="crosscut")
    for layout in solve(asked).layouts:
        ways = [cut.direction for cut in layout.cuts if not cut.trim]
        assert ways[0] is Direction.CROSSCUT
    # What is crosscut first is still ripped in a length that the saw can take.
    assert short_rips(asked, "narrow") == 0


def test_boards_gone_over_again_still_balance() -> None:
    plan = solve(JOB)
    check(plan)
    assert not plan.unplaced
    assert all(cut.kerf >= Length(0) for one in plan.layouts for cut in one.cuts)
