"""One sheet that tells how a plan's diagrams are read."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.key import key
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from tests.core.cutting.jobs import random_job
from tests.core.cutting.test_by_period import rect, series
from tests.drawings import crowded


def words(plan: Plan) -> str:
    return " ".join(one.text for one in key(plan).labels)


@pytest.mark.parametrize("seed", range(20))
def test_the_key_can_be_read(seed: int) -> None:
    assert not crowded(key(solve(random_job(seed), work=1000)))


def test_the_key_tells_of_the_marks_that_are_there_and_of_no_others() -> None:
    plan = series()
    told = words(plan)
    assert "write its name on the wood" in told
    assert "Left over until" in told
    assert "defect" not in told
    (board,) = plan.job.stock
    spoilt = replace(board, defects=(rect("36", "1", "2", "2"),))
    knotty = replace(plan, job=replace(plan.job, stock=(spoilt,)))
    assert "A defect that the cuts go round." in words(knotty)
    assert not crowded(key(knotty))
