"""Certain boards filled with certain pieces: all of them, or none is left in doubt.

First in parts by the relaxation; then whole layouts by an integer program; then
board after board taken up again with what has no place yet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.master import Master
from app.core.cutting.boards.pricing import Pricer, generate
from app.core.cutting.boards.program import chosen
from app.core.cutting.boards.tree import Column, without
from app.core.cutting.effort import Work

# Blocks kept while growing, rounds of new layouts, layouts for each board.
KEEP, ROUNDS, EACH = 150, 12, 40
# How far values are mixed by chance, and nodes of the programs' searches.
NEAR, NODES, FEW_NODES = 0.15, 60, 20
NOTHING = 1e-7
MOSTLY = 0.7  # of a layout that is wanted, to be of use
# Boards taken up again at a time.
AGAIN = (2, 2, 3)
# Layouts that the program for a whole set may choose from.
FEW = 500


# What waste that is spread costs, in pieces of the largest kind for a board as
# large, and how much dearer a try may be to be taken all the same.
SPREAD, DEARER = 0.05, 0.01
# What may be missing by the relaxation, in pieces of the largest kind.
TOO_MUCH = 0.5


@dataclass(frozen=True, slots=True)
class Filled:
    """Layouts, and how many of each kind found no place in them."""

    columns: list[Column]
    missing: Any


@dataclass(slots=True)
class Filler:
    """Fills sets of boards in one job; what it grows goes into ``pool``."""

    kinds: Kinds
    pricer: Pricer
    pool: dict[tuple[int, bytes], Column]
    meter: Work

    def fill(
        self, wanted: Any, there: Sequence[int | None], tries: int, times: int
    ) -> Filled | None:
        """The fullest layouts found for a set of boards; None where it is too small."""
        worth = self.kinds.areas / self.kinds.areas.max()
        free = [0.0] * len(self.kinds.boards)
        master = Master(self.kinds, free, worth, self.meter)
        known = [one for one in self.pool.values() if there[one.board] != 0]
        for column in usable(self.kinds, known, wanted):
            master.add(column)
        self._relax(master, wanted, there)
        if master.price > TOO_MUCH:
            return None
        best: Filled | None = None
        for _ in range(tries):
            if self.meter.over:
                break
            self._enrich(master, wanted, there, worth)
            placed = self._whole(master, wanted, there, worth)
            if placed is None:
                continue
            found = self._again(placed, worth, times)
            if best is None or found.missing @ worth < best.missing @ worth:
                best = found
            if not best.missing.any():
                break
        return best

    def _relax(self, master: Master, wanted: Any, there: Sequence[int | None]) -> None:
        for _ in range(ROUNDS):
            known = len(master.columns)
            generate(master, self.pricer, wanted, there, 1, KEEP)
            self._note(master.columns[known:])
            if master.price <= NOTHING or self.meter.over:
                return

    def _note(self, columns: Sequence[Column]) -> None:
        for column in columns:
            self.pool.setdefault(column.key, column)

    def _enrich(
        self, master: Master, wanted: Any, there: Sequence[int | None], worth: Any
    ) -> None:
        """Layouts for every board, good by the duals and by their area."""
        duals = master.duals / max(float(master.duals.max()), NOTHING)
        known = len(master.columns)
        for board, number in enumerate(there):
            if number == 0 or self.meter.over:
                continue
            values = (duals + worth) / 2 * self._chance(len(worth))
            for column in self._grown(board, values, wanted, EACH):
                master.add(column)
        self._note(master.columns[known:])

    def _chance(self, count: int) -> Any:
        return self.pricer.dice.uniform(1 - NEAR, 1 + NEAR, count)

    def _grown(self, board: int, values: Any, wanted: Any, count: int) -> list[Column]:
        found = self.pricer.grow(board, values, wanted, 0.0, KEEP, mix=True)
        if found is None:
            return []
        return self.pricer.columns(found, board, count, 0.0)

    def _whole(
        self, master: Master, wanted: Any, there: Sequence[int | None], worth: Any
    ) -> Filled | None:
        columns = self._few(master)
        free = [0.0] * len(columns)
        args = (self.kinds, columns, wanted, there, free, worth)
        found = chosen(*args, self.meter, NODES)
        if found is None:
            return None
        return Filled(exactly(self.kinds, found.laid, wanted), found.missing)

    def _few(self, master: Master) -> list[Column]:
        """The layouts that matter most by the duals, and full ones of the rest."""
        if len(master.columns) <= FEW:
            return master.columns
        waste = np.array(
            [
                1
                - float(one.counts @ self.kinds.areas)
                / self.kinds.boards[one.board].area
                for one in master.columns
            ]
        )
        order = np.argsort(master.saving() + waste / 10, kind="stable")[:FEW]
        return [master.columns[int(place)] for place in order]

    def _again(self, filled: Filled, worth: Any, times: int) -> Filled:
        """Take some boards up again with what is missing, until nothing is."""
        columns, missing = filled.columns, filled.missing
        for _ in range(times):
            if self.meter.over or not columns or not missing.any():
                break
            count = min(len(columns), int(self.pricer.dice.choice(AGAIN)))
            places = self.pricer.dice.choice(len(columns), count, replace=False)
            taken = [columns[int(place)] for place in places]
            rest = sum(column.counts for column in taken) + missing
            found = self._some(taken, rest, worth)
            if found is None:
                continue
            now = missing @ worth + sum(map(self._spread, taken))
            then = found.missing @ worth + sum(map(self._spread, found.columns))
            if then > now + float(self.pricer.dice.random()) * DEARER:
                continue
            stay = [c for n, c in enumerate(columns) if n not in set(map(int, places))]
            columns, missing = stay + found.columns, found.missing
        return Filled(columns, missing)

    def _spread(self, column: Column) -> float:
        """A little for waste that is spread: in one board it may hold one more."""
        area = self.kinds.boards[column.board].area
        waste = 1 - float(column.counts @ self.kinds.areas) / area
        return SPREAD * area / float(self.kinds.areas.max()) * (1 - waste * waste)

    def _some(self, taken: list[Column], rest: Any, worth: Any) -> Filled | None:
        there = [0] * len(self.kinds.boards)
        for column in taken:
            there[column.board] += 1
        layouts = {column.key: column for column in taken}
        for board in {column.board for column in taken}:
            values = worth * self._chance(len(worth))
            for column in self._grown(board, values, rest, EACH):
                layouts.setdefault(column.key, column)
        columns = list(layouts.values())
        prices = [self._spread(column) for column in columns]
        args = (self.kinds, columns, rest, there, prices, worth)
        found = chosen(*args, self.meter, FEW_NODES)
        if found is None:
            return None
        return Filled(exactly(self.kinds, found.laid, rest), found.missing)


def usable(kinds: Kinds, columns: Sequence[Column], wanted: Any) -> list[Column]:
    """The layouts of which the larger part is wanted."""
    if not columns:
        return []
    counts = np.array([one.counts for one in columns])
    good = np.minimum(counts, wanted) @ kinds.areas > counts @ kinds.areas * MOSTLY
    return [columns[int(place)] for place in np.nonzero(good)[0]]


def exactly(kinds: Kinds, columns: Sequence[Column], wanted: Any) -> list[Column]:
    """The layouts without what they hold beyond what is wanted."""
    left = np.array(wanted, np.int64).copy()
    found = []
    for column in columns:
        surplus = np.maximum(column.counts - left, 0)
        counts = column.counts - surplus
        left = left - counts
        if not counts.any():
            continue
        if not surplus.any():
            found.append(column)
            continue
        tree = without(kinds, column.tree, surplus.tolist())
        assert tree is not None
        found.append(Column(column.board, counts, tree))
    return found
