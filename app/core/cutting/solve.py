"""The planner: the best of several ways through a job.

The seam is ``solve``: a job in, a plan out. It stops by work done, never by
the clock, so one job always gives one plan.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from app.core.cutting.bars import asks_for_more, plan_bars
from app.core.cutting.bounds import least_cost
from app.core.cutting.effort import Progress, Standing, Watch, Work
from app.core.cutting.fit import fits, suits, why_not
from app.core.cutting.in_time import in_time
from app.core.cutting.job import Job
from app.core.cutting.layouts import layout
from app.core.cutting.marked import is_marked, plan_marked
from app.core.cutting.order import in_order
from app.core.cutting.plan import Layout, Plan, Unplaced
from app.core.cutting.refine import refined
from app.core.cutting.strategy import strategies
from app.core.cutting.supply import Laid, Run
from app.core.cutting.totals import totals
from app.core.cutting.wishes import Asked, Wished, glance, with_wishes, worse
from app.core.errors import WorkshopError

# Looks at a shape; some three million a second on a small laptop.
WORK = 4_000_000
GLANCE = 0  # for a first plan at once: the first way through the job alone
# Part of the work that goes into serving board after board, and looks for refining.
SERVING, REFINING = 0.1, 400_000


def solve(
    job: Job,
    progress: Progress | None = None,
    work: int = WORK,
    left: Callable[[], float] | None = None,
    watch: Watch | None = None,
) -> Plan:
    """The best plan found: all placed, least cost, least wood used up, fewest cuts.

    ``progress`` is told how many ways are done and how many there are. ``work``
    bounds the effort; the first way is always gone to its end. ``left`` tells the
    seconds that the caller still gives; it only ever stops earlier. ``watch`` is
    told of every better plan, the first after some milliseconds.

    Raises WorkshopError where widths are given for some pieces only.
    """
    _check(job)
    meter = Work(work, 0, left)
    if job.one_dimensional and asks_for_more(job):
        return _around(plan_bars, job, meter, progress, watch)
    if not job.one_dimensional and is_marked(job):
        return _around(plan_marked, job, meter, progress, watch)
    if job.one_dimensional:
        best, done = _served(job, meter, progress, watch)
        return _lengths(job, best, meter, progress, done)
    return _boards(job, meter, progress, watch)


def _around(
    planner: Callable[[Job, Asked, Wished], Plan],
    job: Job,
    meter: Work,
    progress: Progress | None,
    watch: Watch | None,
) -> Plan:
    """A plan by a planner that asks this one for plans of plainer jobs."""
    rest, told = 1.0, [(-1, -1)]

    def plain(one: Job, share: float) -> Plan:
        nonlocal rest
        if not share:
            return solve(one, work=GLANCE)
        # Looks are shared out of all, seconds out of those that are left.
        left = meter.share(min(1.0, share / max(rest, share))).left
        rest -= share
        return solve(one, progress, int(meter.most * share), left)

    def seen(plan: Plan) -> None:
        if watch and (told[-1] == (-1, -1) or worse(plan) < told[-1]):
            told.append(worse(plan))
            watch(_told(in_order(plan)))

    asked = Asked(plain, lambda: meter.over, seen)
    if watch:
        seen(planner(job, asked, glance))
    plan = planner(job, asked, with_wishes)
    if watch:
        watch(_told(plan))
    return plan


def _told(plan: Plan) -> Standing:
    return Standing(totals(plan).cost, least_cost(plan), lambda: plan)


def _served(
    job: Job, meter: Work, progress: Progress | None, watch: Watch | None
) -> tuple[Run, int]:
    """The best of the ways that serve one board after another."""
    ways = strategies(job)
    best: Run | None = None
    for done, way in enumerate(ways):
        run = Run(job, way, meter)
        run.go()
        run = in_time(run)
        if best is None or run.score < best.score:
            best = run
            if watch:
                watch(_standing(job, run))
        if progress:
            progress(done + 1, len(ways))
        if meter.spent > meter.most:
            break
    assert best is not None
    return best, done + 1


def _boards(
    job: Job, meter: Work, progress: Progress | None, watch: Watch | None
) -> Plan:
    """A plan of boards, never worse than the one that was served."""
    # The solver is loaded where it is needed: starting up must stay quick.
    from app.core.cutting.boards.planner import plan_boards  # noqa: PLC0415

    serving = Work(int(meter.most * SERVING), 0, meter.left)
    served, _ = _served(job, serving, progress, watch)
    meter.tick(serving.spent)

    def told(laid: Callable[[], list[Laid]], floor: int) -> None:
        run = served.instead(laid())
        if watch and run.score[:2] < served.score[:2]:
            plan = _plan(job, run)
            watch(
                Standing(totals(plan).cost, max(floor, least_cost(plan)), lambda: plan)
            )

    # A series served in time binds the search to poor boards: it begins anew.
    start = served.instead([]) if len(job.periods) > 1 else served
    answer = None if meter.over else plan_boards(start, meter, told)
    ways = [
        served,
        *(served.instead(laid) for laid in ([answer.laid] if answer else [])),
    ]
    best = min(ways, key=lambda run: run.score)
    finer = refined(job, best.laid, Work(min(meter.most, REFINING)))
    best.laid = [
        new if _in_time(job, [new]) else old
        for old, new in zip(best.laid, finer, strict=True)
    ]
    plan = _plan(job, best)
    short = any(left and _suited(job, n) for n, left in enumerate(best.left))
    return plan if short or not answer else replace(plan, bounds=answer.bounds)


def _in_time(job: Job, laid: list[Laid]) -> list[Laid]:
    """What can be cut in its period, with what waits large enough to be kept."""
    if len(job.periods) < 2:
        return laid
    return [one for one in laid if layout(job, one.stock, one.pattern)]


def _standing(job: Job, run: Run) -> Standing:
    plan = _plan(job, run)
    return Standing(totals(plan).cost, least_cost(plan), lambda: plan)


def _lengths(
    job: Job, served: Run, meter: Work, progress: Progress | None, done: int
) -> Plan:
    """A plan of lengths, never worse than the one that was served."""
    # The solver is loaded where it is needed: starting up must stay quick.
    from app.core.cutting.lengths import plan_lengths  # noqa: PLC0415

    answer = plan_lengths(served, meter, progress, done)
    if answer is None:
        return _plan(job, served)
    best = min(served, *map(served.instead, answer.laid), key=lambda run: run.score)
    plan = _plan(job, best)
    # A bound is for all that finds a stick; what fits none does not count.
    short = any(left and _suited(job, n) for n, left in enumerate(best.left))
    return plan if short else replace(plan, bounds=answer.bounds)


def _suited(job: Job, number: int) -> bool:
    blank = job.blanks[number]
    return any(
        one.quantity != 0 and suits(one, blank, job.plane) and fits(one, blank, job)
        for one in job.stock
    )


def _check(job: Job) -> None:
    if job.one_dimensional:
        return
    bare = [one.id for one in job.stock if one.width is None]
    bare += [one.id for one in job.blanks if one.width is None]
    if bare:
        raise WorkshopError(
            f"“{bare[0]}” has no width while others have. Give every piece a "
            "width, or none for a job of lengths only.",
            input="width",
        )


def _plan(job: Job, run: Run) -> Plan:
    unplaced = tuple(
        Unplaced(blank.id, left, why_not(blank, job))
        for blank, left in zip(job.blanks, run.left, strict=True)
        if left
    )
    laid = tuple(_layout(job, one) for one in sorted(run.laid, key=_fetched(job)))
    return in_order(Plan(job, laid, unplaced))


def _fetched(job: Job) -> Callable[[Laid], tuple[bool, bool, int]]:
    """Boards as they are fetched: offcuts, the rack, the dealer, each as listed."""

    def rank(laid: Laid) -> tuple[bool, bool, int]:
        stock = job.stock[laid.stock]
        return stock.cost is not None, not stock.offcut, laid.stock

    return rank


def _layout(job: Job, laid: Laid) -> Layout:
    found = layout(job, laid.stock, laid.pattern, laid.copies)
    assert found is not None
    return found
