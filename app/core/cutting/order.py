"""The order of the cuts: what must come first does, equal settings together.

The order is one for the whole plan, not one board after another: whoever has set
the fence cuts with it what there is to cut, on every board.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from app.core.cutting.against import against
from app.core.cutting.job import Area, Job, Stock
from app.core.cutting.pattern import Box, Pattern, RawCut, inside
from app.core.cutting.plan import Cut, Direction, Layout, Plan
from app.core.cutting.runs import Step, in_runs
from app.core.cutting.sawn import Sawn, box, of_layout, of_pattern
from app.core.length import Display, Length, show


def in_order(plan: Plan) -> Plan:
    """The plan with its cuts numbered from 1 in the order of sawing.

    The cuts of each layout stand in that order. Those of an earlier period come
    first; a setting is used up wherever that needs no second setting; trims come
    first, then wood of one thickness and species after another, round by round.
    A cut of a layout with copies is made on each copy before the next cut.
    """
    rows = [_row(plan.job, layout) for layout in plan.layouts]
    steps, whose = _steps(plan, rows)
    numbers = [[0] * len(row) for row in rows]
    for number, step in enumerate((one for run in in_runs(steps) for one in run), 1):
        at, cut = whose[step]
        numbers[at][cut] = number
    layouts = zip(plan.layouts, rows, numbers, strict=True)
    return replace(plan, layouts=tuple(_ordered(plan.job, *each) for each in layouts))


def numbered(plan: Plan) -> Plan:
    """The plan in order; one that is so already as it is."""
    cuts = (cut for layout in plan.layouts for cut in layout.cuts)
    return plan if all(cut.number for cut in cuts) else in_order(plan)


def sequence(plan: Plan) -> list[tuple[Layout, Cut]]:
    """Every cut of the plan with its layout, in the order of sawing."""
    found = [(layout, cut) for layout in numbered(plan).layouts for cut in layout.cuts]
    return sorted(found, key=lambda pair: pair[1].number)


def set_ups(plan: Plan) -> int:
    """How often a fence or stop is set for the whole plan."""
    return changes(tuple(cut for _, cut in sequence(plan)))


def set_ups_of(patterns: Iterable[Pattern]) -> int:
    """How often a fence or stop is set for patterns sawn together in one period.

    The count of ``set_ups`` for such a plan, without words, for the planner to ask
    of every plan it weighs: some twenty microseconds a cut.
    """
    steps: list[Step] = []
    for pattern in patterns:
        start = len(steps)
        for one in of_pattern(pattern):
            after = one.after + start if one.after >= 0 else -1
            steps.append(Step(_setting(one, 0), after, one.round))
    return len(in_runs(steps))


def changes(cuts: tuple[Cut, ...]) -> int:
    """How often a fence or stop is set, cut after cut."""
    keys = [same_setting(cut) for cut in cuts]
    return sum(not at or key != keys[at - 1] for at, key in enumerate(keys))


def sawing_order(cuts: list[RawCut], display: Display) -> tuple[Cut, ...]:
    """The cuts of one piece of stock alone, before the plan is put in order."""
    rounds = [
        Step((0, one.trim, one.direction, one.setting), one.after) for one in cuts
    ]
    order = [number for run in in_runs(rounds) for number in run]
    return tuple(_cut(cuts[number], display) for number in order)


def area(box: Box, one_dimensional: bool = False) -> Area:
    """A box as an area; without widths its width is nothing."""
    x, y, length, width = box
    across = Length(0) if one_dimensional else Length(width)
    return Area(Length(x), Length(y), Length(length), across)


def same_setting(cut: Cut) -> tuple[object, ...]:
    """What two cuts share that are made at one setting."""
    return (cut.period, cut.set_up, cut.direction, cut.setting)


Row = list[tuple[Sawn, str]]


def _row(job: Job, layout: Layout) -> Row:
    """A layout's cuts as a tree, each with the period in which it is made."""
    tree = of_layout(layout)
    first = job.when(layout.period)
    # What a period takes up again is cut in it; all else when the stock is taken.
    again = [
        (box(one.area), job.when(one.used_in))
        for one in layout.leftovers
        if one.used_in
    ]
    found = [
        max([first, *(time for area, time in again if inside(one.raw.box, area))])
        for one in tree
    ]
    names = job.periods or ("",)
    return [(one, names[at]) for one, at in zip(tree, found, strict=True)]


def _steps(plan: Plan, rows: Sequence[Row]) -> tuple[list[Step], list[tuple[int, int]]]:
    """Every cut of the plan as a step, and whose cut each step is."""
    stock = {one.id: one for one in plan.job.stock}
    woods = [_material(stock[layout.stock]) for layout in plan.layouts]
    ranks = {wood: rank for rank, wood in enumerate(dict.fromkeys(woods))}
    # Boards of one thickness and species lie together on the bench.
    bench = sorted(range(len(rows)), key=lambda at: (ranks[woods[at]], at))
    steps: list[Step] = []
    whose: list[tuple[int, int]] = []
    for at in bench:
        start = len(steps)
        for number, (one, period) in enumerate(rows[at]):
            after = one.after + start if one.after >= 0 else -1
            setting = _setting(one, plan.job.when(period))
            steps.append(Step(setting, after, one.round, ranks[woods[at]]))
            whose.append((at, number))
    return steps, whose


def _material(stock: Stock) -> tuple[int, str]:
    return (stock.thickness.nm if stock.thickness else 0, stock.species)


def _setting(one: Sawn, when: int) -> tuple[int, bool, Direction, int]:
    return (when, one.raw.trim, one.raw.direction, one.setting)


def _ordered(job: Job, layout: Layout, row: Row, numbers: Sequence[int]) -> Layout:
    """A layout's cuts by their numbers, each with all that is said of it."""
    stock = next(one for one in job.stock if one.id == layout.stock)
    tree = [one for one, _ in row]
    cuts = []
    for at in sorted(range(len(row)), key=numbers.__getitem__):
        raw = replace(tree[at].raw, setting=tree[at].setting)
        cuts.append(
            replace(
                _cut(raw, job.display),
                of=layout.cuts[at].of,
                number=numbers[at],
                against=against(stock, tree, numbers, at),
                round=tree[at].round,
                period=row[at][1],
            )
        )
    return replace(layout, cuts=tuple(cuts))


def _cut(raw: RawCut, display: Display) -> Cut:
    return Cut(
        raw.direction,
        Length(raw.at),
        Length(raw.kerf),
        area(raw.box),
        _words(raw, display),
        setting=Length(raw.setting),
        trim=raw.trim,
    )


def _words(raw: RawCut, display: Display) -> str:
    size = str(show(Length(raw.setting), display))
    if raw.trim:
        what = "end" if raw.direction is Direction.CROSSCUT else "edge"
        return f"Trim the {what}: {size} off, kerf included"
    if raw.direction is Direction.RIP:
        return f"Rip fence at {size}"
    return f"Crosscut stop at {size}"
