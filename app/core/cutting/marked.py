"""Boards with pins and defects, for a planner that knows neither.

Pinned blanks are bound to their boards, defects cut around: what is left is a job
of sound boards. Its plan is put back on the boards as they are.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.cutting.fit import why_not
from app.core.cutting.job import Job
from app.core.cutting.layouts import layout
from app.core.cutting.order import in_order
from app.core.cutting.pattern import Pattern, Shape
from app.core.cutting.pins import Loose
from app.core.cutting.plan import Bound, Layout, Plan, Unplaced
from app.core.cutting.regions import Regioned, regions, variants
from app.core.cutting.sawn import box, of_layout
from app.core.cutting.totals import offcut_worth, totals
from app.core.cutting.wishes import Asked, Wished, with_wishes, worse

BOUND = 0.15  # of the work, for a bound with all boards taken as sound


def is_marked(job: Job) -> bool:
    """Whether a job has pins or defects."""
    return bool(job.pins) or any(one.defects for one in job.stock)


def plan_marked(job: Job, asked: Asked, wished: Wished = with_wishes) -> Plan:
    """Plan a job with pins and defects by a planner that knows neither.

    Each way to begin around the defects is planned, and the best plan kept: what
    is placed, the money, the worth of offcuts, set-ups, cuts. Its bounds are those
    of the boards taken as sound.
    """
    return in_order(
        wished(job, lambda found, share: _loosened(found, asked, share), asked)
    )


def _loosened(found: Loose, asked: Asked, share: float) -> Plan:
    job = found.job
    sound = replace(job, stock=tuple(replace(one, defects=()) for one in job.stock))
    if sound == job:
        return found.back(asked.plain(job, share))
    ways = variants(job) if share else (regions(job),)
    part = share * (1 - BOUND) / len(ways)
    best: Plan | None = None
    for way in ways:
        if best and asked.over():
            break
        plan = _regioned(way, asked.plain(way.job, part))
        asked.seen(found.back(plan))
        best = plan if best is None else min(best, plan, key=_merit)
    assert best is not None
    if not share or asked.over():
        return found.back(best)
    return found.back(
        replace(best, bounds=_bounds(asked.plain(sound, share * BOUND), best))
    )


def _bounds(sound: Plan, plan: Plan) -> tuple[Bound, ...]:
    # A bound speaks of the blanks that are placed: here and there the same ones.
    return () if sound.unplaced or plan.unplaced else sound.bounds


def _merit(plan: Plan) -> tuple[int, ...]:
    sums = totals(plan)
    return (*worse(plan), -offcut_worth(plan), sums.set_ups, sums.cuts)


def _regioned(found: Regioned, plan: Plan) -> Plan:
    """A plan of regions as one of the boards they are parts of."""
    places = {one.id: n for n, one in enumerate(found.job.stock)}
    made = [
        (places[one.stock], pattern_of(one, found.job), one.copies)
        for one in plan.layouts
    ]
    layouts = []
    for place, pattern, copies in found.rejoin(made):
        laid = layout(found.given, place, pattern, copies)
        # Each region can be cut in time, and waits as it is: so can the board.
        assert laid is not None
        layouts.append(laid)
    out = tuple(_told(one, found.given) for one in plan.unplaced)
    return Plan(found.given, tuple(layouts), out)


def _told(out: Unplaced, job: Job) -> Unplaced:
    """What stays out, and why, in terms of whole boards."""
    blank = next(one for one in job.blanks if one.id == out.blank)
    return replace(out, why=why_not(blank, job))


def pattern_of(laid: Layout, job: Job) -> Pattern:
    """A board's layout as the pattern it was made from, but for its set-ups."""
    places = {one.id: n for n, one in enumerate(job.blanks)}
    made = Pattern(cuts=[one.raw for one in of_layout(laid)])
    for piece in laid.pieces:
        where = box(piece.area)
        shape = Shape(places[piece.blank], where[2], where[3], piece.turned)
        made.pieces.append((shape, where))
    made.waste = [box(one.area) for one in laid.leftovers if not one.used_in]
    return made
