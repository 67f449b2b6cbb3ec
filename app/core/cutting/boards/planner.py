"""The planner of boards: better than one board after another, and with a bound."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from app.core.cutting.boards.answer import to_laid
from app.core.cutting.boards.from_served import columns_of
from app.core.cutting.boards.kinds import Kinds, apart, kinds
from app.core.cutting.boards.search import Search
from app.core.cutting.boards.tidy import Tidier
from app.core.cutting.boards.tree import Column
from app.core.cutting.effort import Work
from app.core.cutting.job import Job
from app.core.cutting.plan import Bound
from app.core.cutting.supply import Laid, Run

# Part of the work for the money; the rest is for what is left over.
SEARCHING = 0.85
# Told of a better plan: how to lay it out, and what bounds its money.
Told = Callable[[Callable[[], list[Laid]], int], None]


@dataclass(frozen=True, slots=True)
class Answer:
    """What was found, and what bounds it."""

    laid: list[Laid]
    bounds: tuple[Bound, ...]


@dataclass
class _Whole:
    """All the parts of a job that have nothing to do with each other."""

    job: Job
    parts: list[Kinds]
    told: Told | None

    def __post_init__(self) -> None:
        self.found: list[list[Column]] = [[] for _ in self.parts]
        self.floors = [0.0] * len(self.parts)

    def hear(self, place: int, columns: Sequence[Column], floor: float) -> None:
        """Take over what a part found, and tell of it once all parts have a plan."""
        self.found[place], self.floors[place] = list(columns), floor
        if self.told and all(self.found):
            now = [list(one) for one in self.found]
            self.told(lambda: self.laid(now), int(sum(self.floors)))

    def laid(self, found: Sequence[Sequence[Column]]) -> list[Laid]:
        """The parts together."""
        return [
            laid
            for kinds_, columns in zip(self.parts, found, strict=True)
            for laid in to_laid(self.job, kinds_, columns)
        ]


def plan_boards(run: Run, meter: Work, told: Told | None = None) -> Answer | None:
    """Go on from a plan that was served; None where nothing can be placed.

    The bounds are for all blanks that any board holds.
    """
    parts = list(apart(kinds(run.job)))
    if not parts:
        return None
    whole = _Whole(run.job, parts, told)
    pieces = sum(part.pieces for part in parts)
    for place, part in enumerate(parts):
        # Each part has work by its pieces; what one leaves is for those after it.
        share = meter.share(part.pieces / pieces) if place < len(parts) - 1 else meter
        pieces -= part.pieces
        searching = share.share(SEARCHING)
        told_of = partial(whole.hear, place)
        search = Search(run.job, part, searching, told_of)
        search.begin(columns_of(run, run.job, part))
        search.go()
        share.tick(searching.spent)
        tidier = Tidier(run.job, part, search.pricer, share)
        best = tidier.tidied(search.best, list(search.pool.values()))
        whole.hear(place, best, search.floor)
        if share is not meter:
            meter.tick(share.spent)
    cost = Bound("cost", int(sum(whole.floors)))
    return Answer(whole.laid(whole.found), (cost,))
