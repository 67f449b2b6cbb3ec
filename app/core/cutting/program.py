"""Whole numbers of the fillings known so far: an integer program for what is left."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import Any

import highspy
import numpy as np

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.master import Column, quiet
from app.core.cutting.price import Prices
from app.core.cutting.sequence import Rest

# Looks that a run of the solver costs, and a step of its simplex per column.
RUN, STEP = 40_000, 2
# How the solver marks a solution that keeps to every row.
FEASIBLE = 2


class Outcome(Enum):
    """What an integer program came to."""

    BETTER = "a cheaper plan"
    BEST = "the cheapest plan that these fillings make"
    NONE = "these fillings make no cheaper plan"
    UNKNOWN = "no answer within its limits"


def programmed(
    kinds: Kinds,
    prices: Prices,
    rest: Rest,
    columns: Sequence[Column],
    most: float,
    meter: Work,
    nodes: int,
) -> Outcome:
    """Place all that ``rest`` wants so that the whole plan costs at most ``most``.

    ``rest`` is changed only where that succeeds. A fresh model each time: one that
    was solved without whole numbers before may answer wrongly.
    """
    usable = [
        column
        for column in columns
        if rest.there[column.stick] != 0
        and any(rest.wanted[kind] for kind in column.filling)
    ]
    solver = quiet()
    room = most - rest.price(prices)
    solver.passModel(_model(kinds, prices, rest, usable, room))
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    if prices.loose == 0:
        solver.setOptionValue("objective_target", room)
    if meter.left is not None:
        solver.setOptionValue("time_limit", max(meter.left(), 0.02))
    solver.run()
    info = solver.getInfo()
    meter.tick(RUN + max(info.simplex_iteration_count, 1) * len(usable) // STEP)
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Outcome.NONE
    if info.primal_solution_status != FEASIBLE:
        return Outcome.UNKNOWN
    for column, often in zip(usable, solver.getSolution().col_value, strict=True):
        rest.take(column, round(often))
    best = status == highspy.HighsModelStatus.kOptimal
    return Outcome.BEST if best else Outcome.BETTER


def _model(
    kinds: Kinds, prices: Prices, rest: Rest, usable: list[Column], room: float
) -> Any:
    """Columns one by one: pieces wanted in rows, sticks that are limited, the price."""
    rows = {kind: row for row, kind in enumerate(_open(rest.wanted))}
    limits = [n for n, there in enumerate(rest.there) if there is not None]
    stick_rows = {stick: len(rows) + n for n, stick in enumerate(limits)}
    start, index, value = [0], [], []
    for column in usable:
        for kind, n in column.filling.items():
            if kind in rows:
                index.append(rows[kind])
                value.append(float(n))
        if column.stick in stick_rows:
            index.append(stick_rows[column.stick])
            value.append(1.0)
        index.append(len(rows) + len(limits))
        value.append(prices.each[column.stick])
        start.append(len(index))
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(usable), len(rows) + len(limits) + 1
    model.col_cost_ = np.array([prices.each[column.stick] for column in usable])
    model.col_lower_ = np.zeros(len(usable))
    model.col_upper_ = np.full(len(usable), highspy.kHighsInf)
    there = [float(rest.there[stick] or 0) for stick in limits]
    low = [float(rest.wanted[kind]) for kind in rows]
    model.row_lower_ = np.array(low + [-highspy.kHighsInf] * (len(limits) + 1))
    model.row_upper_ = np.array([highspy.kHighsInf] * len(rows) + [*there, room])
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = np.array(start, np.int32)
    model.a_matrix_.index_ = np.array(index, np.int32)
    model.a_matrix_.value_ = np.array(value)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(usable)
    return model


def _open(wanted: Sequence[int]) -> list[int]:
    return [kind for kind, number in enumerate(wanted) if number]
