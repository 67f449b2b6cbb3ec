"""What a plan would be if something were otherwise, and why it takes its boards.

Every question is a job of its own that a solver answers; nothing is kept.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeVar

from app.core.cutting.fit import fits, suits
from app.core.cutting.job import Blank, Job, Stock
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.totals import offcut_worth, size, totals
from app.core.errors import WorkshopError
from app.core.length import Length

One = TypeVar("One", Blank, Stock)
Solver = Callable[[Job], Plan]
MOST_TRIED = 12  # boards laid out to see whether they would have done


@dataclass(frozen=True, slots=True)
class Sums:
    """What two plans are compared by. ``worth`` of the offcuts is in nm²."""

    cost: int
    boards: int
    homeless: int
    worth: int

    @classmethod
    def of(cls, plan: Plan) -> Sums:
        """The sums of a plan."""
        sums = totals(plan)
        homeless = sum(one.quantity for one in plan.unplaced)
        return cls(sums.cost, sums.stock_pieces, homeless, offcut_worth(plan))

    @property
    def rank(self) -> tuple[int, int, int, int]:
        """Less is better: without a place, money, boards opened, offcuts."""
        return self.homeless, self.cost, self.boards, -self.worth


def one_more(job: Job, blank: str) -> Job:
    """The job with one more of a blank."""
    return replace(
        job,
        blanks=tuple(
            replace(one, quantity=one.quantity + 1) if one.id == blank else one
            for one in _known(blank, job.blanks)
        ),
    )


def other_kerf(job: Job, kerf: Length) -> Job:
    """The job with another blade on the saw."""
    return replace(job, saw=replace(job.saw, kerf=kerf))


def without(job: Job, stock: str) -> Job:
    """The job as if that stock were not there."""
    known = _known(stock, job.stock)
    return replace(job, stock=tuple(one for one in known if one.id != stock))


def one_more_board(job: Job, stock: str) -> Job:
    """The job with one more board like one that is there, at no cost."""
    like = next(one for one in _known(stock, job.stock) if one.id == stock)
    more = replace(like, id=f"{stock} again", quantity=1, cost=None)
    return replace(job, stock=(*job.stock, more))


def without_offcuts(job: Job) -> Job:
    """The job as if no offcut lay on the rack."""
    return replace(job, stock=tuple(one for one in job.stock if not one.offcut))


@dataclass(frozen=True, slots=True)
class Other:
    """Another stock than the one that a layout is cut from, and what of it.

    ``why`` is empty where it would have taken all the blanks; else ``kind`` (wood or
    thickness), ``small`` (one of them is too large for it) or ``room`` (each, not all
    at once). ``worth`` is what it would have left, nm²; ``busy``: the plan cuts it up
    for other blanks.
    """

    stock: Stock
    why: str
    worth: int = 0
    busy: bool = False


def others(plan: Plan, at: int, solver: Solver) -> tuple[Other, ...]:
    """All other stock held against the layout at place ``at``, those that do first.

    Raises WorkshopError where there is no such layout.
    """
    layout = layout_at(plan, at)
    own = next(one for one in plan.job.stock if one.id == layout.stock)
    blanks = on(plan, layout)
    busy = {one.stock for one in plan.layouts}
    found: list[Other] = []
    rest = [one for one in plan.job.stock if one.id != layout.stock]
    tried = 0
    for one in sorted(rest, key=lambda other: abs(size(other) - size(own))):
        why = _unfit(one, blanks, plan.job)
        if not why and tried < MOST_TRIED:
            tried += 1
            found.append(_tried(plan.job, one, blanks, one.id in busy, solver))
        elif why:
            found.append(Other(one, why))
    order = {"": 0, "room": 1, "small": 2, "kind": 3}
    return tuple(sorted(found, key=lambda other: order[other.why]))


def layout_at(plan: Plan, at: int) -> Layout:
    """The layout at a place, from 0. Raises WorkshopError where there is none."""
    if not 0 <= at < len(plan.layouts):
        raise WorkshopError(
            "That board is not in the plan any more. Open the page again."
        )
    return plan.layouts[at]


def on(plan: Plan, layout: Layout) -> tuple[Blank, ...]:
    """The blanks on one copy of a layout."""
    count = Counter(piece.blank for piece in layout.pieces)
    return tuple(
        replace(one, quantity=count[one.id], only=())
        for one in plan.job.blanks
        if count[one.id]
    )


def _unfit(stock: Stock, blanks: tuple[Blank, ...], job: Job) -> str:
    if not all(suits(stock, one, job.plane) for one in blanks):
        return "kind"
    return "" if all(fits(stock, one, job) for one in blanks) else "small"


def _tried(
    job: Job, stock: Stock, blanks: tuple[Blank, ...], busy: bool, solver: Solver
) -> Other:
    alone = replace(
        job, stock=(replace(stock, quantity=1),), blanks=blanks, pins=(), resaw=None
    )
    plan = solver(alone)
    if plan.unplaced:
        return Other(stock, "room", busy=busy)
    return Other(stock, "", offcut_worth(plan), busy)


def _known(key: str, among: tuple[One, ...]) -> tuple[One, ...]:
    if key not in {one.id for one in among}:
        raise WorkshopError(
            f"“{key}” is not in this plan any more. Open the page again and choose "
            "from its list."
        )
    return among
