"""Pins that are wishes: kept where that places as much for no more money."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from app.core.cutting.job import Job, Pin
from app.core.cutting.pins import Loose, loose
from app.core.cutting.plan import Plan
from app.core.cutting.totals import totals


@dataclass(frozen=True, slots=True)
class Asked:
    """A planner of plain jobs, as one of jobs with pins and more asks it.

    ``plain`` plans a job with a part of the work, with none at a glance. ``over``
    tells whether the time is up; ``seen`` is told of each plan of the job itself.
    """

    plain: Callable[[Job, float], Plan]
    over: Callable[[], bool]
    seen: Callable[[Plan], None]


# A job without pins, and which part of the work may go into it.
Planner = Callable[[Loose, float], Plan]
Wished = Callable[[Job, Planner, Asked], Plan]
# Parts of the work: without wishes, with all of them, and for one alone.
WITHOUT, ALL, ONE = 0.45, 0.35, 0.03
MOST = 6  # wishes that are tried alone


def glance(job: Job, planned: Planner, asked: Asked) -> Plan:
    """A first plan at once, with firm pins alone."""
    return planned(loose(job), 0.0)


def with_wishes(job: Job, planned: Planner, asked: Asked) -> Plan:
    """The job's plan with its firm pins, and with the wishes that cost nothing.

    All wishes are tried at once; where that is worse, one after the other, as they
    stand. ``planned`` gives plans of the job as given.
    """
    wishes = [pin for pin in job.pins if not pin.firm]
    plan = planned(loose(job), WITHOUT if wishes else 1.0)
    asked.seen(plan)
    if not wishes or asked.over():
        return plan
    kept = planned(loose(job, wishes), ALL)
    if worse(kept) <= worse(plan):
        return _bounded(kept, plan)
    granted: list[Pin] = []
    found = plan
    for pin in wishes[:MOST] if len(wishes) > 1 else ():
        if asked.over():
            break
        kept = planned(loose(job, [*granted, pin]), ONE)
        if worse(kept) <= worse(plan):
            granted.append(pin)
            found = _bounded(kept, plan)
    return found


def worse(plan: Plan) -> tuple[int, int]:
    """What comes before any wish: how many blanks stay out, and the money."""
    return sum(one.quantity for one in plan.unplaced), totals(plan).cost


def _bounded(kept: Plan, plan: Plan) -> Plan:
    # What a plan with wishes cannot cost less than, another might.
    return replace(kept, bounds=plan.bounds)
