"""A job planned in the ways its wood allows: glued up, resawn, or as it is.

Each way is tried shortly; what places more, or costs less, stands. At equal money
the part from one board and the board in one piece win. The seam is ``solve``, as
the planner's own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from app.core.cutting import glued, resawn
from app.core.cutting.effort import Progress, Standing, Watch, Work
from app.core.cutting.fit import ways
from app.core.cutting.job import Blank, Job
from app.core.cutting.open_ways import Choice, has_wood, least_by_any_way, moves
from app.core.cutting.plan import Plan
from app.core.cutting.solve import WORK
from app.core.cutting.solve import solve as plan_as_it_is
from app.core.cutting.strategy import strategies
from app.core.cutting.supply import Run
from app.core.cutting.totals import totals

MOST_TRIES = 30
MOST_PRUNED = 8
# A way is tried by serving one board after the other in so many manners.
MANNERS = 8
GLANCE = 20_000  # of work: a first plan to show

Left = Callable[[], float]


def solve(
    job: Job,
    progress: Progress | None = None,
    work: int = WORK,
    left: Left | None = None,
    watch: Watch | None = None,
) -> Plan:
    """The planner's ``solve`` over the ways the job allows; its plan holds its job.

    Raises WorkshopError as the planner does.
    """
    if not any(moves(job)):
        return plan_as_it_is(job, progress, work, left, watch)
    told = _told(watch, least_by_any_way(job)) if watch else None
    if told:
        plan_as_it_is(job, None, GLANCE, left, told)
    choice = _Trials(job, left).best_of(_tries(job))
    if choice == Choice():
        return plan_as_it_is(job, progress, work, left, told)
    # What looked better in a short trial must be so after a long one.
    plain = plan_as_it_is(job, None, work // 2, _half(left), told)
    plan = plan_as_it_is(choice.on(job), progress, work // 2, left, told)
    return min(plain, resawn.evened(plan), key=lambda one: worth(one, job))


def _half(left: Left | None) -> Left | None:
    """Half of the time that is left now."""
    if left is None:
        return None
    other = left() / 2
    return lambda: left() - other


def _told(watch: Watch, least: int) -> Watch:
    """Tell of better plans as they would be kept: what is resawn used whole.

    A bound of one way is none of the others; ``least`` holds for all of them.
    """

    def told(standing: Standing) -> None:
        plan = resawn.evened(standing.plan())
        bound = min(standing.bound, least)
        watch(Standing(totals(plan).cost, bound, lambda: plan))

    return told


@dataclass
class _Trials:
    """A job served shortly in one way and another."""

    job: Job
    left: Left | None

    def best_of(self, tries: Iterable[Choice]) -> Choice:
        """The choice whose plan is best, with nothing in it that does not help."""
        best = Choice()
        value = self._worth(best)
        for move in tries:
            if not any(value) or self._over:
                break
            tried = best.with_(move)
            if (found := self._worth(tried)) < value:
                best, value = tried, found
        for key in [*best.glued, *best.resawn][:MOST_PRUNED]:
            less = best.without(key)
            if not self._over and (found := self._worth(less)) <= value:
                best, value = less, found
        return best

    @property
    def _over(self) -> bool:
        return self.left is not None and self.left() <= 0

    def _worth(self, choice: Choice) -> tuple[Fraction, int]:
        job = choice.on(self.job)
        parts = {blank.id: blank for blank in self.job.blanks}
        found = []
        for manner in strategies(job)[:MANNERS]:
            run = Run(job, manner, Work(WORK))
            run.go()
            left = zip(job.blanks, run.left, strict=True)
            lost = _lost([(blank.id, n) for blank, n in left if n], parts)
            found.append((lost, _cost(job, run)))
        return min(found)


def _cost(job: Job, run: Run) -> int:
    """What a run costs once every board that it resaws is bought whole."""
    stock = {one.id: one for one in job.stock}
    used: Counter[tuple[str, int]] = Counter()
    for laid in run.laid:
        key = job.stock[laid.stock].id
        whole, _, boards = resawn.piece_of(key) or (key, 1, 1)
        used[whole, boards] += laid.copies
    return sum(
        -(-count // boards) * (stock[key].cost or 0)
        for (key, boards), count in used.items()
    )


def worth(plan: Plan, job: Job) -> tuple[Fraction, int]:
    """What has no place, by the face of the parts, then the money; less is better.

    ``job`` is the one before it was rewritten.
    """
    parts = {blank.id: blank for blank in job.blanks}
    out = [(one.blank, one.quantity) for one in plan.unplaced]
    return _lost(out, parts), totals(plan).cost


def _lost(out: Iterable[tuple[str, int]], parts: Mapping[str, Blank]) -> Fraction:
    """The face of the parts that so many blanks would have made."""
    lost = Fraction(0)
    for blank, count in out:
        key, strips = blank, 1
        if key not in parts:
            key, strips = glued.part_and_strips(blank) or (blank, 1)
        along, across, _ = ways(parts[key])[0]
        lost += Fraction(along * across * count, strips)
    return lost


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
