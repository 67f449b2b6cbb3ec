"""Blanks that belong to certain boards: a job with pins made one without, and back.

A pinned blank becomes a blank of its own that only its board suits; in the plan
it is again what it was.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.core.cutting.fit import why_not
from app.core.cutting.job import Blank, Job, Pin
from app.core.cutting.plan import Plan, Unplaced


@dataclass(frozen=True, slots=True)
class Loose:
    """A job without pins, and the way back.

    ``blanks`` gives for each blank of ``job`` its place in ``given``.
    """

    given: Job
    job: Job
    blanks: tuple[int, ...]

    def back(self, plan: Plan) -> Plan:
        """A plan of ``job`` as one of the job as given.

        Bounds are left as they are: they hold for blanks bound to their boards.
        Where wishes were taken as firm, they say nothing about other plans.
        """
        names = {
            one.id: self.given.blanks[place].id
            for one, place in zip(self.job.blanks, self.blanks, strict=True)
        }
        layouts = tuple(
            replace(
                one,
                pieces=tuple(replace(p, blank=names[p.blank]) for p in one.pieces),
            )
            for one in plan.layouts
        )
        return replace(
            plan, job=self.given, layouts=layouts, unplaced=self._out(plan, names)
        )

    def _out(self, plan: Plan, names: dict[str, str]) -> tuple[Unplaced, ...]:
        """What found no place, once for each blank, with the pin where that is why."""
        bound = {one.id: one for one in self.job.blanks if one.only}
        count: Counter[str] = Counter()
        why: dict[str, str] = {}
        for one in plan.unplaced:
            name = names[one.blank]
            count[name] += one.quantity
            if one.blank in bound:
                why[name] = why_not(bound[one.blank], self.given)
            else:
                why.setdefault(name, one.why)
        return tuple(Unplaced(name, n, why[name]) for name, n in count.items())


def loose(job: Job, wishes: Sequence[Pin] = ()) -> Loose:
    """The job with pinned blanks as blanks of their own, bound to their stock.

    ``wishes`` are the pins that are not firm but to be taken as if they were, after
    the firm ones, as far as there are blanks.
    """
    pins = [*(one for one in job.pins if one.firm), *wishes]
    blanks: list[Blank] = []
    places: list[int] = []
    ids = {one.id for one in job.blanks}
    for place, blank in enumerate(job.blanks):
        for one in _split(blank, pins, ids):
            blanks.append(one)
            places.append(place)
    without = replace(job, blanks=tuple(blanks), pins=())
    return Loose(job, without, tuple(places))


def _split(blank: Blank, pins: list[Pin], ids: set[str]) -> list[Blank]:
    """A blank in lots: each pin's own, and what is left without one."""
    left, lots = blank.quantity, []
    for pin in (one for one in pins if one.blank == blank.id):
        count = left if pin.quantity is None else min(pin.quantity, left)
        if count:
            name = _unused(f"{blank.id}@{pin.stock}", ids)
            lots.append(replace(blank, id=name, quantity=count, only=(pin.stock,)))
            left -= count
    if left or not lots:
        lots.append(replace(blank, quantity=left))
    return lots


def _unused(name: str, ids: set[str]) -> str:
    while name in ids:
        name += "'"
    ids.add(name)
    return name
