"""The linear program over the layouts known so far, and its duals."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import highspy
import numpy as np

from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.tree import Column
from app.core.cutting.effort import Work
from app.core.cutting.master import quiet

# Looks that a run of the solver costs, and a step of it by rows and columns.
RUN, STEP = 2_500, 3
NONE = (0, np.array([], np.int32), np.array([]))
ENDLESS = highspy.kHighsInf


def rows_of(column: Column, kinds: int) -> tuple[Any, Any]:
    """The rows a column stands in, and with what: its kinds, then its board."""
    held = np.nonzero(column.counts)[0]
    rows = np.append(held, kinds + column.board).astype(np.int32)
    return rows, np.append(column.counts[held], 1).astype(float)


class Master:
    """The program: each piece at least as often as wanted, no board too often.

    ``prices`` are what the boards cost here, ``missing`` what each kind's piece
    costs that is left out. After ``run``: ``price``, ``often`` for each column,
    ``duals`` of the kinds and ``scarce`` of the boards, at most 0.
    """

    def __init__(
        self, kinds: Kinds, prices: Sequence[float], missing: Any, meter: Work
    ) -> None:
        """The program without a layout: every piece is left out."""
        self.kinds, self.prices, self.meter = kinds, prices, meter
        self.columns: list[Column] = []
        self._known: set[tuple[int, bytes]] = set()
        self._size = len(kinds.wanted)
        self._solver = quiet()
        for wanted in kinds.wanted:
            self._solver.addRow(float(wanted), ENDLESS, *NONE)
        for board in kinds.boards:
            self._solver.addRow(-ENDLESS, _most(board.there), *NONE)
        for kind in range(self._size):
            self._column(float(missing[kind]), [kind], [1.0])
        self.price = 0.0
        self.often = np.zeros(0)
        self.duals, self.scarce = np.zeros(self._size), np.zeros(len(kinds.boards))

    def _column(self, price: float, rows: Any, cells: Any) -> None:
        self._solver.addCol(
            price,
            0.0,
            ENDLESS,
            len(rows),
            np.array(rows, np.int32),
            np.array(cells, float),
        )

    def add(self, column: Column) -> bool:
        """Take a layout in; False if it is known or empty."""
        if column.key in self._known or not column.counts.any():
            return False
        self._known.add(column.key)
        self.columns.append(column)
        self._column(self.prices[column.board], *rows_of(column, self._size))
        return True

    def ask(self, wanted: Any, there: Sequence[int | None]) -> None:
        """Change what is still wanted and what boards are still there."""
        for kind, number in enumerate(wanted):
            self._solver.changeRowBounds(kind, float(number), ENDLESS)
        for board, left in enumerate(there):
            row = self._size + board
            self._solver.changeRowBounds(row, -ENDLESS, _most(left))

    def run(self) -> None:
        """Solve it."""
        self._solver.run()
        found, info = self._solver.getSolution(), self._solver.getInfo()
        steps = max(info.simplex_iteration_count, 1)
        self.meter.tick(RUN + steps * (self._size + len(self.columns) // 4) // STEP)
        self.price = info.objective_function_value
        self.often = np.array(found.col_value)[self._size :]
        duals = np.array(found.row_dual)
        self.duals = np.maximum(duals[: self._size], 0)
        self.scarce = np.minimum(duals[self._size :], 0)

    def saving(self) -> Any:
        """What each column would cost beyond what it brings in, by the duals."""
        return np.array(
            [
                self.prices[one.board]
                - float(np.dot(self.duals, one.counts))
                - self.scarce[one.board]
                for one in self.columns
            ]
        )


def _most(there: int | None) -> float:
    return ENDLESS if there is None else float(there)
