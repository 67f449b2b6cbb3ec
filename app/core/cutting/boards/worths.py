"""The most that any board can bring in at certain values of its pieces.

Any way of straight cuts counts, with as many pieces of a kind as fit, and no
more area of a kind than is wanted of it: so no plan can do better.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.core.cutting.boards.grow import CROSSCUT, RIP
from app.core.cutting.boards.kinds import Board, Kinds
from app.core.cutting.boards.tree import Tree, beside
from app.core.cutting.effort import Work

# Cells of a table; a coarser grid makes pieces smaller, and the bound still holds.
CELLS, ROWS = 300_000, 200
CELLS_A_LOOK = 12
NOISE, NEAR = 1e-9, 1e-7


@dataclass
class Worths:
    """What boards bring in at certain values, and the layouts that do it."""

    kinds: Kinds
    meter: Work

    def __post_init__(self) -> None:
        families: dict[frozenset[int], list[int]] = {}
        for place, board in enumerate(self.kinds.boards):
            families.setdefault(board.suited, []).append(place)
        self._families = [
            (places, _Table(self.kinds, suited, places, self.meter))
            for suited, places in families.items()
        ]

    def most(self, values: Any) -> Any:
        """For each board the most it can bring in."""
        kinds = self.kinds
        found = np.array([_by_area(kinds, board, values) for board in kinds.boards])
        for places, table in self._families:
            table.fill(values)
            for n in places:
                found[n] = min(found[n], table.most(kinds.boards[n]))
        return found * (1 + NOISE)

    def trees(self) -> Iterator[tuple[int, Tree]]:
        """For each board a layout that brings in the most, by the last values.

        Only where the grid is exact: else what fits it need not fit the board.
        """
        for places, table in self._families:
            if not table.exact:
                continue
            for n in places:
                board = self.kinds.boards[n]
                tree = table.tree(
                    board.width // table.across, board.length // table.along
                )
                if tree is not None:
                    yield n, tree


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
        self, kinds: Kinds, suited: frozenset[int], places: list[int], meter: Work
    ) -> None:
        self.lies = [
            (number, lie) for number, lie in enumerate(kinds.lies) if lie.kind in suited
        ]
        self.meter = meter
        length = max(kinds.boards[n].length for n in places)
        width = max(kinds.boards[n].width for n in places)
        lengths = int(np.gcd.reduce([lie.length for _, lie in self.lies]))
        widths = int(np.gcd.reduce([lie.width for _, lie in self.lies]))
        self.across = max(widths, -(-width // ROWS))
        rows = width // self.across + 1
        self.along = max(lengths, -(-length * rows // CELLS))
        self.exact = (self.along, self.across) == (lengths, widths)
        self.shape = (rows, length // self.along + 1)
        self.best = np.zeros(self.shape)

    def most(self, board: Board) -> float:
        """What a board brings in at the values it was filled for."""
        return float(self.best[board.width // self.across, board.length // self.along])

    def fill(self, values: Any) -> None:
        """Work the table out: by width, then by length."""
        rows, columns = self.shape
        best = self.best = np.zeros(self.shape)
        self.values = values
        singles: dict[int, list[tuple[int, float]]] = {}
        for _, lie in self.lies:
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

    def tree(self, row: int, column: int) -> Tree | None:
        """A layout of a rectangle of the grid that brings in what the table says."""
        best = self.best
        least = best[row, column] * (1 - NEAR)
        if least <= NOISE:
            return None
        row = int(np.argmax(best[: row + 1, column] >= least))
        column = int(np.argmax(best[row, : column + 1] >= least))
        for number, lie in self.lies:
            fits = (
                lie.width // self.across <= row and lie.length // self.along <= column
            )
            if fits and self.values[lie.kind] >= least:
                return number
        half = row // 2
        both = best[1 : half + 1, column] + best[row - half : row, column][::-1]
        if half and both.max() >= least:
            cut = int(both.argmax()) + 1
            parts = self.tree(cut, column), self.tree(row - cut, column)
            return beside(RIP, [part for part in parts if part is not None])
        half = column // 2
        both = best[row, 1 : half + 1] + best[row, column - half : column][::-1]
        if half and both.max() >= least:
            cut = int(both.argmax()) + 1
            parts = self.tree(row, cut), self.tree(row, column - cut)
            return beside(CROSSCUT, [part for part in parts if part is not None])
        return None
