"""Lengths with pins, defects, periods and a machine's least length.

The planner of lengths knows none of these. So it is given a job without them, as
near as that comes: what is pinned or not there yet suits only some bars, sound
lengths are bars of their own. What of its plan cannot be cut in time or held at
the machine is taken off and put where it can.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from app.core.cutting.fit import why_not
from app.core.cutting.job import Job, Machine
from app.core.cutting.layouts import layout
from app.core.cutting.order import in_order
from app.core.cutting.pins import Loose
from app.core.cutting.plan import Layout, Plan, Unplaced
from app.core.cutting.regions import Regioned, regions
from app.core.cutting.rows import Row, can_be_cut, sawn, when
from app.core.cutting.wishes import Asked, Wished, with_wishes

ROUNDS = 6  # of placing again what could not be cut where it lay
AGAIN = 0.1  # of the work, for each of these rounds


def asks_for_more(job: Job) -> bool:
    """Whether a job of lengths asks for what only this module gives."""
    return bool(
        job.pins
        or len(job.periods) > 1
        or job.machine.shortest_piece
        or any(one.defects or one.period for one in job.stock)
    )


def plan_bars(job: Job, asked: Asked, wished: Wished = with_wishes) -> Plan:
    """Plan a job of lengths by a planner that knows lengths and money alone.

    The bound is that of the same job with less asked of it: nothing firm is left
    out, but time is.
    """
    return in_order(
        wished(job, lambda found, share: _planned(found, asked, share), asked)
    )


def _planned(found: Loose, asked: Asked, share: float) -> Plan:
    bars = _Bars(regions(_in_time(found.job)), asked.plain, share)
    plan = bars.plan()
    out = tuple(
        Unplaced(blank.id, count, why_not(blank, found.job))
        for n, blank in enumerate(found.job.blanks)
        if (count := bars.homeless.count(n))
    )
    return found.back(replace(plan, unplaced=out))


def _in_time(job: Job) -> Job:
    """The job with each blank bound to the stock that is there in its period."""
    if len(job.periods) < 2:
        return job
    blanks = []
    for number, blank in enumerate(job.blanks):
        there = tuple(
            one.id
            for one in job.stock
            if job.when(one.period) <= when(job, number)
            and (not blank.only or one.id in blank.only)
        )
        # Nothing there yet: bound to what it was, or to what there never is.
        blanks.append(replace(blank, only=there or blank.only or ("",)))
    return replace(job, blanks=tuple(blanks))


@dataclass
class _Bars:
    """One job of sound bars being planned: ``found.job``; the bars may be regions."""

    found: Regioned
    plain: Callable[[Job, float], Plan]
    share: float

    def __post_init__(self) -> None:
        self.job = self.found.job
        self.rows: list[Row] = []
        self.homeless: list[int] = []

    def plan(self) -> Plan:
        """The plan of the job as given, but for its order and what stays out."""
        everything = [blank.quantity for blank in self.job.blanks]
        first = self._ask(everything, self.share)
        for _ in range(ROUNDS):
            self._settle()
            if not self.homeless:
                break
            wanted = Counter(self.homeless)
            self.homeless = []
            rest = [wanted[n] for n in range(len(self.job.blanks))]
            self._ask(rest, self.share * AGAIN)
        self._settle()
        bounds = first.bounds if not self.homeless and not first.unplaced else ()
        if any(board.tree for board in self.found.boards):
            bounds = ()
        given = self.found.given
        return Plan(given, tuple(self._layouts()), (), bounds)

    def _ask(self, wanted: Sequence[int], share: float) -> Plan:
        """Plan so many blanks on what is not used yet, and take the rows over."""
        used = Counter(row.bar for row in self.rows)
        stock = tuple(
            replace(
                one,
                period="",
                quantity=None if one.quantity is None else one.quantity - used[n],
            )
            for n, one in enumerate(self.job.stock)
        )
        blanks = tuple(
            replace(one, quantity=count, period="")
            for one, count in zip(self.job.blanks, wanted, strict=True)
        )
        asked = replace(
            self.job, stock=stock, blanks=blanks, periods=(), machine=Machine()
        )
        plan = self.plain(asked, share)
        bars = {one.id: n for n, one in enumerate(self.job.stock)}
        names = {one.id: n for n, one in enumerate(self.job.blanks)}
        for one in plan.layouts:
            held = tuple(names[piece.blank] for piece in one.pieces)
            self.rows += [Row(bars[one.stock], held)] * one.copies
        for out in plan.unplaced:
            self.homeless += [names[out.blank]] * out.quantity
        return plan

    def _settle(self) -> None:
        """Take off each bar what cannot be cut there, and put it where it can."""
        rows = [self._shortened(row) for row in self.rows]
        self.rows = [row for row in rows if row.blanks]
        homeless, self.homeless = self.homeless, []
        for number in sorted(homeless, key=lambda n: -self.job.blanks[n].length.nm):
            if not self._housed(number):
                self.homeless.append(number)

    def _shortened(self, row: Row) -> Row:
        while row.blanks and not can_be_cut(self.job, row):
            # The latest waits for the others; of those, the shortest.
            off = max(
                row.blanks,
                key=lambda n: (when(self.job, n), -self.job.blanks[n].length.nm, n),
            )
            held = list(row.blanks)
            held.remove(off)
            self.homeless.append(off)
            row = Row(row.bar, tuple(held))
        return row

    def _housed(self, number: int) -> bool:
        for at, row in enumerate(self.rows):
            longer = Row(row.bar, (*row.blanks, number))
            if can_be_cut(self.job, longer):
                self.rows[at] = longer
                return True
        return False

    def _layouts(self) -> list[Layout]:
        """The rows as layouts of the job as given, equal ones together."""
        counted = Counter(Row(row.bar, tuple(sorted(row.blanks))) for row in self.rows)
        order = sorted(counted, key=lambda row: (row.bar, row.blanks))
        made = [(row.bar, sawn(self.job, row), counted[row]) for row in order]
        found = []
        for place, pattern, copies in self.found.rejoin(made):
            laid = layout(self.found.given, place, pattern, copies)
            # Each row can be cut in time, so the board they lie on can.
            assert laid is not None
            found.append(laid)
        return found
