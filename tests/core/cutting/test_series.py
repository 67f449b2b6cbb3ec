"""The wood of a series: part by part, and never dearer together."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random
from typing import Any

import pytest

from app.core.cutting import alternatives
from app.core.cutting.job import Area, Blank, Job, Keep, Pin, Resaw, Saw, Stock
from app.core.cutting.parts_wood import (
    Kept,
    Saving,
    kept,
    left_by_period,
    meant_for,
    opened,
    saving,
    taken_by_period,
    to_buy_by_period,
)
from app.core.cutting.plan import Plan
from app.core.cutting.series import both_ways, joint, part_by_part, rank
from app.core.cutting.solve import solve
from app.core.cutting.totals import totals
from app.core.errors import WorkshopError
from app.core.length import Length, inches
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import in_periods, random_bars, random_job
from tests.core.cutting.published import instances, read
from tests.core.cutting.test_by_period import series as tray_and_box

WORK = 20_000
SEEDS = range(12)


def in_parts(seed: int) -> Job:
    """A random job in two to four periods."""
    return in_periods(Random(seed), random_job(seed))


def two_parts(*stock: Stock, pins: tuple[Pin, ...] = ()) -> Job:
    """A 40 in base for the tray, two 24 in sides for the box."""
    size = (inches("6"), inches("3/4"))
    blanks = (
        Blank("base", inches("40"), *size, period="tray"),
        Blank("side", inches("24"), *size, quantity=2, period="box"),
    )
    saw, keep = Saw(inches("1/8")), Keep(inches("8"), inches("1"))
    return Job(saw, keep, stock, blanks, periods=("tray", "box"), pins=pins)


def board(name: str, length: str, **more: Any) -> Stock:
    one = Stock(name, inches(length), inches("6"), inches("3/4"), None, 1000)
    return replace(one, **more)


def used_again(plan: Plan) -> list[tuple[str, str]]:
    """Which stock is cut up again, and in which period."""
    return [
        (layout.stock, left.used_in)
        for layout in plan.layouts
        for left in layout.leftovers
        if left.used_in
    ]


@pytest.mark.parametrize("seed", SEEDS)
def test_parts_planned_one_after_the_other_come_together_into_one_true_plan(
    seed: int,
) -> None:
    check(part_by_part(in_parts(seed), work=WORK))


@pytest.mark.parametrize("seed", SEEDS)
def test_together_is_never_worse_than_part_by_part(seed: int) -> None:
    found = both_ways(in_parts(seed), work=WORK)
    check(found.plan)
    assert rank(found.plan) <= rank(found.apart)
    if not (found.plan.unplaced or found.apart.unplaced):
        assert totals(found.plan).cost <= totals(found.apart).cost


@pytest.mark.parametrize("seed", SEEDS)
def test_the_same_holds_for_lengths(seed: int) -> None:
    found = both_ways(random_bars(seed), work=WORK)
    check(found.plan)
    check(found.apart)
    assert rank(found.plan) <= rank(found.apart)


def test_some_random_series_use_what_an_earlier_part_left() -> None:
    plans = [part_by_part(in_parts(seed), work=WORK) for seed in SEEDS]
    assert any(used_again(plan) for plan in plans)


def test_a_job_of_one_part_is_planned_as_ever() -> None:
    job = random_job(3)
    alone = part_by_part(job, work=WORK)
    check(alone)
    assert totals(alone).cost == totals(solve(job, work=WORK)).cost


def test_the_later_part_takes_the_free_leftover_before_it_buys() -> None:
    plan = part_by_part(two_parts(board("long", "96"), board("short", "30")))
    check(plan)
    (layout,) = plan.layouts
    assert (layout.stock, layout.period) == ("long", "tray")
    assert used_again(plan) == [("long", "box")]


def test_what_comes_later_is_not_bought_before() -> None:
    job = two_parts(board("late", "30", cost=10, period="box"), board("now", "96"))
    plan = part_by_part(job)
    check(plan)
    assert [one.stock for one in plan.layouts if one.period == "tray"] == ["now"]


def test_a_pin_to_a_board_that_was_cut_holds_for_what_is_left_of_it() -> None:
    stock = board("mine", "96", quantity=1), board("cheap", "48", cost=1)
    job = two_parts(*stock, pins=(Pin("base", "mine"), Pin("side", "mine", 2)))
    plan = part_by_part(job)
    check(plan)
    assert {one.stock for one in plan.layouts} == {"mine"}
    assert not plan.unplaced


def test_copies_of_one_layout_part_where_only_one_is_cut_up_again() -> None:
    stock = board("long", "66")
    job = two_parts(stock)
    base, side = job.blanks
    blanks = (replace(base, quantity=2), replace(side, quantity=1))
    plan = part_by_part(replace(job, blanks=blanks))
    check(plan)
    assert sorted(one.copies for one in plan.layouts) == [1, 1]
    assert used_again(plan) == [("long", "box")]


def test_a_part_refused_alone_refuses_the_series() -> None:
    job = two_parts(board("long", "96"))
    bare = replace(job.blanks[1], width=None)
    with pytest.raises(WorkshopError, match="no width"):
        joint(replace(job, blanks=(job.blanks[0], bare)))


@pytest.mark.parametrize("at", range(2))
def test_a_published_series_costs_no_more_together(at: int) -> None:
    job = read(instances("generated_series")[at])
    found = both_ways(job, work=200_000)
    check(found.plan)
    check(found.apart)
    assert not found.apart.unplaced
    assert totals(found.plan).cost <= totals(found.apart).cost


def test_each_part_knows_what_to_buy_keep_and_cut_up() -> None:
    board_40 = replace(tray_and_box().job.stock[0], cost=3000)
    plan = tray_and_box()
    plan = replace(plan, job=replace(plan.job, stock=(board_40,)))
    bought = to_buy_by_period(plan)
    assert [
        (p, one.quantity, one.cost, one.serves) for p, (one,) in bought.items()
    ] == [("tray", 2, 6000, ("tray", "box"))]
    for_box, stays = kept(plan)
    assert for_box == Kept(
        "C1-a",
        "7",
        Area(inches("10 1/8"), Length(0), inches("29 7/8"), inches("6")),
        2,
        "tray",
        "box",
    )
    assert (stays.since, stays.used_in) == ("box", "")
    assert left_by_period(plan) == {"tray": (for_box,), "box": (stays,)}
    assert taken_by_period(plan) == {"tray": (), "box": (for_box,)}
    assert meant_for(plan, "7") == ("tray", "box")
    assert meant_for(plan, "8") == ()


@pytest.mark.parametrize(
    ("together", "apart", "money", "percent"),
    [
        (9400, 10_000, 600, "6.0 %"),
        (9999, 10_000, 1, "0.0 %"),
        (0, 0, 0, "0.0 %"),
        (2, 3, 1, "33.3 %"),
    ],
)
def test_the_saving_is_told_in_money_and_never_rounded_up(
    together: int, apart: int, money: int, percent: str
) -> None:
    found = Saving(together, apart, 0)
    assert (found.money, found.percent) == (money, percent)
    assert found.share == (Fraction(money, apart) if apart else 0)


def test_the_saving_counts_the_blanks_that_only_find_a_place_together() -> None:
    plan = part_by_part(two_parts(board("long", "96", quantity=1)))
    short = part_by_part(two_parts(board("short", "41", quantity=1)))
    assert saving(plan, short).more_placed == 2


def test_what_is_resawn_is_bought_whole_by_the_part_that_needs_it_first() -> None:
    thick = board("thick", "72", thickness=inches("2"), cost=5000)
    job = replace(
        two_parts(thick),
        plane=inches("1/4"),
        resaw=Resaw(inches("1/16"), inches("8"), inches("1/8")),
    )
    base, side = job.blanks
    job = replace(job, blanks=(base, replace(side, length=inches("60"), quantity=1)))
    found = both_ways(job, work=100_000, planner=alternatives.solve)
    check(found.plan)
    (whole,) = opened(found.plan)
    assert (whole.period, whole.stock, whole.quantity, whole.cost) == (
        *("tray", replace(thick, quantity=whole.stock.quantity)),
        *(1, 5000),
    )
    assert whole.serves == ("tray", "box")
