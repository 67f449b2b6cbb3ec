"""What a maker writes on the wood: which board it is, which offcut of which board."""

from __future__ import annotations

from collections import Counter
from string import ascii_lowercase

from app.core.cutting.plan import Layout, Plan
from app.core.cutting.spans import spans


def board_names(plan: Plan) -> tuple[str, ...]:
    """A name for the board of each layout: its label, ``S1 no. 2`` among equal ones.

    Copies of a layout have one name: ``S1 no. 2–4``. A stock that is cut up in one
    way only needs no numbers.
    """
    ways = Counter(layout.stock for layout in plan.layouts)
    labels = {one.id: one.name or one.id for one in plan.job.stock}
    used: Counter[str] = Counter()
    names = []
    for layout in plan.layouts:
        label = labels[layout.stock]
        if ways[layout.stock] > 1:
            first = used[layout.stock] + 1
            used[layout.stock] += layout.copies
            which = spans(range(first, first + layout.copies))
            label = f"{label} no. {which}"
        names.append(label)
    return tuple(names)


def offcut_names(plan: Plan) -> tuple[tuple[str, ...], ...]:
    """A name for each leftover of each layout, empty for scrap: ``C1-a``, ``C1-b``.

    Letters run from left to right and down each board, and on through the boards
    of one label. What a later period cuts up has a name too: until then it lies on
    the rack. Copies of a layout share theirs: their offcuts are the same.
    """
    labels = {one.id: one.name or one.id for one in plan.job.stock}
    used: Counter[str] = Counter()
    return tuple(_named(one, labels[one.stock], used) for one in plan.layouts)


def _named(layout: Layout, label: str, used: Counter[str]) -> tuple[str, ...]:
    names = [""] * len(layout.leftovers)
    kept = [n for n, one in enumerate(layout.leftovers) if one.keep]

    def place(number: int) -> tuple[int, int, int]:
        area = layout.leftovers[number].area
        return (area.x.nm, area.y.nm, -area.length.nm)

    for number in sorted(kept, key=place):
        names[number] = f"{label}-{small_letters(used[label])}"
        used[label] += 1
    return tuple(names)


def small_letters(number: int) -> str:
    """A to z, then aa; numbers from 0."""
    before, last = divmod(number, len(ascii_lowercase))
    return (small_letters(before - 1) if before else "") + ascii_lowercase[last]
