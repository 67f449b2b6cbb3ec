"""Bars with defects, pins, periods and a machine's least length."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.effort import Standing
from app.core.cutting.job import Area, Blank, Job, Keep, Machine, Pin, Saw, Stock
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.cutting.totals import totals
from app.core.length import Length, inches
from tests.core.cutting.checker import check, placed
from tests.core.cutting.jobs import random_bars

NONE = Length(0)


def bar(length: str, name: str = "bar", **more: object) -> Stock:
    return Stock(name, inches(length), **more)  # type: ignore[arg-type]


def leg(length: str, quantity: int = 1, name: str = "leg", **more: object) -> Blank:
    return Blank(name, inches(length), quantity=quantity, **more)  # type: ignore[arg-type]


def spot(x: str, length: str) -> Area:
    return Area(inches(x), NONE, inches(length), NONE)


def job(stock: list[Stock], blanks: list[Blank], **more: object) -> Job:
    keep = Keep(inches("8"), NONE)
    saw = Saw(inches("1/8"))
    return Job(saw, keep, tuple(stock), tuple(blanks), **more)  # type: ignore[arg-type]


def planned(asked: Job) -> Plan:
    plan = solve(asked, work=30_000)
    assert plan.job == asked
    check(plan)
    return plan


def test_a_bar_is_cut_around_its_knots() -> None:
    # 96  [leg 20][leg 20] knot 40 1/4 … 42 [leg 20][leg 20]  kept 13 3/4
    knotty = bar("96", defects=(spot("40 1/4", "1 3/4"),))
    plan = planned(job([knotty], [leg("20", 4)]))
    assert not plan.unplaced
    (layout,) = plan.layouts
    assert sorted(one.area.length.nm for one in layout.leftovers if one.keep) == [
        inches("13 3/4").nm
    ]


def test_a_pin_and_a_wish_are_kept() -> None:
    two = [bar("40", "near"), bar("96", "far")]
    wanted = [leg("20", 2), leg("10", 3, "rail")]
    asked = job(
        two, wanted, pins=(Pin("leg", "far", 1), Pin("rail", "far", firm=False))
    )
    plan = planned(asked)
    assert placed(plan, "far")["leg"] >= 1
    assert placed(plan, "far")["rail"] == 3
    assert not plan.unplaced


def test_a_wish_never_costs_money() -> None:
    stock = [bar("40", "rack"), bar("96", "new", quantity=None, cost=900)]
    asked = job(stock, [leg("20")], pins=(Pin("leg", "new", firm=False),))
    assert totals(planned(asked)).cost == 0


def series(stock: list[Stock], blanks: list[Blank], **more: object) -> Job:
    return job(stock, blanks, periods=("one", "two", "three"), **more)


def test_what_one_period_leaves_the_next_uses() -> None:
    asked = series(
        [bar("96", quantity=None, cost=500)],
        [leg("40", name="a", period="one"), leg("50", name="b", period="three")],
    )
    plan = planned(asked)
    assert totals(plan).cost == 500
    (layout,) = plan.layouts
    assert layout.period == "one"
    (left,) = [one for one in layout.leftovers if one.used_in]
    assert (left.used_in, left.area.length) == ("three", inches("55 7/8"))
    assert [one.period for one in layout.cuts] == ["one", "three"]


def test_too_short_to_keep_is_too_short_for_the_next_period() -> None:
    # 50  [a 42]  the rest is 7 7/8, just below what is kept.
    wanted = [leg("42", name="a", period="one"), leg("5", name="b", period="two")]
    plan = planned(series([bar("50", quantity=None, cost=500)], wanted))
    assert totals(plan).cost == 1000
    roomy = planned(series([bar("50 1/8", quantity=None, cost=500)], wanted))
    assert totals(roomy).cost == 500


def test_stock_of_a_later_period_waits() -> None:
    stock = [bar("96", "late", period="two"), bar("48", "now", cost=700)]
    plan = planned(
        series(
            stock,
            [leg("40", name="a", period="one"), leg("40", name="b", period="two")],
        )
    )
    assert placed(plan, "now")["a"] == 1
    assert placed(plan, "late")["b"] == 1
    alone = planned(series(stock[:1], [leg("40", name="a", period="one")]))
    assert alone.unplaced[0].why == (
        "The stock that would do comes in a later period only."
    )


def test_a_sound_length_may_wait_for_its_period() -> None:
    knotty = bar("96", defects=(spot("40 1/4", "1 3/4"),))
    wanted = [leg("40", name="a", period="one"), leg("50", name="b", period="two")]
    plan = planned(series([knotty], wanted))
    assert not plan.unplaced
    (layout,) = plan.layouts
    assert [one.used_in for one in layout.leftovers if one.used_in] == ["two"]


def test_nothing_short_is_held_at_the_machine() -> None:
    # 30  five of 5 3/4 fit, but what is held for the last cuts is too short.
    asked = job([bar("30", quantity=None)], [leg("5 3/4", 10)])
    assert totals(planned(asked)).stock_pieces == 2
    careful = replace(asked, machine=Machine(shortest_piece=inches("14")))
    plan = planned(careful)
    assert not plan.unplaced
    assert totals(plan).stock_pieces == 4


def test_a_watcher_is_told_of_a_plan_that_can_be_cut() -> None:
    knotty = bar("96", defects=(spot("40 1/4", "1 3/4"),))
    asked = job([knotty], [leg("20", 4)])
    told: list[Standing] = []
    solve(asked, work=30_000, watch=told.append)
    assert told
    for one in told:
        check(one.plan())
        assert one.bound <= one.cost


# In 460 a cut between two lengths that wait parts off only what waits.
@pytest.mark.parametrize("seed", [*range(60), 460])
def test_any_bars_can_be_cut(seed: int) -> None:
    planned(random_bars(seed))
