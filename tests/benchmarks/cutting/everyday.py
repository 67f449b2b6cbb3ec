"""Everyday jobs: how soon a plan is there, and how good it is a little later."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tests.benchmarks.cutting import arc_flow, decreasing, direct, jobs
from tests.benchmarks.cutting.asked import Asked
from tests.benchmarks.cutting.measuring import Answer, planned
from tests.benchmarks.cutting.report import Section, share, table
from tests.core.cutting.published import Instance, read

TITLES = ("Everyday jobs",)
FAMILIES = ("rack", "catalogue 200", "catalogue 1000", "lengths 1000")
SEEDS = {"rack": 8, "catalogue 200": 4, "catalogue 1000": 2, "lengths 1000": 2}
SECONDS = {
    "rack": 2.0,
    "catalogue 200": 10.0,
    "catalogue 1000": 30.0,
    "lengths 1000": 30.0,
}
# How far above its bound a plan may lie; a rack's job has no such mark.
MOST = {"catalogue 200": 0.02, "catalogue 1000": 0.01, "lengths 1000": 0.01}
# Within so many milliseconds a first plan is to be there.
FIRST_MS = 50
LONGER = 20.0
HEAD = ("job", "first plan, ms", "plan", "bound", "gap", "proven", "s")


@dataclass(frozen=True)
class Day:
    """One job and what was made of it."""

    instance: Instance
    answer: Answer

    @property
    def gap(self) -> float:
        """How far the plan may lie above the best possible."""
        return self.answer.gap


def sections(asked: Asked) -> list[Section]:
    """Measure it all and say what came of it."""
    planned(read(jobs.rack(0)), 0.1)  # loads the solver: not part of any job
    made = [_made(asked)]
    for family in FAMILIES:
        if asked.wants(family):
            seconds = asked.seconds or SECONDS[family]
            seeds = range(0, SEEDS[family], asked.every)
            days = [_day(job(family, seed), seconds) for seed in seeds]
            made += [_said(family, days, seconds), _table(family, days)]
            if asked.rivals:
                made.append(_beside(days[:: asked.rivals], seconds))
    return [Section(TITLES[0], "\n\n".join(made))]


def _made(asked: Asked) -> str:
    return (
        f"Made on {asked.on.day} {asked.on:%B %Y}; jobs made by chance from a seed "
        "(`tests/benchmarks/cutting/jobs.py`). The gap is above the planner's bound. "
        "*First plan* is when a plan could be drawn."
    )


def job(family: str, seed: int) -> Instance:
    """The job of a family that belongs to a seed."""
    kind, _, pieces = family.partition(" ")
    if kind == "rack":
        return jobs.rack(seed)
    make = jobs.catalogue if kind == "catalogue" else jobs.lengths
    return make(seed, int(pieces))


def _day(instance: Instance, seconds: float) -> Day:
    day = Day(instance, planned(read(instance), seconds))
    print(instance["name"], day.answer.value, day.answer.bound, f"{day.gap:.2%}")
    return day


def _said(family: str, days: Sequence[Day], seconds: float) -> str:
    slow = max(day.answer.first for day in days) * 1000
    text = f"**{family}**, {seconds:g} s: "
    if family in MOST:
        within = sum(day.gap <= MOST[family] for day in days)
        return text + (
            f"within {share(MOST[family], 0)} of the bound in {within} of {len(days)}."
        )
    soon = sum(day.answer.first * 1000 <= FIRST_MS for day in days)
    return text + (
        f"a first plan within {FIRST_MS} ms in {soon} of {len(days)}, the slowest "
        f"after {slow:.0f} ms; the last column says what {LONGER:g} s would still save."
    )


def _table(family: str, days: Sequence[Day]) -> str:
    head, rows = list(HEAD), [_row(day) for day in days]
    if family not in MOST:
        head.append(f"saved by {LONGER:g} s")
        for day, row in zip(days, rows, strict=True):
            long = planned(read(day.instance), LONGER)
            row.append(share(1 - long.value / max(day.answer.value, 1)))
    return table(head, rows)


def _row(day: Day) -> list[object]:
    one = day.answer
    return [
        day.instance["name"],
        f"{one.first * 1000:.0f}",
        one.value,
        one.bound,
        share(day.gap, 2),
        "yes" if one.proven else "no",
        f"{one.seconds:.1f}",
    ]


def _beside(days: Sequence[Day], seconds: float) -> str:
    """The same jobs by hand and by general solvers in the same seconds."""
    flat = days[0].instance["kind"] == "1d"
    fit = decreasing.sticks if flat else decreasing.boards
    head = ["job", "this planner", "first fit", "best fit"]
    head += ["arc-flow model"] * flat + ["constraint solver"] * direct.THERE
    rows = []
    for day in days:
        one = day.instance
        cells: list[object] = [one["name"], day.answer.value]
        cells += [_shown(fit(one, best_fit), day) for best_fit in (False, True)]
        if flat:
            cells.append(_shown(arc_flow.lengths(one, seconds), day))
        if direct.THERE:
            model = direct.lengths if flat else direct.rectangles
            cells.append(_shown(model(one, seconds), day))
        rows.append(cells)
    return table(head, rows)


def _shown(value: int | None, day: Day) -> str:
    if value is None:
        return "no plan"
    return f"{value} ({(value / max(day.answer.value, 1) - 1) * 100:+.1f} %)"
