"""Filling one stick with the pieces that are worth most together.

A table over all lengths up to the longest stick answers for every stick at
once. Lengths are whole steps of the job's grid.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from app.core.cutting.effort import Work

# A look's worth of table cells, and the looks that each row costs at least.
CELLS = 100
ROW = 30
# Less than this is no gain but noise of floating point.
NOISE = 1e-12

Filling = dict[int, int]


@dataclass(slots=True)
class Table:
    """The worth of the best filling for each length, and how to read it back."""

    worth: Any
    rows: list[tuple[int, int, int, Any]] = field(default_factory=list)

    def filling(self, room: int) -> Filling:
        """How many of each kind the best filling of this room holds."""
        found: Filling = {}
        for kind, times, taken, better in reversed(self.rows):
            if room >= taken and better[room - taken]:
                found[kind] = found.get(kind, 0) + times
                room -= taken
        return found


def table(
    sizes: Sequence[int],
    wanted: Sequence[int],
    values: Sequence[float],
    room: int,
    meter: Work,
) -> Table:
    """The table up to ``room``; kinds without value or demand are left out."""
    best = np.zeros(room + 1)
    made = Table(best)
    for kind, times in _bundles(sizes, wanted, values, room):
        taken = sizes[kind] * times
        tried = best[: room + 1 - taken] + values[kind] * times
        rest = best[taken:]
        better = tried > rest + NOISE
        np.maximum(rest, tried, out=rest)
        made.rows.append((kind, times, taken, better))
        meter.tick(ROW + room // CELLS)
    return made


def exact_worth(
    sizes: Sequence[int], wanted: Sequence[int], values: Sequence[int], room: int
) -> Any:
    """The worth of the best filling for each length, in whole numbers, exactly."""
    best = np.zeros(room + 1, dtype=np.int64)
    for kind, times in _bundles(sizes, wanted, values, room):
        taken = sizes[kind] * times
        tried = best[: room + 1 - taken] + values[kind] * times
        np.maximum(best[taken:], tried, out=best[taken:])
    return best


def _bundles(
    sizes: Sequence[int], wanted: Sequence[int], values: Sequence[float], room: int
) -> list[tuple[int, int]]:
    """Kinds in bundles of 1, 2, 4 …, so that any number up to the demand adds up."""
    found = []
    for kind, size in enumerate(sizes):
        if values[kind] <= NOISE or size > room:
            continue
        left, times = min(wanted[kind], room // size), 1
        while left > 0:
            taken = min(times, left)
            found.append((kind, taken))
            left -= taken
            times *= 2
    return found
