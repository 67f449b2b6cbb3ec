"""What was found on one instance after another, by the planner and other ways."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import mean, median

from tests.benchmarks.cutting.measuring import Answer, planned
from tests.benchmarks.cutting.report import share, table
from tests.core.cutting.published import Instance, known, optimum, read

Way = Callable[[Instance, float], int | None]


@dataclass(frozen=True)
class Found:
    """One instance: what the planner and, where they were tried, others needed."""

    name: str
    pieces: int
    answer: Answer
    low: float
    best: int
    optimum: int | None
    others: Mapping[str, int | None] = field(default_factory=dict)

    @property
    def above(self) -> int:
        """How far the plan lies above the best value known."""
        return self.answer.value - self.best

    @property
    def gap(self) -> float:
        """How far the plan may lie above the best possible, in parts of that."""
        return self.answer.gap

    def miss(self) -> str:
        """The line that says what was missed."""
        one = self.answer
        of = f"optimum {self.best}" if self.optimum else f"best known {self.best}"
        return (
            f"`{self.name}`: {one.value}, bound {one.bound}, {of}, {one.seconds:.1f} s"
        )


def measure(
    instance: Instance, seconds: float, ways: Mapping[str, Way] | None = None
) -> Found:
    """The planner on one instance and, in the same seconds each, other ways."""
    answer = planned(read(instance), seconds)
    low, best = known(instance)
    assert answer.bound <= best, f"{instance['name']}: the bound is too high"
    assert low <= answer.value, f"{instance['name']}: better than is possible"
    found = Found(
        instance["name"],
        sum(one["quantity"] for one in instance["items"]),
        answer,
        low,
        int(best),
        optimum(instance),
        {name: way(instance, seconds) for name, way in (ways or {}).items()},
    )
    told = "" if not found.others else f" {dict(found.others)}"
    print(found.miss() + told, file=sys.stderr, flush=True)
    return found


HEAD = (
    "family",
    "instances",
    "optimum known",
    "at it",
    "at best known or below",
    "proven",
    "worst above",
    "mean gap",
    "mean s",
    "max s",
)


def row(name: str, found: Sequence[Found], money: bool = False) -> list[object]:
    """One family's row; money is compared in percent, pieces by number."""
    known_ones = [one for one in found if one.optimum is not None]
    worst = max(one.above / one.best if money else one.above for one in found)
    return [
        name,
        len(found),
        len(known_ones),
        sum(one.above <= 0 for one in known_ones),
        sum(one.above <= 0 for one in found),
        sum(one.answer.proven for one in found),
        share(max(worst, 0), 2) if money else max(int(worst), 0),
        share(mean(one.gap for one in found), 2),
        f"{mean(one.answer.seconds for one in found):.2f}",
        f"{max(one.answer.seconds for one in found):.2f}",
    ]


BESIDE = (
    "How many plans are at the best known value, and how far above it they lie in the "
    "middle; every way had the same seconds of the processor."
)


def beside(found: Mapping[str, Sequence[Found]]) -> str:
    """The table side by side: at the best known value, and how far above it."""
    tried = {
        name: [one for one in these if one.others] for name, these in found.items()
    }
    names = list(
        dict.fromkeys(n for t in tried.values() for one in t for n in one.others)
    )
    head = ["family", "instances", "this planner"]
    head += names
    rows = []
    for family, these in tried.items():
        if these:
            ours = [(one.answer.value, one.best) for one in these]
            cells: list[object] = [family, len(these), _reached(ours)]
            for name in names:
                theirs = [(one.others.get(name), one.best) for one in these]
                cells.append(_reached(theirs))
            rows.append(cells)
    return table(head, rows)


def _reached(pairs: Sequence[tuple[int | None, int]]) -> str:
    """How many at the best known, how far above in the middle, how many without."""
    there = [(value, best) for value, best in pairs if value is not None]
    if not there:
        return "no plan"
    at = sum(value <= best for value, best in there)
    above = median(value / max(best, 1) - 1 for value, best in there)
    text = f"{at} at it, median {above * 100:+.1f} %"
    none = len(pairs) - len(there)
    return f"{text}, {none} without a plan" if none else text
