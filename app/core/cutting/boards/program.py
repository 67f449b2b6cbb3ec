"""Integer programs over layouts: which to use, and which boards at least."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np

from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.master import ENDLESS, NONE, rows_of
from app.core.cutting.boards.tree import Column
from app.core.cutting.effort import Work
from app.core.cutting.master import quiet

RUN, STEP = 20_000, 20
FEASIBLE = 2  # how the solver marks a solution that keeps to every row
LONGEST = 2.5  # seconds, where the caller has a clock


@dataclass(frozen=True, slots=True)
class Chosen:
    """Columns with how often each, and how many of each kind are left out."""

    columns: tuple[Column, ...]
    often: Any
    missing: Any

    @property
    def laid(self) -> list[Column]:
        """Each column as often as it was chosen."""
        return [
            column
            for column, times in zip(self.columns, self.often, strict=True)
            for _ in range(int(times))
        ]


def _solver(kinds: Kinds, wanted: Any, there: Sequence[float], meter: Work) -> Any:
    solver = quiet()
    solver.setOptionValue("mip_rel_gap", 0.0)
    if meter.left is not None:
        solver.setOptionValue("time_limit", min(LONGEST, max(0.05, meter.left())))
    for number in wanted:
        solver.addRow(float(number), ENDLESS, *NONE)
    for most in there:
        solver.addRow(-ENDLESS, most, *NONE)
    return solver


def _add(solver: Any, price: float, most: float, rows: Any, cells: Any) -> None:
    solver.addCol(
        price, 0.0, most, len(rows), np.array(rows, np.int32), np.array(cells, float)
    )


def _whole(solver: Any, start: int, count: int) -> None:
    places = np.arange(start, start + count, dtype=np.int32)
    integer = np.array([highspy.HighsVarType.kInteger] * count)
    solver.changeColsIntegrality(count, places, integer)


def _solved(solver: Any, meter: Work, columns: int, nodes: int) -> Any:
    """The values of the columns, or None without an answer."""
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.run()
    info = solver.getInfo()
    steps = max(info.simplex_iteration_count, 0)
    meter.tick(RUN + STEP * columns * (1 + steps // 100))
    if info.primal_solution_status != FEASIBLE:
        return None
    return np.array(solver.getSolution().col_value)


def chosen(
    kinds: Kinds,
    columns: Sequence[Column],
    wanted: Any,
    there: Sequence[int | None],
    prices: Sequence[float],
    missing: Any,
    meter: Work,
    nodes: int,
    start: Sequence[Column] = (),
    money: tuple[float, Sequence[float]] | None = None,
) -> Chosen | None:
    """The least in price, each piece placed or left out at what ``missing`` says.

    ``prices`` are the columns', one each. ``money``: the most that they may cost
    together, and what each does.
    ``start`` is an answer to go on from: columns that are among ``columns``.
    """
    size = len(kinds.wanted)
    limits = [ENDLESS if n is None else float(n) for n in there]
    solver = _solver(kinds, wanted, limits, meter)
    for kind in range(size):
        _add(solver, float(missing[kind]), float(wanted[kind]), [kind], [1.0])
    most = float(max(wanted))
    if money:
        solver.addRow(-ENDLESS, money[0], *NONE)
    for number, (column, price) in enumerate(zip(columns, prices, strict=True)):
        rows, cells = rows_of(column, size)
        if money:
            rows = np.append(rows, size + len(there))
            cells = np.append(cells, money[1][number])
        _add(solver, price, most, rows, cells)
    _whole(solver, 0, size + len(columns))
    if start:
        _begin_with(solver, size, columns, start)
    values = _solved(solver, meter, len(columns), nodes)
    if values is None:
        return None
    whole = np.rint(values).astype(np.int64)
    return Chosen(tuple(columns), whole[size:], whole[:size])


def _begin_with(
    solver: Any, size: int, columns: Sequence[Column], start: Sequence[Column]
) -> None:
    often = Counter(column.key for column in start)
    begin = highspy.HighsSolution()
    begin.col_value = [0.0] * size + [float(often[one.key]) for one in columns]
    solver.setSolution(begin)


def boards_for(
    kinds: Kinds,
    columns: Sequence[Column],
    wanted: Any,
    there: Sequence[int | None],
    money: tuple[float, float],
    meter: Work,
    barred: Sequence[frozenset[int]] = (),
) -> dict[int, int] | None:
    """The boards of least money whose layouts, in parts, give all that is wanted.

    ``money`` is the least and the most they may cost. ``barred``: sets of boards
    of which none may be all that is used. Free boards are not in the answer.
    """
    size, count = len(kinds.wanted), len(kinds.boards)
    solver = _solver(kinds, wanted, [0.0] * count, meter)
    solver.addRow(*money, *NONE)
    for _ in barred:
        solver.addRow(1.0, ENDLESS, *NONE)
    for place, board in enumerate(kinds.boards):
        rows, cells = [size + place, size + count], [-1.0, float(board.money)]
        for number, these in enumerate(barred):
            if place not in these:
                rows.append(size + count + 1 + number)
                cells.append(1.0)
        number_there = there[place]
        most = ENDLESS if number_there is None else float(number_there)
        _add(solver, float(board.money), most, rows, cells)
    for column in columns:
        _add(solver, 0.0, ENDLESS, *rows_of(column, size))
    _whole(solver, 0, count)
    values = _solved(solver, meter, len(columns), 500)
    if values is None:
        return None
    whole = np.rint(values[:count]).astype(int)
    return {
        place: int(n)
        for place, n in enumerate(whole)
        if n and kinds.boards[place].money
    }
