"""A kept plan that was spoiled on its way is refused with the place of the fault."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.cutting.written import answer_document, job_document, read_plan
from app.core.errors import WorkshopError
from tests.core.cutting.jobs import random_job


def kept() -> tuple[Plan, dict[str, Any], dict[str, Any]]:
    plan = solve(random_job(3))
    documents = (job_document(plan.job), answer_document(plan))
    job, answer = (json.loads(json.dumps(one)) for one in documents)
    return plan, job, answer


def test_what_was_added_to_plans_since_takes_its_default() -> None:
    plan, job, answer = kept()
    for stock in job["job"]["stock"]:
        del stock["name"]
    assert read_plan(job, answer) == plan


@pytest.mark.parametrize(
    ("name", "value", "says"),
    [
        ("direction", "askew", "direction holds 'askew'"),
        ("direction", ["rip"], "direction holds"),
        ("at", "12 in", "at holds '12 in'"),
        ("at", 1.5, "at holds 1.5"),
        ("mood", "good", "mood"),
    ],
)
def test_a_spoiled_cut_is_refused_with_its_place(
    name: str, value: object, says: str
) -> None:
    _, job, answer = kept()
    spoiled = copy.deepcopy(answer)
    spoiled["layouts"][0]["cuts"][0][name] = value
    with pytest.raises(WorkshopError, match=says):
        read_plan(job, spoiled)


def test_an_answer_without_its_job_is_refused() -> None:
    _, _, answer = kept()
    with pytest.raises(WorkshopError, match="job must be an object"):
        read_plan({}, answer)


def test_a_plan_asked_for_again_is_not_read_again_unless_it_changed() -> None:
    plan = solve(random_job(3), work=10_000)
    job, answer = job_document(plan.job), answer_document(plan)
    first = read_plan(job, answer)
    assert read_plan(job_document(plan.job), answer_document(plan)) is first
    assert read_plan(job, answer | {"layouts": []}).layouts == ()
    assert first == plan
