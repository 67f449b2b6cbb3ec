"""The planner against published instances, and the other ways beside it.

A short cut through ``python -m tests.benchmarks.cutting``: little work, a handful
of instances of each family.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from app.core.cutting.solve import solve
from app.core.cutting.totals import levels, totals
from tests.benchmarks.cutting import arc_flow, decreasing, jobs, report
from tests.core.cutting.checker import check
from tests.core.cutting.published import instances, known, read

# Instances from each family, the work allowed, and how far above the best value
# known a plan may be: numbers to hold, measured here, not published ones.
FAMILIES = [
    ("falkenauer_u", (0, 5, 40), 4_000_000, 1.0),
    ("falkenauer_t", (0,), 6_000_000, 1.0),
    ("scholl1", (0, 40, 90), 1_000_000, 1.0),
    ("scholl2", (3, 71), 1_000_000, 1.0),
    ("schwerin", (0, 30), 1_000_000, 1.0),
    ("waescher_gau", (3, 6), 1_000_000, 1.0),
    ("hard28", (0, 4), 1_000_000, 1.02),
    ("generated_1d_multi_length", (0, 8), 1_000_000, 1.0),
    ("class_2bp", (0, 60, 150, 250), 300_000, 1.0),
    ("furniture_a", (0, 3), 300_000, 1.0),
    ("generated_workshop", (0, 2), 300_000, 1.25),
]


@pytest.mark.parametrize(("family", "numbers", "work", "slack"), FAMILIES)
def test_published_instances_are_planned_soundly(
    family: str, numbers: tuple[int, ...], work: int, slack: float
) -> None:
    found = instances(family)
    for number in numbers:
        instance = found[number]
        plan = solve(read(instance), work=work)
        check(plan)
        assert not plan.unplaced, instance["name"]
        bound, best = known(instance)
        cost = totals(plan).cost
        assert bound <= cost <= best * slack, (instance["name"], bound, cost, best)
        level = levels(plan)[0]
        assert level.bound <= best, "our own bound rules out a plan that exists"


@pytest.mark.parametrize(("family", "number"), [("scholl1", 5), ("waescher_gau", 3)])
def test_fitting_by_hand_never_beats_what_is_published(
    family: str, number: int
) -> None:
    instance = instances(family)[number]
    _, best = known(instance)
    for best_fit in (False, True):
        found = decreasing.sticks(instance, best_fit)
        assert found is not None
        assert found >= best


@pytest.mark.parametrize("number", [0, 60, 150])
def test_fitting_boards_by_hand_never_beats_what_is_published(number: int) -> None:
    instance = instances("class_2bp")[number]
    low, _ = known(instance)
    for best_fit in (False, True):
        found = decreasing.boards(instance, best_fit)
        assert found is not None
        assert found >= low


def test_the_arc_flow_model_comes_to_the_published_optimum() -> None:
    instance = instances("scholl1")[5]
    assert arc_flow.lengths(instance, seconds=5) == known(instance)[1]


@pytest.mark.parametrize("seed", range(8))
def test_an_everyday_job_has_what_its_name_says(seed: int) -> None:
    job = jobs.rack(seed)
    free = [one for one in job["stock"] if not one["cost"]]
    assert (len(job["stock"]) - len(free), len(free)) == (6, 10)
    assert len(job["items"]) == 8
    assert sum(one["quantity"] for one in job["items"]) == 30
    plan = solve(read(job), work=100_000)
    assert not plan.unplaced
    by_hand = decreasing.boards(job, best_fit=True)
    assert by_hand is None or totals(plan).cost <= by_hand


def test_a_section_made_anew_leaves_the_others_of_the_report(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(report, "PATH", tmp_path / "cutting.md")
    order = ["Lengths", "Plates"]
    report.write(
        [report.Section("Plates", "two"), report.Section("Lengths", "1")], order
    )
    report.write([report.Section("Plates", "three")], order)
    text = report.PATH.read_text(encoding="utf-8")
    assert text.endswith("## Lengths\n\n1\n\n## Plates\n\nthree\n")
