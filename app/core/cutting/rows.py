"""Bars cut into rows of blanks, period after period.

A row is which blanks come out of one bar. Those of an earlier period are cut
first, so that what is left can wait; where short bars cannot be held at the
machine, the longest is cut last.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.core.cutting.fit import suits, trims, within_limits
from app.core.cutting.job import Job
from app.core.cutting.lay import row as sawn_row
from app.core.cutting.layouts import layout
from app.core.cutting.pattern import Pattern


@dataclass(frozen=True, slots=True)
class Row:
    """Blanks that come out of one bar, both by their places in the job."""

    bar: int
    blanks: tuple[int, ...]


def when(job: Job, number: int) -> int:
    """The period of a blank, by its place in time."""
    return job.when(job.blanks[number].period)


def can_be_cut(job: Job, row: Row) -> bool:
    """Whether a row fits its bar, in its time, with all that waits worth keeping."""
    bar = job.stock[row.bar]
    end, _ = trims(bar, job.saw)
    room = bar.length.nm - 2 * end
    lengths = [job.blanks[n].length.nm for n in row.blanks]
    if room <= 0 or sum(lengths) + job.saw.kerf.nm * (len(lengths) - 1) > room:
        return False
    if not all(suits(bar, job.blanks[n], job.plane) for n in row.blanks):
        return False
    made = sawn(job, row)
    held = all(within_limits(cut.direction, cut.box, job.machine) for cut in made.cuts)
    return held and layout(job, row.bar, made) is not None


def sawn(job: Job, row: Row) -> Pattern:
    """How a row is sawn; its blanks must fit the bar."""
    # What is held last must be long where the machine asks for it.
    sign = 1 if job.machine.shortest_piece else -1

    def rank(number: int) -> tuple[int, int, int]:
        return (when(job, number), sign * job.blanks[number].length.nm, number)

    return sawn_row(job, row.bar, sorted(row.blanks, key=rank))
