"""The short cut of the long run of random jobs, and that the run finds faults."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import count

import pytest

from app.core.cutting.job import Job
from app.core.cutting.plan import Bound, Plan
from app.services.cut_jobs import planner_for
from tests import long_cutting
from tests.long_cutting import Tally, tried

WORK = 20_000
JOBS, AT_ONCE = 72, 6
PLAIN = 50  # a job of those that are planned twice


@pytest.mark.parametrize("start", range(0, JOBS, AT_ONCE))
def test_random_jobs_are_sawn_over_again_without_a_fault(start: int) -> None:
    tally = Tally()
    for seed in range(start, start + AT_ONCE):
        tried(seed, tally, WORK)
    assert not tally.faults
    assert len(tally.seconds) == AT_ONCE


def test_a_plan_that_lost_a_piece_of_stock_is_told_as_a_fault(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def spoiled(job: Job, work: int) -> Plan:
        plan = planner_for(job)(job, work=work)
        return replace(plan, layouts=plan.layouts[1:])

    assert "blanks lost" in _fault_of(spoiled, monkeypatch)


def test_another_plan_the_second_time_is_told_as_a_fault(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    more = count()

    def moody(job: Job, work: int) -> Plan:
        plan = planner_for(job)(job, work=work)
        bound = Bound("cuts", next(more))
        return replace(plan, bounds=(*plan.bounds, bound))

    assert "second time" in _fault_of(moody, monkeypatch)


def _fault_of(planner: Callable[..., Plan], monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setattr(long_cutting, "planner_for", lambda _: planner)
    tally = Tally()
    tried(PLAIN, tally, WORK)
    assert not tally.seconds
    [fault] = tally.faults
    return fault
