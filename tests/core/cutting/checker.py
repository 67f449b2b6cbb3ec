"""Sawing a plan over again, independently of the planner.

Nothing of ``app.core.cutting`` but its values is used: the stock is one
rectangle, each cut must run edge to edge through a rectangle that is there, and
what lies on the bench at the end must be the plan's pieces and leftovers.
"""

from __future__ import annotations

from collections import Counter

from app.core.cutting.job import Area, Blank, Job, Stock
from app.core.cutting.plan import Cut, Direction, Layout, Plan

Rectangle = tuple[int, int, int, int]


def check(plan: Plan) -> None:
    """Fail with words at the first thing that a sawyer could not do."""
    stock = {one.id: one for one in plan.job.stock}
    blanks = {one.id: one for one in plan.job.blanks}
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        used[layout.stock] += layout.copies
        saw_up(layout, stock[layout.stock], plan.job)
        for piece in layout.pieces:
            right_blank(piece.area, piece.turned, blanks[piece.blank])
            right_wood(stock[layout.stock], blanks[piece.blank], plan.job)
    for one in plan.job.stock:
        assert one.quantity is None or used[one.id] <= one.quantity, "not so many there"
    all_accounted_for(plan)


def all_accounted_for(plan: Plan) -> None:
    found: Counter[str] = Counter()
    for layout in plan.layouts:
        for piece in layout.pieces:
            found[piece.blank] += layout.copies
    for unplaced in plan.unplaced:
        assert unplaced.quantity > 0
        assert unplaced.why.endswith(".")
        found[unplaced.blank] += unplaced.quantity
    wanted = {blank.id: blank.quantity for blank in plan.job.blanks}
    assert {key: n for key, n in found.items() if n} == wanted


def rectangle(area: Area) -> Rectangle:
    return (area.x.nm, area.y.nm, area.length.nm, area.width.nm)


def saw_up(layout: Layout, stock: Stock, job: Job) -> None:
    """The cuts in their order give exactly the pieces and the leftovers."""
    flat = stock.width is None
    width = 0 if stock.width is None else stock.width.nm
    whole: Rectangle = (0, 0, stock.length.nm, width)
    bench: Counter[Rectangle] = Counter([whole])
    dust = 0
    for cut in layout.cuts:
        of = rectangle(cut.of)
        assert bench[of] == 1, f"there is no piece {of} to cut at this moment"
        bench[of] -= 1
        halves, taken = halves_of(cut, job.saw.kerf.nm, flat)
        bench.update(halves)
        dust += taken
    left = Counter({piece: n for piece, n in bench.items() if n})
    pieces = [rectangle(piece.area) for piece in layout.pieces]
    leftovers = [rectangle(leftover.area) for leftover in layout.leftovers]
    assert left == Counter([*pieces, *leftovers]), "the bench holds something else"
    no_overlap([*pieces, *leftovers], whole, flat)
    areas = sum(area_of(one, flat) for one in [*pieces, *leftovers])
    assert areas + dust == area_of(whole, flat), "wood appears or vanishes"
    trimmed(pieces, whole, stock, job)
    for leftover in layout.leftovers:
        long_enough = leftover.area.length >= job.keep.length
        wide_enough = flat or leftover.area.width >= job.keep.width
        assert leftover.keep == (long_enough and wide_enough)


def halves_of(cut: Cut, kerf: int, flat: bool) -> tuple[list[Rectangle], int]:
    x, y, length, width = rectangle(cut.of)
    if cut.direction is Direction.CROSSCUT:
        near, far, across = cut.at.nm - x, x + length - cut.at.nm, 1 if flat else width
    else:
        assert not flat, "a stick without width cannot be ripped"
        near, far, across = cut.at.nm - y, y + width - cut.at.nm, length
    assert near >= 0, "the cut is outside its piece"
    assert far > 0, "the cut is outside its piece"
    # At the near edge the blade may hang over it: an end trim thinner than a kerf.
    full = cut.kerf.nm == min(kerf, far)
    assert full or (near == 0 and 0 < cut.kerf.nm < kerf), "not what the saw takes"
    rest = far - cut.kerf.nm
    if cut.direction is Direction.CROSSCUT:
        both = [(x, y, near, width), (x + length - rest, y, rest, width)]
        lengths = (near, rest)
    else:
        both = [(x, y, length, near), (x, y + width - rest, length, rest)]
        lengths = (near, rest)
    there = [half for half, size in zip(both, lengths, strict=True) if size]
    return there, cut.kerf.nm * across


def area_of(one: Rectangle, flat: bool) -> int:
    return one[2] * (1 if flat else one[3])


def no_overlap(found: list[Rectangle], whole: Rectangle, flat: bool) -> None:
    for number, (x, y, length, width) in enumerate(found):
        assert x >= 0, "outside the stock"
        assert y >= 0, "outside the stock"
        assert x + length <= whole[2], "outside the stock"
        assert y + width <= whole[3], "outside the stock"
        for ox, oy, olength, owidth in found[:number]:
            apart = x + length <= ox or ox + olength <= x
            aside = not flat and (y + width <= oy or oy + owidth <= y)
            assert apart or aside, "two pieces from the same wood"


def trimmed(pieces: list[Rectangle], whole: Rectangle, stock: Stock, job: Job) -> None:
    # What was sawn all round before owes the saw no trims; all else does.
    owed = 0 if stock.trimmed else 1
    end = owed * job.saw.end_trim.nm
    edge = 0 if stock.width is None else owed * job.saw.edge_trim.nm
    for x, y, length, width in pieces:
        assert end <= x, "a piece in the trim"
        assert edge <= y, "a piece in the trim"
        assert x + length <= whole[2] - end, "a piece in the trim"
        assert y + width <= whole[3] - edge, "a piece in the trim"


def right_blank(area: Area, turned: bool, blank: Blank) -> None:
    along, across = area.length.nm, area.width.nm
    wanted = (blank.length.nm, blank.width.nm if blank.width else 0)
    assert not turned or blank.may_turn, "the grain is fixed"
    assert (along, across) == (wanted[::-1] if turned else wanted)


def right_wood(stock: Stock, blank: Blank, job: Job) -> None:
    if stock.species and blank.species:
        assert stock.species == blank.species
    if stock.thickness and blank.thickness:
        assert 0 <= stock.thickness.nm - blank.thickness.nm <= job.plane.nm


def rounds_used(layout: Layout) -> tuple[int, Direction | None]:
    """Rounds of parallel cuts through the deepest piece, trims left out.

    A round is a run of cuts in one direction on the way from the whole board to
    a piece; the last round is a trimming one where each of its slabs holds one
    piece only.
    """
    deepest = 0
    first: Direction | None = None
    for piece in layout.pieces:
        way: list[Direction] = []
        target = rectangle(piece.area)
        for cut in layout.cuts:
            if not cut.set_up.startswith("Trim") and within(target, rectangle(cut.of)):
                if not way:
                    first = first or cut.direction
                if not way or way[-1] is not cut.direction:
                    way.append(cut.direction)
        deepest = max(deepest, len(way))
    return deepest, first


def within(inner: Rectangle, outer: Rectangle) -> bool:
    x, y, length, width = inner
    ox, oy, olength, owidth = outer
    inside = ox <= x and oy <= y
    return inside and x + length <= ox + olength and y + width <= oy + owidth
