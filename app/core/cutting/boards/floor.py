"""What no plan can cost less than: the boards it takes to bring in what is wanted.

At any values of the pieces, the boards that are used must together be able to
bring in the value of all that is wanted. A choice of whole boards that keeps to
that for several sets of values at once costs no more than the best plan.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import ceil
from typing import Any

import highspy
import numpy as np

from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.master import ENDLESS, NONE
from app.core.cutting.boards.scales import rows as scaled
from app.core.cutting.boards.worths import Worths
from app.core.cutting.effort import Work
from app.core.cutting.master import quiet

MOST_ROWS, NODES = 16, 2_000
RUN, STEP = 20_000, 20
SAFE = 1e-6


@dataclass
class Floor:
    """Collects sets of values, and what the boards bring in at them."""

    kinds: Kinds
    step: float
    meter: Work
    rows: list[tuple[Any, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.worths = Worths(self.kinds, self.meter)
        areas = self.kinds.areas
        self._add(np.array([board.area for board in self.kinds.boards]), areas)
        for kind in range(len(areas)):
            alone = np.zeros(len(areas))
            alone[kind] = 1.0
            self._add(np.array(self._alone(kind)), alone)
        for values in scaled(self.kinds):
            self._add(np.ones(len(self.kinds.boards)), values)
        self.fixed = len(self.rows)

    def _alone(self, kind: int) -> list[float]:
        """How many pieces of one kind each board holds at most."""
        area = float(self.kinds.areas[kind])
        lies = [lie for lie in self.kinds.lies if lie.kind == kind]
        found = []
        for board in self.kinds.boards:
            fits = kind in board.suited and any(
                lie.length <= board.length and lie.width <= board.width for lie in lies
            )
            most = board.area // area if fits else 0.0
            if fits and len(lies) == 1:
                lie = lies[0]
                most = (board.length // lie.length) * (board.width // lie.width)
            found.append(float(min(most, self.kinds.wanted[kind])))
        return found

    def _add(self, most: Any, values: Any) -> None:
        self.rows.append((most, float(np.dot(values, self.kinds.wanted))))

    def values(self, duals: Any) -> None:
        """Take a set of values into account."""
        if not np.any(duals > 0):
            return
        self._add(self.worths.most(duals), duals)
        if len(self.rows) > self.fixed + MOST_ROWS:
            del self.rows[self.fixed]

    def least(self) -> float:
        """No plan that places all costs less."""
        solver = quiet()
        solver.setOptionValue("mip_max_nodes", NODES)
        for most, wanted in self.rows:
            scale = max(float(most.max()), 1e-12)
            solver.addRow(wanted / scale - SAFE, ENDLESS, *NONE)
        for place, board in enumerate(self.kinds.boards):
            cells = [
                float(most[place]) / max(float(most.max()), 1e-12)
                for most, _ in self.rows
            ]
            used = [n for n, cell in enumerate(cells) if cell]
            there = ENDLESS if board.there is None else float(board.there)
            solver.addCol(
                float(board.money),
                0.0,
                there,
                len(used),
                np.array(used, np.int32),
                np.array([cells[n] for n in used]),
            )
        count = len(self.kinds.boards)
        integer = np.array([highspy.HighsVarType.kInteger] * count)
        solver.changeColsIntegrality(count, np.arange(count, dtype=np.int32), integer)
        solver.run()
        info = solver.getInfo()
        self.meter.tick(
            RUN + STEP * count * (1 + max(info.simplex_iteration_count, 0) // 50)
        )
        bound = float(info.mip_dual_bound)
        if not np.isfinite(bound) or bound <= 0:
            return 0.0
        return max(
            0.0, float(ceil((bound - SAFE * self.step) / self.step - SAFE)) * self.step
        )
