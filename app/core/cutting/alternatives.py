"""A job planned in the ways its wood allows: glued up, resawn, or as it is.

Each way is tried shortly; what places more, or costs less, stands. At equal money
the part from one board and the board in one piece win. The seam is ``solve``, as
the planner's own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import product

from app.core.cutting import glued, resawn
from app.core.cutting.effort import Progress, Standing, Watch
from app.core.cutting.fit import ways
from app.core.cutting.job import Job
from app.core.cutting.open_ways import Choice, has_wood, least_by_any_way, moves
from app.core.cutting.plan import Plan
from app.core.cutting.solve import WORK
from app.core.cutting.solve import solve as plan_as_it_is
from app.core.cutting.totals import totals

# One way is tried with so much of all the work, and no more ways than this.
SHARE = 24
LEAST_WORK = 60_000
MOST_TRIES = 12


def solve(
    job: Job,
    progress: Progress | None = None,
    work: int = WORK,
    left: Callable[[], float] | None = None,
    watch: Watch | None = None,
) -> Plan:
    """The planner's ``solve`` over the ways the job allows; its plan holds its job.

    Raises WorkshopError as the planner does.
    """
    if not any(moves(job)):
        return plan_as_it_is(job, progress, work, left, watch)
    told = _told(watch, least_by_any_way(job)) if watch else None
    choice = _best(job, max(work // SHARE, LEAST_WORK), left, told)
    plan = plan_as_it_is(choice.on(job), progress, work, left, told)
    return resawn.evened(plan)


def _told(watch: Watch, least: int) -> Watch:
    """Tell of better plans as they would be kept: what is resawn used whole.

    A bound of one way is none of the others; ``least`` holds for all of them.
    """

    def told(standing: Standing) -> None:
        plan = resawn.evened(standing.plan())
        bound = min(standing.bound, least)
        watch(Standing(totals(plan).cost, bound, lambda: plan))

    return told


def _best(
    job: Job, work: int, left: Callable[[], float] | None, watch: Watch | None
) -> Choice:
    """The choice whose plan is best of those tried."""

    def worth(choice: Choice) -> tuple[Fraction, int]:
        seen = None if choice != Choice() else watch
        plan = plan_as_it_is(choice.on(job), None, work, left, seen)
        return _worth(resawn.evened(plan), job)

    best = Choice()
    value = worth(best)
    for move in _tries(job):
        if not any(value) or (left is not None and left() <= 0):
            break
        tried = best.with_(move)
        if (found := worth(tried)) < value:
            best, value = tried, found
    return best


def _worth(plan: Plan, job: Job) -> tuple[Fraction, int]:
    """What has no place, as a share of its part's face, then the money."""
    parts = {blank.id: blank for blank in job.blanks}
    lost = Fraction(0)
    for one in plan.unplaced:
        key, strips = glued.part_and_strips(one.blank) or (one.blank, 1)
        along, across, _ = ways(parts.get(key, parts[key]))[0]
        lost += Fraction(along * across * one.quantity, strips)
    return lost, totals(plan).cost


def _tries(job: Job) -> Iterator[Choice]:
    """Single changes, those that some part cannot do without first, then pairs."""
    open_ways = list(moves(job))
    homeless = {blank.id for blank in job.blanks if not has_wood(blank, job)}
    first = [one for one in open_ways if set(one.glued) & homeless or one.resawn]
    rest = [one for one in open_ways if one not in first]
    strips = [one for one in first if one.glued]
    boards = [one for one in first if one.resawn]
    both = [a.with_(b) for a, b in product(strips, boards)]
    # A pair only serves where neither does alone; it costs a try.
    yield from [*first, *rest, *both][:MOST_TRIES]
