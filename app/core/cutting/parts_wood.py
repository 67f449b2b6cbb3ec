"""What the plan of a whole series means for its parts.

What to buy for which, what each part takes from the rack and leaves on it, which
offcut waits for which later part, and what planning together saves.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from app.core.cutting import resawn
from app.core.cutting.job import Area, Job, Stock
from app.core.cutting.offcut_names import offcut_names
from app.core.cutting.plan import Layout, Leftover, Plan
from app.core.cutting.sawn import box
from app.core.cutting.totals import totals


@dataclass(frozen=True, slots=True)
class Opened:
    """Equal pieces of stock that a part takes whole: bought for it, or on the rack.

    ``cost`` is of all of them, None for what is on the rack. ``serves`` are the
    parts that get blanks from them, in order.
    """

    period: str
    stock: Stock
    quantity: int
    cost: int | None
    serves: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Kept:
    """An offcut, ``quantity`` equal ones from as many boards cut alike.

    It is left by the part ``since`` and cut up by the part ``used_in``, empty where
    it stays. ``name`` is what to write on it.
    """

    name: str
    stock: str
    area: Area
    quantity: int
    since: str
    used_in: str


def opened(plan: Plan) -> tuple[Opened, ...]:
    """Every piece of stock that is cut, by the part that takes it, in order of time.

    What is resawn is taken whole by the first part that needs a board of it.
    """
    counts: Counter[tuple[int, str, tuple[str, ...]]] = Counter()
    sawn: dict[str, list[Layout]] = defaultdict(list)
    for layout in plan.layouts:
        made = resawn.piece_of(layout.stock)
        if made:
            sawn[made[0]].append(layout)
        else:
            at = plan.job.when(layout.period)
            counts[at, layout.stock, _serves(plan, [layout])] += layout.copies
    for key, layouts in sawn.items():
        counts.update(_whole(plan, key, layouts))
    stock = {one.id: one for one in plan.job.stock}
    names = _periods(plan.job)
    return tuple(
        Opened(names[at], stock[key], many, _cost(stock[key], many), serves)
        for (at, key, serves), many in sorted(counts.items(), key=lambda one: one[0][0])
    )


def _whole(
    plan: Plan, key: str, layouts: list[Layout]
) -> Iterator[tuple[int, str, tuple[str, ...]]]:
    """The whole pieces of stock that are resawn, when each is first needed."""
    made = resawn.piece_of(layouts[0].stock)
    assert made is not None
    boards, taken, used = made[2], 0, 0
    for at in sorted({plan.job.when(one.period) for one in layouts}):
        used += sum(one.copies for one in layouts if plan.job.when(one.period) == at)
        for _ in range(taken, -(-used // boards)):
            taken += 1
            yield at, key, _serves(plan, layouts)


def to_buy_by_period(plan: Plan) -> dict[str, tuple[Opened, ...]]:
    """What to buy for each part; a part that buys nothing is not in it."""
    found: dict[str, list[Opened]] = {}
    for one in opened(plan):
        if one.cost is not None:
            found.setdefault(one.period, []).append(one)
    return {period: tuple(those) for period, those in found.items()}


def kept(plan: Plan) -> tuple[Kept, ...]:
    """Every offcut that lies on the rack for some time, in the order they come."""
    when = plan.job.when
    found = [
        Kept(
            name,
            layout.stock,
            left.area,
            layout.copies,
            _since(layout, left, plan.job),
            left.used_in,
        )
        for layout, names in zip(plan.layouts, offcut_names(plan), strict=True)
        for left, name in zip(layout.leftovers, names, strict=True)
        if left.keep
    ]
    return tuple(sorted(found, key=lambda one: when(one.since)))


def left_by_period(plan: Plan) -> dict[str, tuple[Kept, ...]]:
    """What of the plan's wood lies on the rack after each part, and for which.

    First what a later part will cut up, the next one first.
    """
    when, all_of_it = plan.job.when, kept(plan)
    never = len(plan.job.periods)

    def due(one: Kept) -> int:
        return when(one.used_in) if one.used_in else never

    return {
        period: tuple(
            sorted(
                (one for one in all_of_it if when(one.since) <= at < due(one)), key=due
            )
        )
        for at, period in enumerate(_periods(plan.job))
    }


def taken_by_period(plan: Plan) -> dict[str, tuple[Kept, ...]]:
    """Which offcuts of earlier parts each part cuts up."""
    all_of_it = kept(plan)
    return {
        period: tuple(one for one in all_of_it if one.used_in and one.used_in == period)
        for period in _periods(plan.job)
    }


def meant_for(plan: Plan, stock: str) -> tuple[str, ...]:
    """The parts that get blanks from a stock by the plan, in order of time."""
    found = [_serves(plan, [one]) for one in plan.layouts if one.stock == stock]
    parts = {one for serves in found for one in serves}
    return tuple(sorted(parts, key=plan.job.when))


@dataclass(frozen=True, slots=True)
class Saving:
    """What planning together saves: money of both ways, minor units.

    ``more_placed``: blanks that find a place only when planned together.
    """

    together: int
    apart: int
    more_placed: int

    @property
    def money(self) -> int:
        """How much less is paid, minor units."""
        return self.apart - self.together

    @property
    def share(self) -> Fraction:
        """The same as a share of what part by part costs."""
        return Fraction(self.money, self.apart) if self.apart else Fraction(0)

    @property
    def percent(self) -> str:
        """The share in words, rounded down to a tenth of a percent."""
        tenths = abs(self.share) * 1000 // 1
        return f"{'−' if self.share < 0 else ''}{tenths // 10}.{tenths % 10} %"


def saving(plan: Plan, apart: Plan) -> Saving:
    """What a plan saves against the same job planned part by part."""
    out = [sum(one.quantity for one in each.unplaced) for each in (apart, plan)]
    return Saving(totals(plan).cost, totals(apart).cost, out[0] - out[1])


def _periods(job: Job) -> tuple[str, ...]:
    return job.periods or ("",)


def _cost(stock: Stock, many: int) -> int | None:
    return None if stock.cost is None else stock.cost * many


def _serves(plan: Plan, layouts: Iterable[Layout]) -> tuple[str, ...]:
    """The parts that get blanks from some layouts, in order."""
    due = {one.id: plan.job.when(one.period) for one in plan.job.blanks}
    names = _periods(plan.job)
    times = {due[piece.blank] for layout in layouts for piece in layout.pieces}
    return tuple(names[at] for at in sorted(times))


def _since(layout: Layout, left: Leftover, job: Job) -> str:
    """Which part leaves this leftover: the last to have opened what it lies in."""
    x, y, length, width = box(left.area)
    times = [job.when(layout.period)]
    for one in layout.leftovers:
        ox, oy, olong, owide = box(one.area)
        inside = ox <= x and oy <= y and x + length <= ox + olong
        if one.used_in and one is not left and inside and y + width <= oy + owide:
            times.append(job.when(one.used_in))
    return _periods(job)[max(times)]
