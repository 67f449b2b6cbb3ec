"""One part of a series out of the plan for all of them, as a plan of its own.

In it a leftover of an earlier part that is cut up now is stock like any other, and
what a later part will use is an offcut for the rack. So one part is drawn, sawn and
recorded as any plan is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from app.core.cutting.job import Area, Job, Stock
from app.core.cutting.offcut_names import offcut_names
from app.core.cutting.order import area as as_area
from app.core.cutting.order import in_order, numbered
from app.core.cutting.parting import overlap
from app.core.cutting.pattern import Box
from app.core.cutting.plan import Cut, Direction, Layout, Leftover, Plan
from app.core.cutting.sawn import box, sides
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class Brought:
    """A stock of a part's plan that an earlier part left over.

    ``stock`` is its id there, which is also its name: what was written on the
    wood. It lay in ``layout`` (by its place in the whole plan) at ``area``.
    """

    stock: str
    layout: int
    area: Area


def brought(plan: Plan, period: str) -> tuple[Brought, ...]:
    """What this period cuts up that an earlier one left over."""
    names = offcut_names(plan)
    return tuple(
        Brought(name, at, left.area)
        for at, layout in enumerate(plan.layouts)
        for left, name in zip(layout.leftovers, names[at], strict=True)
        if left.used_in and left.used_in == period
    )


def of_period(plan: Plan, period: str) -> Plan:
    """What is cut in one period, with its cuts numbered from 1.

    Blanks without a place are those of this period. The whole plan's bounds say
    nothing of one part alone and are left out.
    """
    plan = numbered(plan)
    job, when = plan.job, plan.job.when
    now = when(period)
    blanks = tuple(one for one in job.blanks if when(one.period) == now)
    mine = {one.id for one in blanks}
    found = list(_boards(plan, period))
    # However many layouts are cut from a stock, it has one line.
    stock = {one.id: replace(one, period="") for one, _ in found}
    part = replace(
        job,
        stock=tuple(stock.values()),
        blanks=tuple(replace(one, period="") for one in blanks),
        periods=(),
        pins=(),
    )
    unplaced = tuple(one for one in plan.unplaced if one.blank in mine)
    return in_order(Plan(part, tuple(layout for _, layout in found), unplaced))


def _boards(plan: Plan, period: str) -> Iterator[tuple[Stock, Layout]]:
    """Each board and each earlier leftover that is cut now, with its layout."""
    job, now = plan.job, plan.job.when(period)
    stock = {one.id: one for one in job.stock}
    left = {(one.layout, one.area): one.stock for one in brought(plan, period)}
    for at, layout in enumerate(plan.layouts):
        whole = stock[layout.stock]
        opened = min(_times(layout, job), default=job.when(layout.period))
        if opened == now:
            none = Length(0)
            area = Area(none, none, whole.length, whole.width or none)
            yield whole, _part(layout, area, now, job, whole.id)
        for (place, area), name in left.items():
            if place == at:
                offcut = _as_stock(whole, area, name, layout.copies)
                yield offcut, _part(layout, area, now, job, name)


def _times(layout: Layout, job: Job) -> list[int]:
    when = {one.id: job.when(one.period) for one in job.blanks}
    times = [when[piece.blank] for piece in layout.pieces]
    return times + [job.when(cut.period) for cut in layout.cuts]


def _as_stock(whole: Stock, area: Area, name: str, copies: int) -> Stock:
    """A leftover as it lies on the rack: sawn all round, with its own defects."""
    common = (overlap(box(one), box(area)) for one in whole.defects)
    return replace(
        whole,
        id=name,
        name=name,
        length=area.length,
        width=area.width if whole.width else None,
        quantity=copies,
        cost=None,
        offcut=True,
        trimmed=True,
        defects=tuple(_moved(as_area(one), area) for one in common if one),
    )


def _part(layout: Layout, board: Area, now: int, job: Job, stock: str) -> Layout:
    """What is cut from one board or leftover at one time, from its own corner."""
    when = {one.id: job.when(one.period) for one in job.blanks}
    bench: dict[Box, None] = {box(board): None}
    cuts: list[Cut] = []
    for cut in layout.cuts:
        if job.when(cut.period) == now and box(cut.of) in bench:
            cuts.append(cut)
            del bench[box(cut.of)]
            bench |= dict.fromkeys(sides(cut))
    now_out = [one for one in layout.pieces if when[one.blank] == now]
    pieces = [one for one in now_out if box(one.area) in bench]
    out = {box(one.area) for one in pieces}
    known = [box(one.area) for one in layout.leftovers if box(one.area) in bench]
    # A later blank may lie there as it is, uncut and so no leftover of its own.
    left = [one for one in dict.fromkeys([*known, *bench]) if one not in out]
    kept = {box(one.area): one.keep for one in layout.leftovers}
    return Layout(
        stock,
        layout.copies,
        tuple(replace(one, area=_moved(one.area, board)) for one in pieces),
        tuple(
            Leftover(
                _moved(as_area(one, job.one_dimensional), board), kept.get(one, True)
            )
            for one in left
        ),
        tuple(_moved_cut(cut, board) for cut in cuts),
    )


def _moved(area: Area, board: Area) -> Area:
    """An area in the coordinates of the board or leftover that it lies on."""
    return replace(area, x=area.x - board.x, y=area.y - board.y)


def _moved_cut(cut: Cut, board: Area) -> Cut:
    start = board.x if cut.direction is Direction.CROSSCUT else board.y
    return replace(
        cut, at=cut.at - start, of=_moved(cut.of, board), number=0, period=""
    )
