"""Of plans for the same money, the one that leaves the most worth keeping."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.core.cutting.boards.fill import exactly
from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.lay import laid_out
from app.core.cutting.boards.pricing import Pricer
from app.core.cutting.boards.program import chosen
from app.core.cutting.boards.tree import Column
from app.core.cutting.effort import Work
from app.core.cutting.job import Job
from app.core.cutting.worth import worth

# Blocks kept, layouts for each board, boards and layouts in all, nodes of the search.
KEEP, EACH, BOARDS, ALL, NODES = 100, 12, 16, 300, 200
MOST = 120  # pieces; larger jobs keep the plan they have
WHOLE = 100.0  # what opening a whole board counts, in the worth of the largest
LEFT_OUT = 1e6
LOOKS = 6_000  # that laying out a layout costs


@dataclass
class Tidier:
    """Goes over a plan that is found, for no more money than it costs."""

    job: Job
    kinds: Kinds
    pricer: Pricer
    meter: Work

    def tidied(self, best: list[Column], pool: Sequence[Column]) -> list[Column]:
        """The plan itself, or one that opens fewer boards or leaves better offcuts."""
        if not best or self.kinds.pieces > MOST or self.meter.over:
            return best
        layouts = {one.key: one for one in best}
        for column in [*self._grown(best), *pool]:
            if len(layouts) >= ALL:
                break
            layouts.setdefault(column.key, column)
        columns = list(layouts.values())
        prices = [self._price(one) for one in columns]
        money = [float(self.kinds.boards[one.board].money) for one in columns]
        most = sum(float(self.kinds.boards[one.board].money) for one in best)
        wanted = np.array(self.kinds.wanted, np.int64)
        missing = np.full(len(wanted), LEFT_OUT)
        args = (self.kinds, columns, wanted, self.kinds.there(), prices, missing)
        found = chosen(*args, self.meter, NODES, best, (most, money))
        if found is None or found.missing.any():
            return best
        exact = exactly(self.kinds, found.laid, wanted)
        if not all(self.pricer.can_be_sawn(one) for one in exact):
            return best
        return exact if self._sum(exact) < self._sum(best) else best

    def _sum(self, columns: Sequence[Column]) -> float:
        return sum(map(self._price, columns))

    def _price(self, column: Column) -> float:
        """What a layout takes from the rack for good, whole boards first.

        In the worth of the largest board: what it was worth if it was here, less
        what its leftovers are worth. A bought board is paid for in money.
        """
        board = self.kinds.boards[column.board]
        place = board.stock[0]
        self.meter.tick(LOOKS)
        made = laid_out(self.job, self.kinds, place, column.tree)
        assert made is not None
        left = sum(worth(box[2], box[3], self.job) for box in made.waste)
        largest = max(one.area for one in self.kinds.boards)
        taken = (board.worth - left) / largest
        return taken + (0.0 if self.job.stock[place].offcut else WHOLE)

    def _grown(self, best: Sequence[Column]) -> list[Column]:
        """Layouts of boards in use, and of those that are here already."""
        used = list(dict.fromkeys(one.board for one in best))
        here = [n for n, one in enumerate(self.kinds.boards) if not one.money]
        found: list[Column] = []
        areas: Any = self.kinds.areas
        for board in list(dict.fromkeys([*used, *here]))[:BOARDS]:
            values = areas * self.pricer.dice.uniform(0.97, 1.03, len(areas))
            wanted = np.array(self.kinds.wanted)
            blocks = self.pricer.grow(board, values, wanted, 0.0, KEEP, mix=True)
            if blocks is not None:
                found += self.pricer.columns(blocks, board, EACH, 0.0)
        return found
