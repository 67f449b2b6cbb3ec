"""Planning one part of a series after the other on what the parts before left over.

Every board that is opened is followed by itself, so that the plans of the single
parts come together into one plan of them all: a layout for each board, with what
each part cuts from it.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from itertools import count

from app.core.cutting.job import Area, Blank, Job, Pin, Stock
from app.core.cutting.order import area as as_area
from app.core.cutting.order import in_order
from app.core.cutting.parting import overlap
from app.core.cutting.plan import Cut, Direction, Layout, Placed, Plan, Unplaced
from app.core.cutting.sawn import box
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class Lying:
    """A leftover worth keeping: on which opened board it lies, and where."""

    board: int
    area: Area


@dataclass
class Rack:
    """What there is when a part is planned; ``opened`` is every board cut so far.

    Stock that nothing was cut from is counted by the job alone.
    """

    job: Job
    opened: list[Layout] = field(default_factory=list)
    unplaced: list[Unplaced] = field(default_factory=list)
    lying: dict[str, list[Lying]] = field(default_factory=dict)

    def asked(self, period: str) -> Job:
        """The job of one part alone: its blanks, and the rack as it then is."""
        now = self.job.when(period)
        self.lying = {}
        stock = (*self._left_over(), *self._whole(now))
        there = {one.id for one in stock}
        blanks = tuple(
            replace(self._bound(one), period="")
            for one in self.job.blanks
            if self.job.when(one.period) == now
        )
        ids = {one.id for one in blanks}
        pins = tuple(
            pin
            for one in self.job.pins
            if one.blank in ids and (pin := self._pin(one, there))
        )
        return replace(self.job, stock=stock, blanks=blanks, periods=(), pins=pins)

    def take(self, plan: Plan, period: str) -> None:
        """Cut the plan of the job that was ``asked`` last."""
        self.unplaced += plan.unplaced
        for layout in plan.layouts:
            for _ in range(layout.copies):
                one = replace(layout, copies=1, period=period)
                if layout.stock not in self.lying:
                    self.opened.append(one)
                    continue
                left = self.lying[layout.stock].pop(0)
                whole = self.opened[left.board]
                self.opened[left.board] = _cut_up(whole, left.area, one)

    def plan(self) -> Plan:
        """Everything cut so far as one plan of the whole job."""
        alike = Counter(
            replace(one, cuts=tuple(map(_bare, one.cuts))) for one in self.opened
        )
        layouts = tuple(replace(one, copies=many) for one, many in alike.items())
        return in_order(Plan(self.job, layouts, tuple(self.unplaced)))

    def _whole(self, now: int) -> list[Stock]:
        """What no part has cut yet, of what is there or sold by now."""
        used = Counter(one.stock for one in self.opened)
        found = []
        for one in self.job.stock:
            rest = None if one.quantity is None else one.quantity - used[one.id]
            if rest != 0 and self.job.when(one.period) <= now:
                found.append(replace(one, quantity=rest, period=""))
        return found

    def _left_over(self) -> list[Stock]:
        """What lies on the rack of the parts before, equal pieces together."""
        stock = {one.id: one for one in self.job.stock}
        taken = set(stock)
        names = (f"left over {n}" for n in count(1) if f"left over {n}" not in taken)
        alike: dict[Stock, str] = {}
        for at, layout in enumerate(self.opened):
            for left in layout.leftovers:
                if left.keep and not left.used_in:
                    piece = _as_stock(stock[layout.stock], left.area)
                    if piece not in alike:
                        alike[piece] = next(names)
                    lying = self.lying.setdefault(alike[piece], [])
                    lying.append(Lying(at, left.area))
        return [
            replace(piece, id=name, quantity=len(self.lying[name]))
            for piece, name in alike.items()
        ]

    def _root(self, name: str) -> str:
        """The stock of the job that a leftover on offer was sawn from."""
        return self.opened[self.lying[name][0].board].stock

    def _bound(self, blank: Blank) -> Blank:
        """A blank that is bound to a stock may come from what is left of it."""
        more = tuple(name for name in self.lying if self._root(name) in blank.only)
        return replace(blank, only=(*blank.only, *more)) if blank.only else blank

    def _pin(self, pin: Pin, there: set[str]) -> Pin | None:
        """A pin to a stock that is used up holds for the largest piece left of it."""
        if pin.stock in there:
            return pin
        left = [name for name in self.lying if self._root(name) == pin.stock]

        def size(name: str) -> int:
            one = self.lying[name][0].area
            return one.length.nm * (one.width.nm or 1)

        # Nothing left of it: the pin stands, so that the blank is told of it.
        return replace(pin, stock=max(left, key=size)) if left else pin


def _as_stock(whole: Stock, area: Area) -> Stock:
    """A leftover as stock: sawn all round, paid for, with its own defects."""
    common = (overlap(box(one), box(area)) for one in whole.defects)
    defects = (as_area(one, whole.width is None) for one in common if one)
    return replace(
        whole,
        length=area.length,
        width=area.width if whole.width else None,
        quantity=1,
        cost=None,
        offcut=True,
        trimmed=True,
        defects=tuple(_moved(one, -area.x, -area.y) for one in defects),
        period="",
    )


def _cut_up(whole: Layout, area: Area, part: Layout) -> Layout:
    """A board after one leftover on it was cut like ``part``."""
    before = tuple(
        replace(one, used_in=part.period) if one.area == area else one
        for one in whole.leftovers
    )
    x, y = area.x, area.y
    return replace(
        whole,
        pieces=whole.pieces + tuple(_moved_piece(one, x, y) for one in part.pieces),
        leftovers=before
        + tuple(replace(one, area=_moved(one.area, x, y)) for one in part.leftovers),
        cuts=whole.cuts + tuple(_moved_cut(one, x, y) for one in part.cuts),
    )


def _moved(area: Area, x: Length, y: Length) -> Area:
    return replace(area, x=area.x + x, y=area.y + y)


def _moved_piece(piece: Placed, x: Length, y: Length) -> Placed:
    return replace(piece, area=_moved(piece.area, x, y))


def _moved_cut(cut: Cut, x: Length, y: Length) -> Cut:
    start = x if cut.direction is Direction.CROSSCUT else y
    return replace(cut, at=cut.at + start, of=_moved(cut.of, x, y))


def _bare(cut: Cut) -> Cut:
    """A cut without what only its place in a whole plan gives it."""
    return replace(cut, number=0, against="", round=0, period="")
