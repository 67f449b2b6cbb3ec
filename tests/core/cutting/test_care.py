"""Which cuts of a plan call for which caution."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.care import ASKED, minded
from app.core.cutting.job import Area, Blank, Job, Keep, Machine, Saw, Stock
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.cutting.spans import spans
from app.core.length import Length, inches
from app.core.safety import cautions


def planned(stock: tuple[str, str], blank: tuple[str, str]) -> Plan:
    board = Stock("B", inches(stock[0]), inches(stock[1]), trimmed=True)
    wanted = Blank("piece", inches(blank[0]), inches(blank[1]))
    keep = Keep(inches("8"), inches("1"))
    return solve(Job(Saw(inches("1/8")), keep, (board,), (wanted,)))


def keys(plan: Plan) -> dict[str, tuple[int, ...]]:
    return {one.key: one.cuts for one in minded(plan)}


@pytest.mark.parametrize(
    ("stock", "blank", "key"),
    [
        (("11", "6"), ("11", "4"), "powered-machine.short-stock"),
        (("40", "6"), ("40", "5 1/2"), "table-saw.thin-strip"),
        (("40", "6"), ("40", "1/4"), "table-saw.thin-strip"),
        (("40", "6"), ("40", "2"), "table-saw.hands-near-blade"),
        (("40", "6"), ("3", "6"), "table-saw.fence-as-stop"),
        (("11", "6"), ("10", "6"), "crosscut-sled.short-piece"),
        (("96", "48"), ("96", "20"), "table-saw.loss-of-control"),
    ],
)
def test_a_cut_that_asks_for_care_is_named(
    stock: tuple[str, str], blank: tuple[str, str], key: str
) -> None:
    assert keys(planned(stock, blank))[key] == (1,)


def test_an_easy_cut_asks_for_nothing_of_its_own() -> None:
    assert keys(planned(("40", "10"), ("20", "10"))) == {}


def test_a_rough_edge_is_jointed_before_it_meets_the_fence() -> None:
    plan = planned(("40", "10"), ("40", "5"))
    (board,) = plan.job.stock
    rough = solve(replace(plan.job, stock=(replace(board, trimmed=False),)))
    assert keys(rough) == {"table-saw.warped-stock": (1,)}


def test_a_cut_beyond_the_machine_is_not_made_on_it() -> None:
    plan = planned(("40", "10"), ("40", "5"))
    small = replace(plan.job, machine=Machine(longest_rip=inches("36")))
    assert keys(replace(plan, job=small)) == {"powered-machine.beyond-its-limits": (1,)}


def test_a_board_with_a_defect_is_looked_over() -> None:
    plan = planned(("40", "10"), ("20", "10"))
    (board,) = plan.job.stock
    knot = Area(inches("30"), Length(0), inches("1"), inches("1"))
    job = replace(plan.job, stock=(replace(board, defects=(knot,)),))
    assert keys(replace(plan, job=job)) == {
        "powered-machine.hidden-metal-or-loose-knots": (1,)
    }


def test_every_caution_that_a_cut_may_ask_for_is_in_the_table() -> None:
    assert len(cautions(key for key, _ in ASKED)) == len(ASKED)


@pytest.mark.parametrize(
    ("numbers", "told"),
    [([], ""), ([4], "4"), ([8, 3, 5, 6, 7], "3, 5–8"), ([1, 2, 4, 5], "1–2, 4–5")],
)
def test_cuts_are_told_in_runs(numbers: list[int], told: str) -> None:
    assert spans(numbers) == told
