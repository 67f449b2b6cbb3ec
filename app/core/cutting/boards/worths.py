"""The most that any board can bring in at certain values of its pieces.

Any way of straight cuts counts, with as many pieces of a kind as fit, and no
more area of a kind than is wanted of it: so no plan can do better.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from app.core.cutting.boards.kinds import Board, Kinds
from app.core.cutting.effort import Work

# Cells of a table; a coarser grid makes pieces smaller, and the bound still holds.
CELLS, ROWS = 120_000, 160
CELLS_A_LOOK = 12
NOISE = 1e-9


def most_worth(kinds: Kinds, values: Any, meter: Work) -> Any:
    """For each board the most it can bring in."""
    found = np.array([_by_area(kinds, board, values) for board in kinds.boards])
    families: dict[frozenset[int], list[int]] = {}
    for place, board in enumerate(kinds.boards):
        families.setdefault(board.suited, []).append(place)
    for suited, places in families.items():
        table = _Table(kinds, suited, [kinds.boards[n] for n in places], meter)
        worth = table.worth(values)
        for n in places:
            board = kinds.boards[n]
            most = worth[board.width // table.across, board.length // table.along]
            found[n] = min(found[n], float(most))
    return found * (1 + NOISE)


def _by_area(kinds: Kinds, board: Board, values: Any) -> float:
    """The board's area filled with what is worth most for its area."""
    lies = [lie for lie in kinds.lies if lie.kind in board.suited]
    fits = {
        lie.kind
        for lie in lies
        if lie.length <= board.length and lie.width <= board.width
    }
    rate = {kind: float(values[kind]) / float(kinds.areas[kind]) for kind in fits}
    room, total = board.area, 0.0
    for kind in sorted(fits, key=lambda one: -rate[one]):
        area = min(room, float(kinds.areas[kind]) * kinds.wanted[kind])
        total += area * rate[kind]
        room -= area
        if room <= 0:
            break
    return total


class _Table:
    """The worth of every rectangle on a grid, for boards that suit the same kinds."""

    def __init__(
        self, kinds: Kinds, suited: frozenset[int], boards: list[Board], meter: Work
    ) -> None:
        self.lies = [lie for lie in kinds.lies if lie.kind in suited]
        self.meter = meter
        length = max(board.length for board in boards)
        width = max(board.width for board in boards)
        lengths = np.gcd.reduce([lie.length for lie in self.lies])
        widths = np.gcd.reduce([lie.width for lie in self.lies])
        self.across = max(int(widths), -(-width // ROWS))
        rows = width // self.across + 1
        self.along = max(int(lengths), -(-length * rows // CELLS))
        self.shape = (rows, length // self.along + 1)

    def worth(self, values: Any) -> Any:
        """The table: by width, then by length."""
        rows, columns = self.shape
        best = np.zeros(self.shape)
        singles: dict[int, list[tuple[int, float]]] = {}
        for lie in self.lies:
            where = (lie.length // self.along, float(values[lie.kind]))
            singles.setdefault(lie.width // self.across, []).append(where)
        for row in range(1, rows):
            line = best[row - 1].copy()
            for length, value in singles.get(row, ()):
                line[length:] = np.maximum(line[length:], value)
            half = row // 2
            if half:
                both = best[1 : half + 1] + best[row - half : row][::-1]
                np.maximum(line, both.max(axis=0), out=line)
            best[row] = self._along(line)
            self.meter.tick(columns * (half + 20) // CELLS_A_LOOK)
        return best

    def _along(self, line: Any) -> Any:
        """The worth of a row of sections, each worth what ``line`` says."""
        best = line.copy()
        size = len(line)
        steps = np.nonzero(line[1:] > line[:-1] + NOISE)[0] + 1
        for section in steps:
            worth, copies = line[section], 1
            if best[section] > worth + NOISE:
                continue
            while section * copies < size:
                far = section * copies
                tried = best[: size - far] + worth * copies
                np.maximum(best[far:], tried, out=best[far:])
                copies *= 2
        return best
