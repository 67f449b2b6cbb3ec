"""A job planned in the ways its wood allows: glued up, resawn, or as it is.

Each way is tried shortly; what places more, or costs less, stands. At equal money
the part from one board and the board in one piece win. The seam is ``solve``, as
the planner's own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import product

from app.core.cutting import glued, resawn
from app.core.cutting.effort import Progress, Standing, Watch
from app.core.cutting.fit import fits, suits, ways
from app.core.cutting.job import Blank, Job
from app.core.cutting.plan import Plan
from app.core.cutting.solve import WORK
from app.core.cutting.solve import solve as plan_as_it_is
from app.core.cutting.totals import totals
from app.core.length import Length

# One way is tried with so much of all the work, and no more ways than this.
SHARE = 24
LEAST_WORK = 60_000
MOST_TRIES = 12
MOST_PARTS = 4  # kinds of parts, the widest first, and of stock, the thickest first


@dataclass(frozen=True, slots=True)
class Choice:
    """Parts glued up of so many strips, stock resawn into so many boards; by id."""

    glued: dict[str, int] = field(default_factory=dict)
    resawn: dict[str, int] = field(default_factory=dict)

    def on(self, job: Job) -> Job:
        """The job so."""
        return glued.glued(resawn.resawn(job, self.resawn), self.glued)

    def with_(self, other: Choice) -> Choice:
        """Both, the other one's where they differ."""
        return Choice(self.glued | other.glued, self.resawn | other.resawn)


def choice_of(job: Job) -> Choice:
    """What a job was rewritten by."""
    return Choice(glued.choice_of(job), resawn.choice_of(job))


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
    if not any(_moves(job)):
        return plan_as_it_is(job, progress, work, left, watch)
    choice = _best(job, max(work // SHARE, LEAST_WORK), left, watch)
    told = _evened(watch) if watch and choice.resawn else watch
    plan = plan_as_it_is(choice.on(job), progress, work, left, told)
    return resawn.evened(plan)


def was_tried(job: Job) -> bool:
    """Whether a plan's job had other ways open, or is one of them.

    A bound on its cost speaks of that way alone.
    """
    return choice_of(job) != Choice() or any(_moves(job))


def _evened(watch: Watch) -> Watch:
    """Tell of better plans as they would be kept: what is resawn used whole."""

    def told(standing: Standing) -> None:
        plan = resawn.evened(standing.plan())
        watch(replace(standing, cost=totals(plan).cost, plan=lambda: plan))

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
    moves = _moves(job)
    homeless = {blank.id for blank in job.blanks if not _has_wood(blank, job)}
    first = [one for one in moves if set(one.glued) & homeless or one.resawn]
    rest = [one for one in moves if one not in first]
    strips = [one for one in first if one.glued]
    boards = [one for one in first if one.resawn]
    both = [a.with_(b) for a, b in product(strips, boards)]
    # A pair only serves where neither does alone; it costs a try.
    yield from [*first, *rest, *both][:MOST_TRIES]


def _moves(job: Job) -> list[Choice]:
    """Every single change that the job allows, in the order to be tried."""
    wide = sorted(job.blanks, key=lambda x: -(x.width.nm if x.width else 0))
    pinned = {pin.blank for pin in job.pins}
    parts = [x for x in wide if x.id not in pinned and glued.counts(x, job.display)]
    found = [
        Choice(glued={blank.id: strips})
        for blank in parts[:MOST_PARTS]
        for strips in glued.counts(blank, job.display)[:3]
        if _strip_has_wood(blank, strips, job)
    ]
    return [*found, *_sawings(job)]


def _sawings(job: Job) -> Iterator[Choice]:
    """All stock of one wood and thickness resawn, then single ones, the thickest."""
    thick = sorted(job.stock, key=lambda x: -(x.thickness.nm if x.thickness else 0))
    able = {one.id: resawn.counts(one, job) for one in thick}
    alike: dict[tuple[str, Length | None, bool, int], list[str]] = {}
    for one in thick:
        for boards in able[one.id]:
            key = (one.species, one.thickness, one.cost is None, boards)
            alike.setdefault(key, []).append(one.id)
    for (*_, boards), ids in alike.items():
        yield Choice(resawn=dict.fromkeys(ids, boards))
    several = dict.fromkeys(ids[0] for ids in alike.values() if len(ids) > 1)
    for stock_id in list(several)[:MOST_PARTS]:
        yield from (Choice(resawn={stock_id: boards}) for boards in able[stock_id])


def _has_wood(blank: Blank, job: Job) -> bool:
    return any(
        suits(one, blank, job.plane) and fits(one, blank, job) for one in job.stock
    )


def _strip_has_wood(blank: Blank, strips: int, job: Job) -> bool:
    """Whether its strips fit some stock, in any thickness it can be resawn to."""
    alone = replace(job, blanks=(blank,))
    strip = glued.glued(alone, {blank.id: strips}).blanks[0]
    return _has_wood(strip, job) or job.resaw is not None
