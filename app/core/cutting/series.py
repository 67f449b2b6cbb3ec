"""The wood of a whole series: its parts planned together, and one after the other.

Planned together, a part may open a board that a later one needs as well, or leave
that board whole. Planned part by part, each takes what is best for itself. The
second is the measure for the first, and where it is cheaper, it is the answer.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

from app.core.cutting import resawn
from app.core.cutting.carried import Rack
from app.core.cutting.effort import Progress, Standing, Watch, Work
from app.core.cutting.fit import ways
from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.cutting.solve import WORK, solve
from app.core.cutting.totals import levels, offcut_worth, totals

# A planner as ``solve`` is.
Planner = Callable[..., Plan]
FALLBACK = 0.2
EQUAL = 0.5  # as much thought for part by part as for all parts together


@dataclass(frozen=True, slots=True)
class BothWays:
    """``plan`` for all parts together; ``apart`` the same job part by part."""

    plan: Plan
    apart: Plan


def part_by_part(
    job: Job,
    progress: Progress | None = None,
    work: int = WORK,
    left: Callable[[], float] | None = None,
) -> Plan:
    """Each period planned alone, in order, with the planner that ``solve`` is.

    What a period leaves over and is worth keeping is a free offcut of the later
    ones; what is bought is bought in its period. ``work`` and ``left`` are for all
    periods, in equal shares; time that one does not need goes to those after it.
    The plan is one of the whole job.

    Raises WorkshopError as ``solve`` does.
    """
    rack = Rack(job)
    periods = job.periods or ("",)
    each = max(1, work // len(periods))
    for done, period in enumerate(periods):
        asked = rack.asked(period)
        if asked.blanks:
            share = Work(each, 0, left).share(1 / (len(periods) - done))
            rack.take(solve(asked, None, each, share.left), period)
        if progress:
            progress(done + 1, len(periods))
    return rack.plan()


def joint(
    job: Job,
    progress: Progress | None = None,
    work: int = WORK,
    left: Callable[[], float] | None = None,
    watch: Watch | None = None,
) -> Plan:
    """The best plan for all periods together, never dearer than part by part.

    As ``solve``, and raises as it does. Part by part gets a small share of the
    effort: it is seldom the better way, and here nobody asks what it costs.
    """
    return both_ways(job, progress, work, left, watch, FALLBACK).plan


def both_ways(
    job: Job,
    progress: Progress | None = None,
    work: int = WORK,
    left: Callable[[], float] | None = None,
    watch: Watch | None = None,
    apart: float = EQUAL,
    planner: Planner = solve,
) -> BothWays:
    """All periods together, and part by part with the share ``apart`` of the effort.

    ``planner`` plans them together, and may choose among ways that the job leaves
    open; part by part then has the job as it chose it. Raises as ``solve`` does.
    """
    meter = Work(work, 0, left)
    first = meter.share(1 - apart)
    together = planner(job, progress, first.most, first.left, watch)
    meter.tick(first.most)
    rest = max(1, meter.most - meter.spent)
    alone = resawn.evened(part_by_part(together.job, None, rest, left))
    plan = _better(together, alone)
    if watch and plan is not together:
        watch(Standing(totals(plan).cost, levels(plan)[0].bound, lambda: plan))
    return BothWays(plan, alone)


def _better(together: Plan, alone: Plan) -> Plan:
    """The better of both, with what is proven for either."""
    if rank(together) <= rank(alone):
        return together
    # A bound is for the blanks that were placed.
    same = _stays_out(together) == _stays_out(alone)
    return replace(alone, bounds=together.bounds) if same else alone


def _stays_out(plan: Plan) -> dict[str, int]:
    return {one.blank: one.quantity for one in plan.unplaced}


def rank(plan: Plan) -> tuple[int, ...]:
    """Less is better: what has no place, money, wishes, offcuts, set-ups, cuts."""
    faces = {one.id: ways(one)[0] for one in plan.job.blanks}
    out = sum(
        faces[one.blank][0] * faces[one.blank][1] * one.quantity
        for one in plan.unplaced
    )
    sums = totals(plan)
    worth = offcut_worth(plan)
    return (out, sums.cost, -_wishes_kept(plan), -worth, sums.set_ups, sums.cuts)


def _wishes_kept(plan: Plan) -> int:
    """How many blanks lie where they are rather wanted."""
    lying: Counter[tuple[str, str]] = Counter()
    for layout in plan.layouts:
        for piece in layout.pieces:
            lying[piece.blank, layout.stock] += layout.copies
    wanted = {one.id: one.quantity for one in plan.job.blanks}
    return sum(
        min(
            lying[pin.blank, pin.stock],
            wanted[pin.blank] if pin.quantity is None else pin.quantity,
        )
        for pin in plan.job.pins
        if not pin.firm
    )
