"""Sawing a plan over again, independently of the planner.

Nothing of ``app.core.cutting`` but its values is used, save what is held against
what is worked out here: the totals and the levels.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import groupby

from app.core.cutting.job import Area, Blank, Job, Pin, Stock
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.totals import Level, levels, totals
from tests.core.cutting.bench import (
    Bench,
    area_of,
    free_of_defects,
    in_their_time,
    only_worthwhile_kept,
    rectangle,
    saw_up,
    trims_respected,
)
from tests.core.cutting.rounds import within_stages


def check(plan: Plan) -> None:
    """Fail with words at the first thing that a sawyer could not do."""
    can_be_sawn(plan)
    all_accounted_for(plan)
    pins_honoured(plan)
    totals_exact(plan)
    levels_honest(plan)


def can_be_sawn(plan: Plan) -> None:
    stock = {one.id: one for one in plan.job.stock}
    blanks = {one.id: one for one in plan.job.blanks}
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        assert layout.copies > 0, "a layout that is not cut"
        used[layout.stock] += layout.copies
        bench = Bench(layout, stock[layout.stock], plan.job)
        for rule in (saw_up, trims_respected, free_of_defects, only_worthwhile_kept):
            rule(bench)
        in_their_time(bench, blanks)
        within_stages(bench)
        for piece in layout.pieces:
            right_blank(piece.area, piece.turned, blanks[piece.blank])
            right_wood(bench.stock, blanks[piece.blank], plan.job)
    for one in plan.job.stock:
        assert one.quantity is None or used[one.id] <= one.quantity, "not so many there"


def all_accounted_for(plan: Plan) -> None:
    found = placed(plan)
    for unplaced in plan.unplaced:
        assert unplaced.quantity > 0
        assert unplaced.why.endswith(".")
        found[unplaced.blank] += unplaced.quantity
    wanted = {blank.id: blank.quantity for blank in plan.job.blanks}
    assert {key: n for key, n in found.items() if n} == wanted, "blanks lost or found"


def placed(plan: Plan, stock: str | None = None) -> Counter[str]:
    """How many of each blank there are, on one stock or on all."""
    found: Counter[str] = Counter()
    for layout in plan.layouts:
        if stock in {None, layout.stock}:
            for piece in layout.pieces:
                found[piece.blank] += layout.copies
    return found


def right_blank(area: Area, turned: bool, blank: Blank) -> None:
    along, across = area.length.nm, area.width.nm
    wanted = (blank.length.nm, blank.width.nm if blank.width else 0)
    assert not turned or blank.may_turn, "the grain is fixed"
    assert (along, across) == (wanted[::-1] if turned else wanted), "the wrong size"


def right_wood(stock: Stock, blank: Blank, job: Job) -> None:
    if stock.species and blank.species:
        assert stock.species == blank.species, "the wrong wood"
    if stock.thickness and blank.thickness:
        off = stock.thickness.nm - blank.thickness.nm
        assert 0 <= off <= job.plane.nm, "the wrong thickness"
    assert not blank.only or stock.id in blank.only, "bound to other stock"


def pins_honoured(plan: Plan) -> None:
    """What is firmly pinned lies where it is pinned, or nowhere."""
    out = Counter({one.blank: one.quantity for one in plan.unplaced})
    for blank in plan.job.blanks:
        pins = [pin for pin in plan.job.pins if pin.firm and pin.blank == blank.id]
        missing = sum(
            max(0, count(pin, blank) - placed(plan, pin.stock)[blank.id])
            for pin in pins
        )
        assert missing <= out[blank.id], f"“{blank.id}” is not where it is pinned"


def count(pin: Pin, blank: Blank) -> int:
    many = blank.quantity
    return many if pin.quantity is None else min(pin.quantity, many)


def totals_exact(plan: Plan) -> None:
    """The totals are what adding everything up here gives."""
    stock = {one.id: one for one in plan.job.stock}
    flat = plan.job.one_dimensional

    def over(each: Callable[[Layout], int]) -> int:
        return sum(each(layout) * layout.copies for layout in plan.layouts)

    def left(layout: Layout, keep: bool) -> int:
        return sum(
            area_of(rectangle(one.area), flat)
            for one in layout.leftovers
            if one.keep is keep and not one.used_in
        )

    def whole(layout: Layout) -> int:
        return area_of(Bench(layout, stock[layout.stock], plan.job).whole, flat)

    def pieces(layout: Layout) -> int:
        return sum(area_of(rectangle(one.area), flat) for one in layout.pieces)

    sums = totals(plan)
    found = (
        over(lambda one: stock[one.stock].cost or 0),
        over(lambda _: 1),
        over(whole),
        over(pieces),
        over(lambda one: left(one, keep=True)),
        over(lambda one: left(one, keep=False)),
        over(lambda one: len(one.cuts)),
        set_afresh(plan),
    )
    told = (
        *(sums.cost, sums.stock_pieces, sums.stock, sums.parts),
        *(sums.offcuts, sums.scrap, sums.cuts, sums.set_ups),
    )
    assert told == found, "the totals do not add up"
    heaps = sums.parts + sums.kerf + sums.offcuts + sums.scrap
    assert sums.stock == heaps, "wood appears or vanishes in the totals"


def set_afresh(plan: Plan) -> int:
    """How often fence or stop is moved, cut after cut through the whole plan."""
    cuts = [cut for layout in plan.layouts for cut in layout.cuts]
    cuts.sort(key=lambda cut: cut.number)
    numbers = [cut.number for cut in cuts]
    assert numbers == list(range(1, len(cuts) + 1)), "cuts without their number"
    periods = [plan.job.when(cut.period) for cut in cuts]
    assert periods == sorted(periods), "a later part is cut before an earlier one"
    # Words round: settings that differ by less are not one setting for that.
    return len(list(groupby(cuts, lambda cut: (cut.period, cut.set_up, cut.setting))))


def levels_honest(plan: Plan) -> None:
    """Each bound lies on its side of the value, and only equal ones are proof."""
    sums = totals(plan)
    values = {
        "cost": sums.cost,
        "stock_pieces": sums.stock_pieces,
        "offcut_value": offcut_worth(plan),
        "set_ups": sums.set_ups,
        "cuts": sums.cuts,
    }
    found = levels(plan)
    assert [one.objective for one in found] == list(values), "a level is missing"
    for level in found:
        assert level.value == values[level.objective], f"{level} is another value"
        right_side(level)


def right_side(level: Level) -> None:
    beaten = level.value - level.bound
    if level.objective == "offcut_value":
        beaten = -beaten
    assert beaten >= 0, f"{level.objective} beats its own bound"
    assert not level.proven or not beaten, f"{level.objective} is proven without proof"


def offcut_worth(plan: Plan) -> int:
    """What all that is kept for good is worth."""
    return sum(
        worth_of(rectangle(left.area), plan.job) * layout.copies
        for layout in plan.layouts
        for left in layout.leftovers
        if left.keep and not left.used_in
    )


def worth_of(one: tuple[int, int, int, int], job: Job) -> int:
    """Half by its length, half by its area, each up to what counts in full."""
    _, _, length, width = one
    long, wide = job.offcut_value.full_length.nm, job.offcut_value.full_width.nm
    if job.one_dimensional:
        return length * min(length, long) // long
    area, full = length * width, long * wide
    share = min(length, long) * full + min(area, full) * long
    return area * share // (2 * long * full)
