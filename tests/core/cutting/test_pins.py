"""Blanks pinned to boards: they lie there, or nowhere, and the plan says why."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from app.core.cutting.job import Blank, Job, Keep, Pin, Saw, Stock
from app.core.cutting.pins import loose
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.length import inches
from tests.core.cutting.checker import all_accounted_for, pins_honoured, placed

FAR = Stock("far", inches("60"), inches("8"))
NEAR = Stock("near", inches("30"), inches("8"))
RAIL = Blank("rail", inches("20"), inches("2"), quantity=5)
LEG = Blank("leg", inches("9"), inches("2"), quantity=2)


def job(*pins: Pin, stock: tuple[Stock, ...] = (NEAR, FAR)) -> Job:
    keep = Keep(inches("8"), inches("1"))
    return Job(Saw(inches("1/8")), keep, stock, (RAIL, LEG), pins=pins)


def hoped(asked: Job) -> list[Pin]:
    return [pin for pin in asked.pins if not pin.firm]


def planned(asked: Job, *, wishes: bool = False) -> Plan:
    found = loose(asked, hoped(asked) if wishes else ())
    plan = found.back(solve(found.job, work=20_000))
    assert plan.job == asked
    all_accounted_for(plan)
    pins_honoured(plan)
    return plan


def test_a_job_without_pins_stays_as_it_is() -> None:
    assert loose(job()).job == job()


@pytest.mark.parametrize(
    ("pins", "far"),
    [
        ((Pin("rail", "far"),), 5),
        ((Pin("rail", "far", 4),), 4),
        ((Pin("rail", "far", 9),), 5),
        ((Pin("rail", "far", 1), Pin("rail", "near", 2)), 1),
    ],
)
def test_pinned_blanks_lie_where_they_are_pinned(
    pins: tuple[Pin, ...], far: int
) -> None:
    plan = planned(job(*pins))
    assert placed(plan, "far")["rail"] >= far
    assert not plan.unplaced


def test_lots_of_one_blank_add_up_to_it() -> None:
    found = loose(job(Pin("rail", "far", 1), Pin("rail", "near", 2)))
    lots = Counter(
        {
            one.only: one.quantity
            for one in found.job.blanks
            if one.length == RAIL.length
        }
    )
    assert lots == {("far",): 1, ("near",): 2, (): 2}
    assert len({one.id for one in found.job.blanks}) == len(found.job.blanks)


def test_what_its_board_cannot_hold_stays_out_and_says_where_it_is_pinned() -> None:
    short = replace(NEAR, length=inches("10"), name="walnut offcut")
    plan = planned(job(Pin("rail", "near"), stock=(short, FAR)))
    (out,) = plan.unplaced
    assert (out.blank, out.quantity) == ("rail", 5)
    assert out.why.startswith("It is pinned to “walnut offcut”. Longer than any")


def test_a_pin_to_stock_that_is_not_there_says_so() -> None:
    (out,) = planned(job(Pin("leg", "gone"))).unplaced
    assert out.why == "The stock it is pinned to is not there."


def test_a_wish_binds_only_where_it_is_asked_to() -> None:
    asked = job(Pin("rail", "far", firm=False))
    assert all(not one.only for one in loose(asked).job.blanks)
    assert placed(planned(asked, wishes=True), "far")["rail"] == 5


def test_firm_pins_come_before_wishes() -> None:
    asked = job(Pin("rail", "near", firm=False), Pin("rail", "far", 3))
    lots = {one.only: one.quantity for one in loose(asked, hoped(asked)).job.blanks}
    assert lots[("far",)] == 3
    assert lots[("near",)] == 2
