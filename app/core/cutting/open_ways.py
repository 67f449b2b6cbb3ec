"""The ways a job leaves open: what may be glued up or resawn, and a bound over all.

A job that was rewritten can be written back, so that what its plan proves is proven
against every way that was open, not only against the one that was taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from app.core.cutting import glued, resawn
from app.core.cutting.bounds import least_cost
from app.core.cutting.fit import fits, suits
from app.core.cutting.job import Blank, Job, Stock
from app.core.cutting.plan import Plan
from app.core.length import Length

MOST_PARTS = 4  # kinds of parts, the widest first, and of stock, the thickest first
MOST_COUNTS = 3  # of strips for one part, the fewest first


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

    def without(self, key: str) -> Choice:
        """All but this part or stock."""
        kept = ({k: n for k, n in x.items() if k != key} for x in self._both)
        return Choice(*kept)

    @property
    def _both(self) -> tuple[dict[str, int], dict[str, int]]:
        return self.glued, self.resawn


def choice_of(job: Job) -> Choice:
    """What a job was rewritten by."""
    return Choice(glued.choice_of(job), resawn.choice_of(job))


def was_open(job: Job) -> bool:
    """Whether a plan's job had other ways open, or is one of them."""
    return choice_of(job) != Choice() or any(moves(job))


def least_cost_of_any(plan: Plan) -> int:
    """No plan that places all its blanks costs less in any way open, minor units.

    Whole parts need the least wood; stock resawn into as many boards as it may be
    gives the most. Nothing is known where some blank has no place.
    """
    return 0 if plan.unplaced else least_by_any_way(written_back(plan.job))


def least_by_any_way(job: Job) -> int:
    """The same for a job before it is planned."""
    most = {one.id: max(resawn.counts(one, job), default=1) for one in job.stock}
    thin = {key: boards for key, boards in most.items() if boards > 1}
    return least_cost(Plan(resawn.resawn(job, thin), ()))


def written_back(job: Job) -> Job:
    """The job before it was rewritten; its parts no wider than they were."""
    return replace(
        job,
        stock=tuple(_stock_back(job)),
        blanks=tuple(_part_back(blank, job) for blank in job.blanks),
    )


def _stock_back(job: Job) -> Iterator[Stock]:
    sawn = resawn.choice_of(job)
    there = {one.id: one.quantity for one in job.stock}
    for one in job.stock:
        if one.id in sawn:
            boards = f"{one.id} resawn 1/{sawn[one.id]}"
            yield replace(one, quantity=there[boards])
        elif not resawn.piece_of(one.id):
            yield one


def _part_back(blank: Blank, job: Job) -> Blank:
    made = glued.part_and_strips(blank.id)
    if made is None or blank.width is None or blank.quantity % made[1]:
        return blank
    key, strips = made
    mark = glued.mark_of(job.display)
    width = strips * (blank.width.nm - mark.nm) - (strips - 1) * blank.joint.nm
    whole = Length(max(width, blank.width.nm))
    return replace(blank, id=key, width=whole, quantity=blank.quantity // strips)


def moves(job: Job) -> Iterator[Choice]:
    """Every single change that the job allows, in the order to be tried."""
    wide = sorted(job.blanks, key=lambda x: -(x.width.nm if x.width else 0))
    pinned = {pin.blank for pin in job.pins}
    parts = [x for x in wide if x.id not in pinned and glued.counts(x, job.display)]
    for blank in parts[:MOST_PARTS]:
        for strips in glued.counts(blank, job.display)[:MOST_COUNTS]:
            if _strip_has_wood(blank, strips, job):
                yield Choice(glued={blank.id: strips})
    yield from _sawings(job)


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


def has_wood(blank: Blank, job: Job) -> bool:
    """Whether some stock suits the blank and has room for one."""
    return any(
        suits(one, blank, job.plane) and fits(one, blank, job) for one in job.stock
    )


def _strip_has_wood(blank: Blank, strips: int, job: Job) -> bool:
    """Whether its strips fit some stock, in any thickness it can be resawn to."""
    alone = replace(job, blanks=(blank,))
    strip = glued.glued(alone, {blank.id: strips}).blanks[0]
    return has_wood(strip, job) or job.resaw is not None
