"""What no plan for the blanks that were placed can beat, by short reckoning.

Each bound holds for any way of sawing; the planner may work out better ones. A
piece counts with one kerf along and across, and so does the stock: whatever is
sawn, those larger rectangles lie side by side without overlap.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import gcd, isqrt

from app.core.cutting.fit import clear, suits, trims, ways
from app.core.cutting.job import Blank, Job, Stock
from app.core.cutting.plan import Direction, Plan
from app.core.cutting.sawn import THIN
from app.core.cutting.worth import Policy

# Sums of sizes are counted in steps of their common measure while there are not
# more of them than this; else any sum is taken to be possible.
STEPS = 200_000
MOST_SLABS = 5_000  # of a stock, each a kerf thick


def least_cost(plan: Plan) -> int:
    """No plan that places the same blanks costs less, minor units."""
    job = plan.job
    wanted = placed(plan)
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
    missing = sum(_needs(blank, job) * n for blank, n in placed(plan))
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


def most_worth(plan: Plan, cost: int) -> int:
    """No plan for the same blanks that costs no more leaves offcuts worth more.

    What may be opened for ``cost`` is all the free stock, at most one piece for
    each blank, and as much of the rest as the money buys at its best rate; what
    the blanks need of it is gone. The rest counts as one offcut, which is worth
    most. In nm² (nm without widths), like ``worth``.
    """
    job, wanted = plan.job, placed(plan)
    count = sum(n for _, n in wanted)
    suited = [one for one in job.stock if _suits_any(one, wanted, job)]
    if not suited:
        return 0
    opened = _most_opened(suited, count, cost, job)
    spare = opened - sum(_needs(blank, job) * n for blank, n in wanted)
    return _as_one_offcut(spare, suited, job)


def _most_opened(suited: list[Stock], count: int, cost: int, job: Job) -> int:
    """The most room that may be opened, kerfs included: a trim may be kept too."""
    free = [
        room
        for one in suited
        if not one.cost
        for room in [_untrimmed(one, job)] * min(_number(one, count), count)
    ]
    found = sum(sorted(free, reverse=True)[:count])
    priced = [one for one in suited if one.cost]
    for one in sorted(priced, key=lambda s: Fraction(s.cost or 1, _untrimmed(s, job))):
        price = one.cost or 1
        whole = price * _number(one, count)
        spent = min(whole, cost)
        found += _untrimmed(one, job) * spent // price
        cost -= spent
    return found


def _number(stock: Stock, most: int) -> int:
    return most if stock.quantity is None else min(stock.quantity, most)


def _as_one_offcut(spare: int, suited: list[Stock], job: Job) -> int:
    """What is worth most of ``spare`` room: one piece, as wide as any stock is."""
    kerf = job.saw.kerf.nm
    longest = max(one.length.nm for one in suited)
    policy = Policy.of(job)
    if job.one_dimensional:
        length = spare - kerf
        long = min(length, longest, policy.full_length)
        return max(length * long // policy.full_length, 0)
    if spare <= 0:
        return 0
    widest = max(one.width.nm if one.width else 1 for one in suited)
    # (length + kerf) x (width + kerf) is least where the piece is square, or as
    # near to it as the widest stock lets it be.
    side = isqrt(spare) + 1 - kerf
    if side <= widest:
        most = max(side, 0) ** 2
    else:
        most = (-(-spare // (widest + kerf)) - kerf) * widest
    long = min(longest, policy.full_length)
    share = long * policy.full_area + min(most, policy.full_area) * policy.full_length
    return max(most * share // (2 * policy.full_length * policy.full_area), 0)


def fewest_cuts(plan: Plan) -> int:
    """No plan that places the same blanks makes fewer cuts.

    A cut makes one piece more, so ``n`` pieces of one stock take ``n - 1``, and
    each side that must come off takes one more: both sides of stock with trims,
    one where no sum of sizes with their kerfs fills the stock exactly.
    """
    job, wanted = plan.job, placed(plan)
    count = sum(n for _, n in wanted)
    if not count:
        return 0
    suited = [one for one in job.stock if _suits_any(one, wanted, job)]
    extras = sorted(
        extra
        for one in suited
        for extra in [_sides_off(one, wanted, job) - 1] * _number(one, count)
    )
    must = min(max(least_pieces(plan), 1), len(extras))
    spared = sum(1 for extra in extras[must:count] if extra < 0)
    return max(count + sum(extras[:must]) - spared, 0)


def _sides_off(stock: Stock, wanted: list[tuple[Blank, int]], job: Job) -> int:
    end, edge = trims(stock, job.saw)
    room = clear(stock, job)
    found = 0
    for off, size, direction in (
        (end, room[0], Direction.CROSSCUT),
        (edge, room[1], Direction.RIP),
    ):
        if direction is Direction.RIP and stock.width is None:
            continue
        if off:
            found += 2
        elif not _filled(size, _sizes(wanted, direction), job.saw.kerf.nm):
            found += 1
    return found


def _sizes(wanted: Iterable[tuple[Blank, int]], direction: Direction) -> list[int]:
    """Every size that a blank may take up in a direction."""
    axis = 0 if direction is Direction.CROSSCUT else 1
    return sorted({way[axis] for blank, _ in wanted for way in ways(blank)})


def _filled(size: int, sizes: list[int], kerf: int) -> bool:
    """Whether sizes with kerfs between them may add up to ``size`` exactly.

    Each may be taken as often as wanted. A size is reached where a smaller one is,
    one size and a kerf away; all of them are counted in one whole number's bits.
    """
    target, steps = size + kerf, [one + kerf for one in sizes]
    measure = gcd(target, *steps)
    whole = target // measure
    if whole > STEPS:
        return True
    reached, sums = 1, (1 << (whole + 1)) - 1
    for stride in (one // measure for one in steps):
        shift = stride
        while 0 < shift <= whole:
            reached |= (reached << shift) & sums
            shift *= 2
    return bool(reached >> whole & 1)


def fewest_set_ups(plan: Plan) -> int:
    """No plan that places the same blanks sets fence and stop less often.

    Sizes that no stock has need a setting in their direction; a second one where
    there is none that could give them all: a setting gives its own size, and what
    is left of the stock after it was taken once or more often.
    """
    wanted = placed(plan)
    return sum(_settings(plan.job, wanted, direction) for direction in Direction)


def _settings(job: Job, wanted: list[tuple[Blank, int]], direction: Direction) -> int:
    if job.one_dimensional and direction is Direction.RIP:
        return 0
    axis = 0 if direction is Direction.CROSSCUT else 1
    fixed = [blank for blank, _ in wanted if len(ways(blank)) == 1]
    sizes = {ways(blank)[0][axis] for blank in fixed}
    suited = [one for one in job.stock if _suits_any(one, wanted, job)]
    raw = {_whole(one)[axis] for one in suited}
    trimmed = any(trims(one, job.saw)[axis] for one in suited)
    needed = sizes - raw
    if not needed:
        return 0
    # Trims are settings of their own, and a thin strip is measured by its rest:
    # what one setting may give is not so plain then.
    if trimmed or (direction is Direction.RIP and min(sizes) < THIN):
        return 1
    kerf = job.saw.kerf.nm
    # With next to no kerf a stock has more slabs than are worth trying.
    if max(raw, default=0) > MOST_SLABS * kerf:
        return 1
    return 1 if _one_serves(needed, raw, kerf) else 2


def _whole(stock: Stock) -> tuple[int, int]:
    return stock.length.nm, stock.width.nm if stock.width else 1


def _one_serves(needed: set[int], raw: set[int], kerf: int) -> bool:
    """Whether one setting could give every size needed, alone or by what it leaves."""
    first = min(needed)
    return any(
        all(size == setting or _is_rest(size, setting, raw, kerf) for size in needed)
        for setting in _could_give(first, raw, kerf)
    )


def _could_give(size: int, raw: set[int], kerf: int) -> Iterator[int]:
    """Every setting that gives a size, or leaves it of some stock."""
    yield size
    for whole in raw:
        gone = whole - size
        for times in range(1, gone // kerf + 1):
            if gone % times == 0 and gone // times > kerf:
                yield gone // times - kerf


def _is_rest(size: int, setting: int, raw: set[int], kerf: int) -> bool:
    slab = setting + kerf
    return any(whole > size and (whole - size) % slab == 0 for whole in raw)


def placed(plan: Plan) -> list[tuple[Blank, int]]:
    """The blanks that found a place and how many of each."""
    out = {one.blank: one.quantity for one in plan.unplaced}
    found = ((one, one.quantity - out.get(one.id, 0)) for one in plan.job.blanks)
    return [(blank, n) for blank, n in found if n]


def _suits_any(stock: Stock, wanted: list[tuple[Blank, int]], job: Job) -> bool:
    return any(suits(stock, blank, job.plane) for blank, _ in wanted)


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


def _untrimmed(stock: Stock, job: Job) -> int:
    kerf = job.saw.kerf.nm
    across = stock.width.nm + kerf if stock.width else 1
    return (stock.length.nm + kerf) * across
