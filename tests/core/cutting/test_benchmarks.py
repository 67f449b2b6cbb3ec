"""The planner against published instances: never better than is possible."""

from __future__ import annotations

import json
from typing import Any

import pytest

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.solve import solve
from app.core.cutting.totals import levels, totals
from app.core.length import Length
from tests.conftest import shared
from tests.core.cutting.checker import check

NM = 1000  # a unit of an instance; any whole number would do
# Instances from each family, and how far above the best value known a first
# planner may stay: a number to hold, measured here, not a published one.
FAMILIES = [
    ("falkenauer_u.json", (0, 5), 1.05),
    ("falkenauer_t.json", (0, 3), 1.20),
    ("scholl1.json", (0, 40), 1.05),
    ("schwerin.json", (0, 30), 1.10),
    ("class_2bp.json", (0, 60, 150, 250), 1.35),
    ("furniture_a.json", (0, 3), 1.35),
    ("generated_1d_multi_length.json", (0, 8), 1.25),
    ("generated_workshop.json", (0, 2), 1.80),
]


def read(instance: dict[str, Any]) -> Job:
    flat = instance["kind"] == "1d"

    def wide(facts: dict[str, Any]) -> Length | None:
        return None if flat else Length(facts["width"] * NM)

    stock = tuple(
        Stock(
            f"stock-{n}",
            Length(one["length"] * NM),
            wide(one),
            quantity=one["quantity"],
            cost=one["cost"],
        )
        for n, one in enumerate(instance["stock"])
    )
    blanks = tuple(
        Blank(f"item-{n}", Length(one["length"] * NM), wide(one), None, one["quantity"])
        for n, one in enumerate(instance["items"])
    )
    saw = Saw(Length(instance["kerf"] * NM))
    return Job(saw, Keep(Length(0), Length(0)), stock, blanks)


def known(instance: dict[str, Any]) -> tuple[float, float]:
    """A bound that no guillotine plan beats, and the best value known."""
    bounds, best = [0.0], []
    for record in instance["known"]:
        if "rotation" in record["variant"] or "-stage" in record["variant"]:
            continue
        if "value" in record["objective"] or "fits" in record["objective"]:
            continue
        bounds.append(record.get("optimum", record.get("lower_bound", 0)))
        found = record.get("optimum", record.get("best_known"))
        if found is not None:
            best.append(found)
    return max(bounds), min(best)


@pytest.mark.parametrize(("family", "numbers", "slack"), FAMILIES)
def test_published_instances_are_planned_soundly(
    family: str, numbers: tuple[int, ...], slack: float
) -> None:
    path = shared("benchmarks/cutting") / family
    instances = json.loads(path.read_text(encoding="utf-8"))
    for number in numbers:
        instance = instances[number]
        plan = solve(read(instance), work=300_000)
        check(plan)
        assert not plan.unplaced, instance["name"]
        bound, best = known(instance)
        cost = totals(plan).cost
        assert bound <= cost <= best * slack, (instance["name"], bound, cost, best)
        level = levels(plan)[0]
        assert level.bound <= best, "our own bound rules out a plan that exists"
