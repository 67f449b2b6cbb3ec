"""From a pattern to a layout: what is kept, and what waits for a later period.

A pattern knows boxes and cuts alone. Here each rectangle that holds nothing but
blanks of later periods becomes a leftover that waits, as large as it can wait whole.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from app.core.cutting.job import Job
from app.core.cutting.order import area, sawing_order
from app.core.cutting.pattern import Box, Pattern, inside
from app.core.cutting.plan import Layout, Leftover, Placed
from app.core.cutting.rejoin import is_sound, large_enough
from app.core.cutting.sawn import halves
from app.core.length import Length


def layout(job: Job, place: int, pattern: Pattern, copies: int = 1) -> Layout | None:
    """A pattern on a piece of stock, by its place in the job, as a layout.

    None where it cannot be cut in time: a blank comes before its stock, or what a
    later period wants could not wait, being too small to keep or defective.
    """
    stock, flat = job.stock[place], job.one_dimensional
    times = [job.when(job.blanks[shape.blank].period) for shape, _ in pattern.pieces]
    first = min(times, default=job.when(stock.period))
    waits = _Waiting(job, place, pattern)
    if first < job.when(stock.period) or not waits.found_all(first):
        return None
    cuts = sawing_order(pattern.cuts, job.display)
    if flat:
        cuts = tuple(replace(cut, of=replace(cut.of, width=Length(0))) for cut in cuts)
    return Layout(
        stock.id,
        copies,
        tuple(
            Placed(job.blanks[shape.blank].id, area(box, flat), shape.turned)
            for shape, box in pattern.pieces
        ),
        (
            *(Leftover(area(b, flat), waits.can_be_kept(b)) for b in pattern.waste),
            *(
                Leftover(area(box, flat), keep=True, used_in=job.periods[time])
                for box, time in waits.boxes
            ),
        ),
        cuts,
        job.periods[first] if job.periods else "",
    )


class _Waiting:
    """What of one piece of stock waits, and until when."""

    def __init__(self, job: Job, place: int, pattern: Pattern) -> None:
        self.job, self.stock = job, job.stock[place]
        self.pieces = [
            (box, job.when(job.blanks[shape.blank].period))
            for shape, box in pattern.pieces
        ]
        self.parts = {cut.box: halves(cut) for cut in pattern.cuts}
        self.boxes: list[tuple[Box, int]] = []

    def can_be_kept(self, box: Box) -> bool:
        """Whether a leftover is worth keeping: large enough, and without defects."""
        return large_enough(box, self.job) and is_sound(box, self.stock)

    def found_all(self, first: int) -> bool:
        """Find what waits from the first period on; whether all of it can."""
        if len(self.job.periods) < 2:
            return True
        width = self.stock.width.nm if self.stock.width else 1
        whole = (0, 0, self.stock.length.nm, width)
        return all(self._visited(whole, first))

    def _visited(self, box: Box, now: int) -> Iterator[bool]:
        due = [time for piece, time in self.pieces if inside(piece, box)]
        if not due or max(due) == now:
            return
        if min(due) > now and self.can_be_kept(box):
            now = min(due)
            self.boxes.append((box, now))
        if box not in self.parts:
            # A blank that is cut free already: it had to wait in a leftover.
            yield max(due) == now
            return
        for part in self.parts[box]:
            if part[2] and part[3]:
                yield from self._visited(part, now)
