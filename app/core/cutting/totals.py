"""What a plan comes to: areas that add up exactly, cost, cuts, and bounds.

Areas are nm²; in a job without widths every area is a length, nm.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.cutting.fit import clear, suits
from app.core.cutting.job import Area, Blank, Job, Stock
from app.core.cutting.order import changes
from app.core.cutting.plan import Cut, Direction, Layout, Plan


@dataclass(frozen=True, slots=True)
class Totals:
    """Stock equals parts, kerf, offcuts and scrap together, to the last one."""

    cost: int
    stock_pieces: int
    stock: int
    parts: int
    kerf: int
    offcuts: int
    scrap: int
    set_ups: int
    cuts: int


@dataclass(frozen=True, slots=True)
class Level:
    """One objective: its value, a bound no plan can beat, whether that proves it."""

    objective: str
    value: int
    bound: int
    proven: bool


def extent(area: Area) -> int:
    """An area, nm²; its length, nm, where it has no width."""
    return area.length.nm * (area.width.nm or 1)


def dust(cut: Cut) -> int:
    """What one cut takes from the face of the stock, nm² or nm."""
    across = cut.of.width if cut.direction is Direction.CROSSCUT else cut.of.length
    return cut.kerf.nm * (across.nm or 1)


def size(stock: Stock) -> int:
    """The face of one piece of stock, nm² or nm."""
    return stock.length.nm * (stock.width.nm if stock.width else 1)


def totals(plan: Plan) -> Totals:
    """Everything added up over all layouts and their copies."""
    stock = {one.id: one for one in plan.job.stock}

    def over(each: object) -> int:
        assert callable(each)
        return sum(each(layout) * layout.copies for layout in plan.layouts)

    return Totals(
        cost=over(lambda one: stock[one.stock].cost or 0),
        stock_pieces=over(lambda _: 1),
        stock=over(lambda one: size(stock[one.stock])),
        parts=over(lambda one: sum(extent(piece.area) for piece in one.pieces)),
        kerf=over(lambda one: sum(dust(cut) for cut in one.cuts)),
        offcuts=over(lambda one: _left(one, kept=True)),
        scrap=over(lambda one: _left(one, kept=False)),
        set_ups=sum(changes(layout.cuts) for layout in plan.layouts),
        cuts=over(lambda one: len(one.cuts)),
    )


def _left(layout: Layout, *, kept: bool) -> int:
    return sum(extent(one.area) for one in layout.leftovers if one.keep is kept)


def levels(plan: Plan) -> tuple[Level, ...]:
    """Cost and stock pieces against the wood they need at least, and the rest.

    A bound counts each blank with one kerf against stock with one kerf more,
    so it holds for any way of sawing; where the planner worked out a higher one,
    that stands. It speaks of the blanks that are placed; with blanks unplaced
    nothing is called proven.
    """
    sums = totals(plan)
    known = {one.objective: one.least for one in plan.bounds}
    cost = max(least_cost(plan), known.get("cost", 0))
    pieces = max(least_pieces(plan), known.get("stock_pieces", 0))
    bounds = (
        ("cost", sums.cost, cost),
        ("stock_pieces", sums.stock_pieces, pieces),
        ("offcut_value", sums.offcuts, sums.stock - sums.parts),
        ("set_ups", sums.set_ups, 0),
        ("cuts", sums.cuts, 0),
    )
    return tuple(
        Level(name, value, bound, value == bound and not plan.unplaced)
        for name, value, bound in bounds
    )


def least_cost(plan: Plan) -> int:
    """No plan that places the same blanks costs less, minor units."""
    job = plan.job
    wanted = _placed(plan)
    if any(not one.cost and one.quantity is None for one in job.stock):
        return 0
    free = sum(
        _room(one, job) * (one.quantity or 0) for one in job.stock if not one.cost
    )
    priced = [one for one in job.stock if one.cost and _room(one, job)]
    missing = sum(_needs(blank, job) * n for blank, n in wanted) - free
    forced = max((_dearest(blank, job) for blank, _ in wanted), default=0)
    if missing <= 0 or not priced:
        return forced
    rate = min(Fraction(one.cost or 0, _room(one, job)) for one in priced)
    least = min(one.cost or 0 for one in priced)
    whole = -(-missing // max(_room(one, job) for one in priced))
    by_piece = whole * least
    return max(forced, by_piece, -int(-missing * rate // 1))


def least_pieces(plan: Plan) -> int:
    """No plan that places the same blanks opens fewer pieces of stock."""
    job = plan.job
    missing = sum(_needs(blank, job) * n for blank, n in _placed(plan))
    opened = 0
    for one in sorted(job.stock, key=lambda one: -_room(one, job)):
        room = _room(one, job)
        if missing <= 0 or not room:
            break
        most = -(-missing // room)
        taken = most if one.quantity is None else min(most, one.quantity)
        opened += taken
        missing -= taken * room
    return opened


def _placed(plan: Plan) -> list[tuple[Blank, int]]:
    out = {one.blank: one.quantity for one in plan.unplaced}
    found = ((one, one.quantity - out.get(one.id, 0)) for one in plan.job.blanks)
    return [(blank, n) for blank, n in found if n]


def _dearest(blank: Blank, job: Job) -> int:
    """What the cheapest stock for this blank costs, if none is free."""
    suited = [one for one in job.stock if suits(one, blank, job.plane)]
    return min((one.cost or 0 for one in suited), default=0)


def _needs(blank: Blank, job: Job) -> int:
    kerf = job.saw.kerf.nm
    across = blank.width.nm + kerf if blank.width else 1
    return (blank.length.nm + kerf) * across


def _room(stock: Stock, job: Job) -> int:
    kerf = job.saw.kerf.nm
    length, width = clear(stock, job)
    if not (length and width):
        return 0
    return (length + kerf) * (width + kerf if stock.width else 1)
