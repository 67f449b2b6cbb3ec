"""Boards with pins and defects, planned from the first cut to the last."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.effort import Standing
from app.core.cutting.job import Area, Blank, Job, Keep, Machine, Pin, Saw, Stock
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.cutting.totals import totals
from app.core.length import inches
from tests.core.cutting.checker import check, placed
from tests.core.cutting.jobs import marked_job

WORK = 30_000


def board(length: str, width: str, name: str = "board", **more: object) -> Stock:
    return Stock(name, inches(length), inches(width), **more)  # type: ignore[arg-type]


def blank(
    length: str, width: str, quantity: int = 1, name: str = "rail", **more: object
) -> Blank:
    size = (inches(length), inches(width))
    return Blank(name, *size, quantity=quantity, **more)  # type: ignore[arg-type]


def spot(x: str, y: str, length: str, width: str) -> Area:
    return Area(inches(x), inches(y), inches(length), inches(width))


def job(stock: list[Stock], blanks: list[Blank], **more: object) -> Job:
    keep = Keep(inches("8"), inches("1"))
    saw = Saw(inches("1/8"))
    return Job(saw, keep, tuple(stock), tuple(blanks), **more)  # type: ignore[arg-type]


def planned(asked: Job) -> Plan:
    plan = solve(asked, work=WORK)
    assert plan.job == asked
    check(plan)
    return plan


def test_rails_are_cut_on_either_side_of_a_knot() -> None:
    # 96 x 4: [rail 45] knot 46 … 48 [rail 45]; across the knot none would do.
    knotty = board("96", "4", defects=(spot("46", "1", "2", "2"),))
    plan = planned(job([knotty], [blank("45", "4", 2)]))
    assert not plan.unplaced


def test_the_way_to_begin_follows_what_is_wanted() -> None:
    # A knot in the middle: two long rails want the rip, two wide ones the crosscut.
    knotty = board("96", "8", defects=(spot("47", "3 1/2", "2", "1"),))
    for wanted in (blank("90", "3", 2), blank("40", "7", 2)):
        assert not planned(job([knotty], [wanted])).unplaced


def test_a_board_with_a_price_is_paid_once() -> None:
    knotty = board("96", "4", cost=2001, defects=(spot("46", "1", "2", "2"),))
    plan = planned(job([knotty], [blank("20", "4", 3)]))
    assert totals(plan).cost == 2001


def test_a_defect_gives_a_reason_in_terms_of_the_board() -> None:
    knotty = board("96", "4", "ash 7", defects=(spot("46", "0", "2", "4"),))
    (out,) = planned(job([knotty], [blank("60", "3")])).unplaced
    assert out.quantity == 1
    assert "/" not in out.why


def test_pins_and_wishes_hold_around_a_knot() -> None:
    stock = [
        board("96", "4", "knotty", defects=(spot("46", "1", "2", "2"),)),
        board("40", "4", "clear"),
    ]
    pins = (Pin("rail", "knotty", 1), Pin("leg", "knotty", firm=False))
    asked = job(stock, [blank("20", "4", 2), blank("12", "4", 2, "leg")], pins=pins)
    plan = planned(asked)
    assert placed(plan, "knotty")["rail"] >= 1
    assert placed(plan, "knotty")["leg"] == 2


def test_of_two_wishes_the_one_that_costs_nothing_is_granted() -> None:
    stock = [
        board("40", "4", "rack"),
        board("40", "4", "new", quantity=None, cost=900),
        board("30", "4", "short"),
    ]
    pins = (Pin("rail", "new", firm=False), Pin("leg", "short", firm=False))
    asked = job(stock, [blank("20", "4"), blank("12", "4", 1, "leg")], pins=pins)
    plan = planned(asked)
    assert totals(plan).cost == 0
    assert placed(plan, "short")["leg"] == 1


def test_cuts_around_defects_keep_to_the_machine() -> None:
    knotty = board("96", "8", defects=(spot("47", "3 1/2", "2", "1"),))
    narrow = replace(
        job([knotty], [blank("40", "3", 4)]),
        machine=Machine(longest_crosscut=inches("4")),
    )
    found = solve(narrow, work=WORK)
    for layout in found.layouts:
        around = layout.cuts[0]
        assert around.of.width <= inches("4") or around.direction.value == "rip"


@pytest.mark.parametrize("seed", range(60))
def test_any_marked_boards_can_be_cut(seed: int) -> None:
    planned(marked_job(seed))


def test_a_search_that_is_stopped_ends_with_a_plan_that_can_be_cut() -> None:
    knotty = board("96", "4", defects=(spot("46", "1", "2", "2"),))
    pins = (Pin("rail", "board", 1), Pin("leg", "board", firm=False))
    asked = job([knotty], [blank("20", "4", 2), blank("12", "4", 2, "leg")], pins=pins)
    told: list[Standing] = []
    plan = solve(asked, work=WORK, left=lambda: 0.0, watch=told.append)
    check(plan)
    assert not plan.unplaced
    assert told[-1].plan() == plan
    for one in told:
        check(one.plan())
