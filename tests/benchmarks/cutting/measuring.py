"""One job planned against the processor's clock, and checked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from time import process_time

from app.core.cutting.effort import Standing
from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.cutting.series import part_by_part
from app.core.cutting.solve import solve
from app.core.cutting.totals import levels
from tests.core.cutting.checker import check

# Work without end: here the clock decides.
ENDLESS = 10**15


def clock(seconds: float) -> Callable[[], float]:
    """How many seconds are left from now on, in seconds of the processor."""
    end = process_time() + seconds
    return lambda: end - process_time()


@dataclass(frozen=True)
class Answer:
    """What the planner made of one job, and how long it took.

    ``first`` is after how many seconds the first plan was there.
    """

    plan: Plan
    value: int
    bound: int
    proven: bool
    seconds: float
    first: float

    @property
    def gap(self) -> float:
        """How far the plan may lie above the best possible, in parts of its bound."""
        return (self.value - self.bound) / max(self.bound, 1)


@dataclass
class _Watched:
    """The moment of the first plan."""

    began: float = field(default_factory=process_time)
    first: float | None = None

    def see(self, standing: Standing) -> None:
        """Remember when the first plan could be drawn."""
        if self.first is None:
            standing.plan()
            self.first = process_time() - self.began


def planned(job: Job, seconds: float, by: Callable[..., Plan] = solve) -> Answer:
    """Plan for so many seconds of the processor; the plan is sawn over again."""
    watched, left = _Watched(), clock(seconds)
    more = {} if by is part_by_part else {"watch": watched.see}
    plan = by(job, work=ENDLESS, left=left, **more)
    took = process_time() - watched.began
    check(plan)
    assert not plan.unplaced, "blanks stay out that have a place"
    cost = levels(plan)[0]
    first = took if watched.first is None else watched.first
    return Answer(plan, cost.value, cost.bound, cost.proven, took, first)
