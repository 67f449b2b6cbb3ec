"""What a plan comes to: areas that add up exactly, cost, cuts, and bounds.

Areas are nm²; in a job without widths every area is a length, nm.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.core.cutting.bounds import (
    fewest_cuts,
    fewest_set_ups,
    least_cost,
    least_pieces,
    most_worth,
)
from app.core.cutting.job import Area, Stock
from app.core.cutting.open_ways import least_cost_of_any, was_open
from app.core.cutting.order import set_ups
from app.core.cutting.plan import Cut, Direction, Layout, Plan
from app.core.cutting.worth import Policy


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
        set_ups=set_ups(plan),
        cuts=over(lambda one: len(one.cuts)),
    )


def _left(layout: Layout, *, kept: bool) -> int:
    """Offcuts or scrap; what a later period cuts up stands in its own pieces."""
    return sum(
        extent(one.area)
        for one in layout.leftovers
        if one.keep is kept and not one.used_in
    )


def offcut_worth(plan: Plan) -> int:
    """What all offcuts are worth that stay when the plan is cut, nm² or nm."""
    policy = Policy.of(plan.job)
    return sum(
        policy.worth(one.area.length.nm, one.area.width.nm) * layout.copies
        for layout in plan.layouts
        for one in layout.leftovers
        if one.keep and not one.used_in
    )


def levels(plan: Plan) -> tuple[Level, ...]:
    """Every objective with its value and a bound, in the order of their rank.

    The bounds speak of the blanks that are placed, and with blanks unplaced nothing
    is called proven. ``stock_pieces`` counts beside the money. Those of cost, pieces,
    set-ups and cuts are least values and hold for any way of sawing; where the
    planner worked out a higher one for cost or pieces, that stands. The bound of
    ``offcut_value`` is the most that offcuts could be worth in a plan that costs no
    more than this one: with more money more could be left over. Where parts may be
    glued up or stock resawn, the least cost holds for every such way, and the other
    bounds speak of the way that was taken, so nothing else is called proven.
    """
    sums = totals(plan)
    known = {one.objective: one.least for one in plan.bounds}
    open_ways = was_open(plan.job)
    money = max(least_cost(plan), known.get("cost", 0))
    bounds = (
        ("cost", sums.cost, least_cost_of_any(plan) if open_ways else money),
        (
            "stock_pieces",
            sums.stock_pieces,
            max(least_pieces(plan), known.get("stock_pieces", 0)),
        ),
        ("offcut_value", offcut_worth(plan), most_worth(plan, sums.cost)),
        ("set_ups", sums.set_ups, fewest_set_ups(plan)),
        ("cuts", sums.cuts, fewest_cuts(plan)),
    )
    return tuple(
        Level(name, value, bound, value == bound and not plan.unplaced)
        if name == "cost" or not open_ways
        else Level(name, value, bound, proven=False)
        for name, value, bound in bounds
    )
