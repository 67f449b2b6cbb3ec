"""Bars cut into rows of blanks, period after period, and put into layouts.

A row is which blanks come out of one bar. Those of an earlier period are cut
first, so that what is left can wait; where short bars cannot be held at the
machine, the longest is cut last.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.core.cutting.fit import suits, trims
from app.core.cutting.job import Area, Job, Stock
from app.core.cutting.lay import row as sawn_row
from app.core.cutting.order import area, sawing_order
from app.core.cutting.parting import within_limits
from app.core.cutting.pattern import Pattern
from app.core.cutting.plan import Layout, Leftover, Placed
from app.core.cutting.rejoin import is_sound, large_enough
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class Row:
    """Blanks that come out of one bar, both by their places in the job."""

    bar: int
    blanks: tuple[int, ...]


def when(job: Job, number: int) -> int:
    """The period of a blank, by its place in time."""
    return job.when(job.blanks[number].period)


def in_sequence(job: Job, blanks: tuple[int, ...]) -> tuple[int, ...]:
    """The order in which the blanks of one bar are cut off it."""
    # What is held last must be long where the machine asks for it.
    sign = 1 if job.machine.shortest_piece else -1
    return tuple(
        sorted(
            blanks,
            key=lambda n: (when(job, n), sign * job.blanks[n].length.nm, n),
        )
    )


def can_be_cut(job: Job, row: Row) -> bool:
    """Whether a row fits its bar, in its time, with all that waits worth keeping."""
    bar = job.stock[row.bar]
    end, _ = trims(bar, job.saw)
    room = bar.length.nm - 2 * end
    lengths = [job.blanks[n].length.nm for n in row.blanks]
    if room <= 0 or sum(lengths) + job.saw.kerf.nm * (len(lengths) - 1) > room:
        return False
    for number in row.blanks:
        blank = job.blanks[number]
        early = when(job, number) < job.when(bar.period)
        if early or not suits(bar, blank, job.plane):
            return False
    pattern = sawn_row(job, row.bar, in_sequence(job, row.blanks))
    held = all(
        within_limits(one.direction, one.box, job.machine) for one in pattern.cuts
    )
    return held and all(
        one.area.length >= job.keep.length for one in _waiting(job, row, pattern)
    )


def layout_of(job: Job, row: Row) -> Layout:
    """One bar's layout, with what waits between its periods."""
    pattern = sawn_row(job, row.bar, in_sequence(job, row.blanks))
    found = as_layout(job, row.bar, pattern)
    first = min((when(job, n) for n in row.blanks), default=0)
    return replace(
        found,
        period=job.periods[first] if job.periods else "",
        leftovers=(*found.leftovers, *_waiting(job, row, pattern)),
    )


def as_layout(job: Job, place: int, pattern: Pattern) -> Layout:
    """A pattern on a bar, once, as a layout of the job."""
    stock = job.stock[place]
    cuts = sawing_order(pattern.cuts, job.display)
    return Layout(
        stock.id,
        1,
        tuple(
            Placed(job.blanks[shape.blank].id, area(box, one_dimensional=True))
            for shape, box in pattern.pieces
        ),
        tuple(
            Leftover(
                area(box, one_dimensional=True),
                large_enough(box, job) and is_sound(box, stock),
            )
            for box in pattern.waste
        ),
        tuple(replace(cut, of=replace(cut.of, width=Length(0))) for cut in cuts),
    )


def _waiting(job: Job, row: Row, pattern: Pattern) -> list[Leftover]:
    """The rest of the bar each time that a later period goes on with it."""
    bar = job.stock[row.bar]
    end = bar.length.nm - trims(bar, job.saw)[0]
    found = []
    times = [when(job, n) for n in in_sequence(job, row.blanks)]
    for (_, there), time, before in zip(
        pattern.pieces[1:], times[1:], times[:-1], strict=True
    ):
        if time > before:
            rest = area((there[0], 0, end - there[0], 1), one_dimensional=True)
            found.append(Leftover(rest, keep=True, used_in=job.periods[time]))
    return found


def only_sound_kept(layout: Layout, stock: Stock) -> Layout:
    """The layout of a bar whose defects all lie in its trims: those stay scrap."""
    left = tuple(
        replace(
            one,
            keep=one.keep
            and is_sound((one.area.x.nm, 0, one.area.length.nm, 1), stock),
        )
        for one in layout.leftovers
    )
    return replace(layout, leftovers=left)


def moved(layout: Layout, by: Length) -> Layout:
    """A layout of a part of a bar that begins so far from the bar's own end."""

    def there(one: Area) -> Area:
        return replace(one, x=one.x + by)

    return replace(
        layout,
        pieces=tuple(replace(one, area=there(one.area)) for one in layout.pieces),
        leftovers=tuple(replace(one, area=there(one.area)) for one in layout.leftovers),
        cuts=tuple(
            replace(one, at=one.at + by, of=there(one.of)) for one in layout.cuts
        ),
    )
