"""A direct arc-flow model of a job of lengths, in the solver that the planner uses.

Every place on a stick is a node, every piece an arc, every stick a flow. Pieces are
laid from the longest to the shortest, so that equal sticks are equal paths.
Source: Valério de Carvalho (1999), Annals of Operations Research 86, 629-659.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from math import gcd
from typing import Any

import highspy
import numpy as np

from tests.benchmarks.cutting.direct import Stopped
from tests.benchmarks.cutting.measuring import clock
from tests.core.cutting.published import Instance

# A model of more arcs than this is not built: its first relaxation takes all the time.
ARCS = 400_000
FEASIBLE = 2


class TooLarge(Exception):
    """The model would have too many arcs."""


@dataclass
class Flow:
    """Arcs as (from, to, kind), kind -1 for waste; ``ends`` are sticks by room."""

    arcs: set[tuple[int, int, int]] = field(default_factory=set)
    ends: dict[int, list[tuple[int, int | None]]] = field(default_factory=dict)


def network(instance: Instance) -> tuple[Flow, list[int]]:
    """The arcs, and how many of each kind are wanted."""
    kerf, demand = instance["kerf"], defaultdict[int, int](int)
    for one in instance["items"]:
        demand[one["length"] + kerf] += one["quantity"]
    sizes = sorted(demand, reverse=True)
    step = gcd(*sizes)
    made = Flow()
    for one in instance["stock"]:
        room = (one["length"] + kerf) // step
        made.ends.setdefault(room, []).append((one["cost"], one["quantity"]))
    longest = max(made.ends)
    reached = np.zeros(longest + 1, bool)
    reached[0] = True
    for kind, size in enumerate(sizes):
        _laid(made, kind, size // step, demand[size], reached)
    _waste(made, reached)
    return made, [demand[size] for size in sizes]


def _laid(made: Flow, kind: int, size: int, times: int, reached: Any) -> None:
    """Arcs of a kind, from wherever longer pieces may end."""
    start = np.flatnonzero(reached)
    for _ in range(times):
        start = start[start + size < len(reached)]
        if not len(start):
            return
        before = len(made.arcs)
        made.arcs.update((int(at), int(at) + size, kind) for at in start)
        if len(made.arcs) > ARCS:
            raise TooLarge
        start = start + size
        reached[start] = True
        if len(made.arcs) == before:
            return


def _waste(made: Flow, reached: Any) -> None:
    """What is left over runs on to the next end of a stick, and to longer ones."""
    ends = sorted(made.ends)
    for at in {*map(int, np.flatnonzero(reached)), *ends}:
        after = next((end for end in ends if end > at), None)
        if after is not None and at:
            made.arcs.add((at, after, -1))


def lengths(instance: Instance, seconds: float) -> int | None:
    """The cost of the best plan that the model gives in time, or None."""
    left = clock(seconds)
    try:
        made, wanted = network(instance)
    except TooLarge:
        return None
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    # Only this limit is looked at in the first relaxation; it is one of the wall.
    solver.setOptionValue("time_limit", 2 * seconds)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.passModel(_model(made, wanted))
    solver.HandleUserInterrupt = True
    with Stopped(left, solver.cancelSolve):
        solver.solve()
    info = solver.getInfo()
    if info.primal_solution_status != FEASIBLE:
        return None
    return round(info.objective_function_value)


def _model(made: Flow, wanted: list[int]) -> Any:
    """Rows: flow at every node but the first, then the pieces wanted."""
    arcs = sorted(made.arcs)
    nodes = sorted({end for _, end, _ in arcs} | set(made.ends))
    row = {node: n for n, node in enumerate(nodes)}
    start, index, value = [0], list[int](), list[float]()
    cost, upper = list[float](), list[float]()
    for begin, end, kind in arcs:
        if begin:
            index.append(row[begin])
            value.append(-1.0)
        index.append(row[end])
        value.append(1.0)
        if kind >= 0:
            index.append(len(nodes) + kind)
            value.append(1.0)
        start.append(len(index))
        cost.append(0.0)
        upper.append(float(wanted[kind]) if kind >= 0 else highspy.kHighsInf)
    for room, kinds in made.ends.items():
        for price, quantity in kinds:
            index.append(row[room])
            value.append(-1.0)
            start.append(len(index))
            cost.append(float(price))
            upper.append(highspy.kHighsInf if quantity is None else float(quantity))
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(cost), len(nodes) + len(wanted)
    model.col_cost_, model.col_upper_ = np.array(cost), np.array(upper)
    model.col_lower_ = np.zeros(len(cost))
    low = [0.0] * len(nodes) + [float(n) for n in wanted]
    model.row_lower_ = np.array(low)
    high = [0.0] * len(nodes) + [highspy.kHighsInf] * len(wanted)
    model.row_upper_ = np.array(high)
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = np.array(start, np.int32)
    model.a_matrix_.index_ = np.array(index, np.int32)
    model.a_matrix_.value_ = np.array(value)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(cost)
    return model
