"""The planner against published instances: never better than is possible."""

from __future__ import annotations

import pytest

from app.core.cutting.solve import solve
from app.core.cutting.totals import levels, totals
from tests.core.cutting.checker import check
from tests.core.cutting.published import instances, known, read

# Instances from each family, and how far above the best value known a first
# planner may stay: a number to hold, measured here, not a published one.
FAMILIES = [
    ("falkenauer_u", (0, 5), 1.05),
    ("falkenauer_t", (0, 3), 1.20),
    ("scholl1", (0, 40), 1.05),
    ("schwerin", (0, 30), 1.10),
    ("class_2bp", (0, 60, 150, 250), 1.35),
    ("furniture_a", (0, 3), 1.35),
    ("generated_1d_multi_length", (0, 8), 1.25),
    ("generated_workshop", (0, 2), 1.80),
]


@pytest.mark.parametrize(("family", "numbers", "slack"), FAMILIES)
def test_published_instances_are_planned_soundly(
    family: str, numbers: tuple[int, ...], slack: float
) -> None:
    found = instances(family)
    for number in numbers:
        instance = found[number]
        plan = solve(read(instance), work=300_000)
        check(plan)
        assert not plan.unplaced, instance["name"]
        bound, best = known(instance)
        cost = totals(plan).cost
        assert bound <= cost <= best * slack, (instance["name"], bound, cost, best)
        level = levels(plan)[0]
        assert level.bound <= best, "our own bound rules out a plan that exists"
