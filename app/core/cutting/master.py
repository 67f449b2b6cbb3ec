"""The linear program over the fillings known so far, and its duals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np
from highspy._core import _Highs

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import Filling
from app.core.cutting.price import Prices

# A piece left out costs this many of the dearest sticks, more if it is long.
MISSING = 10.0
# Looks that a run of the solver costs, and a step of it by rows and columns.
RUN, STEP = 2_500, 3


@dataclass(frozen=True, slots=True)
class Column:
    """One way to fill one stick."""

    stick: int
    filling: Filling

    @property
    def key(self) -> tuple[int, tuple[tuple[int, int], ...]]:
        """Equal columns have equal keys."""
        return self.stick, tuple(sorted(self.filling.items()))


def quiet() -> Any:
    """A solver that works alone, says nothing and always goes the same way."""
    # The class above this one greets on standard output before it can be told not to.
    solver = _Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 1)
    return solver


class Master:
    """The program: each piece at least as often as wanted, no stick too often.

    After ``run``: ``price``, and for each column how often, the duals of the
    pieces and of the limited sticks.
    """

    def __init__(self, kinds: Kinds, prices: Prices, meter: Work) -> None:
        """The program without a filling: every piece is left out."""
        self.kinds, self.prices, self.meter = kinds, prices, meter
        self.columns: list[Column] = []
        self._known: set[Any] = set()
        self._solver = quiet()
        self._rows: dict[int, int] = {}
        self._begin()
        self.price = 0.0
        self.often = self.duals = self.scarce = np.zeros(0)

    def _begin(self) -> None:
        none = (0, np.array([], np.int32), np.array([]))
        for wanted in self.kinds.wanted:
            self._solver.addRow(float(wanted), highspy.kHighsInf, *none)
        for stick in range(len(self.kinds.sticks)):
            limit = self.kinds.limit(stick)
            if limit is not None:
                self._rows[stick] = len(self.kinds.wanted) + len(self._rows)
                self._solver.addRow(-highspy.kHighsInf, float(limit), *none)
        for kind in range(len(self.kinds.sizes)):
            self._column(_missing(self.kinds, kind), [kind], [1.0])

    def _column(self, price: float, rows: list[int], cells: list[float]) -> None:
        self._solver.addCol(
            price,
            0.0,
            highspy.kHighsInf,
            len(rows),
            np.array(rows, np.int32),
            np.array(cells),
        )

    def add(self, column: Column) -> bool:
        """Take a filling in; False if it is known or empty."""
        if not column.filling or column.key in self._known:
            return False
        self._known.add(column.key)
        self.columns.append(column)
        rows, cells = list(column.filling), [float(n) for n in column.filling.values()]
        if column.stick in self._rows:
            rows.append(self._rows[column.stick])
            cells.append(1.0)
        self._column(self.prices.each[column.stick], rows, cells)
        return True

    def ask(self, wanted: Sequence[int], there: Sequence[int | None]) -> None:
        """Change what is still wanted and what sticks are still there."""
        for kind, number in enumerate(wanted):
            self._solver.changeRowBounds(kind, float(number), highspy.kHighsInf)
        for stick, row in self._rows.items():
            limit = float(there[stick] or 0)
            self._solver.changeRowBounds(row, -highspy.kHighsInf, limit)

    def run(self) -> None:
        """Solve it."""
        self._solver.run()
        found, info = self._solver.getSolution(), self._solver.getInfo()
        size = len(self.kinds.sizes)
        steps = max(info.simplex_iteration_count, 1)
        self.meter.tick(RUN + steps * (size + len(self.columns) // 4) // STEP)
        self.price = info.objective_function_value
        self.often = np.array(found.col_value)[size:]
        duals = np.array(found.row_dual)
        self.duals = np.maximum(duals[:size], 0)
        self.scarce = np.zeros(len(self.kinds.sticks))
        for stick, row in self._rows.items():
            self.scarce[stick] = min(duals[row], 0)

    def left_out(self) -> bool:
        """Whether the last answer leaves pieces out."""
        values = self._solver.getSolution().col_value[: len(self.kinds.sizes)]
        return float(sum(values)) > 1e-6


def missing(kinds: Kinds, left: Sequence[int]) -> float:
    """The price of the pieces that are left out."""
    return sum(_missing(kinds, kind) * number for kind, number in enumerate(left))


def _missing(kinds: Kinds, kind: int) -> float:
    return MISSING * (1 + kinds.sizes[kind] / max(kinds.sizes))
