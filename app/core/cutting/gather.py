"""What is left over gathered in few sticks: one long offcut beats three short ones."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import Filling, table
from app.core.cutting.master import Column

# How many sticks are emptied as far as the others can take it.
EMPTIED = 4


def gathered(kinds: Kinds, taken: Sequence[Column], meter: Work) -> list[Column]:
    """The same pieces on the same sticks, or fewer, others filled up first."""
    sticks = list(taken)
    done: set[int] = set()
    for _ in range(min(EMPTIED, len(sticks))):
        waiting = [n for n in range(len(sticks)) if n not in done]
        emptied = max(waiting, key=lambda n: (_left(kinds, sticks[n]), n))
        done.add(emptied)
        for other in range(len(sticks)):
            if meter.over or not sticks[emptied].filling:
                break
            if other not in done and _left(kinds, sticks[other]):
                _fill_up(kinds, sticks, other, emptied, meter)
    return [column for column in sticks if column.filling]


def _left(kinds: Kinds, column: Column) -> int:
    held = sum(kinds.sizes[kind] * n for kind, n in column.filling.items())
    return kinds.sticks[column.stick].room - held


def _fill_up(
    kinds: Kinds, sticks: list[Column], filled: int, emptied: int, meter: Work
) -> None:
    """Fill one stick from both; leave them alone where that gains nothing."""
    into, rest = sticks[filled], sticks[emptied]
    both: Counter[int] = Counter(into.filling)
    both.update(rest.filling)
    suited = kinds.sticks[into.stick].suited
    order = sorted(both)
    sizes = [kinds.sizes[kind] for kind in order]
    wanted = [both[kind] if kind in suited else 0 for kind in order]
    room = kinds.sticks[into.stick].room
    made = table(sizes, wanted, [float(size) for size in sizes], room, meter)
    found: Filling = {order[n]: times for n, times in made.filling(room).items()}
    both.subtract(found)
    others = {kind: n for kind, n in both.items() if n}
    fuller, emptier = Column(into.stick, found), Column(rest.stick, others)
    fits = others.keys() <= kinds.sticks[rest.stick].suited
    if fits and _left(kinds, emptier) > max(_left(kinds, rest), 0):
        sticks[filled], sticks[emptied] = fuller, emptier
