"""Direct models in a general constraint solver: which piece lies on which board.

In two dimensions the pieces must not overlap, but need not come off a saw: the
model is easier than the job, and still what a person would write down first. The
solver is optional (``pip install -e '.[benchmark]'``); without it there is no row.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from importlib.util import find_spec
from threading import Event, Thread
from typing import Any

from tests.benchmarks.cutting.decreasing import boards, sticks
from tests.benchmarks.cutting.measuring import clock
from tests.core.cutting.published import Instance

THERE = find_spec("ortools") is not None
# A model of more choices than this is not built: it would take all the time.
CHOICES = 60_000


@dataclass(frozen=True)
class Board:
    """One piece of stock of its own: with a kerf more each way."""

    length: int
    width: int
    cost: int


def opened(instance: Instance, most: int) -> list[Board]:
    """Every board that a plan no dearer than ``most`` could use."""
    kerf, found = instance["kerf"], []
    asked = sum(one["quantity"] for one in instance["items"])
    for one in instance["stock"]:
        limit = asked if one["quantity"] is None else one["quantity"]
        if one["cost"]:
            limit = min(limit, most // one["cost"])
        wide = one["width"] + kerf if "width" in one else 1
        board = Board(one["length"] + kerf, wide, one["cost"])
        found += [board] * min(limit, asked)
    return found


def lengths(instance: Instance, seconds: float) -> int | None:
    """A plan of lengths: how many of each kind come out of each stick."""
    return _solved(instance, seconds, sticks(instance, best_fit=True), _counted)


def rectangles(instance: Instance, seconds: float) -> int | None:
    """A plan of boards: where each piece lies, and on which board."""
    return _solved(instance, seconds, boards(instance, best_fit=True), _laid)


def _solved(instance: Instance, seconds: float, most: int | None, build: Any) -> Any:
    """The cost of the best plan found, with a fifth more stock than best fit needs."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  optional

    if most is None:
        return None
    left, model = clock(seconds), cp_model.CpModel()
    # As many boards as best fit opens and no more make a first plan hard to find.
    there = opened(instance, most * 6 // 5)
    if len(there) * len(instance["items"]) > CHOICES:
        return None
    used = build(model, instance, there)
    cost = sum(board.cost * one for board, one in zip(there, used, strict=True))
    model.minimize(cost)
    _alike(model, there, used)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    # The time of the wall would be another on a busy machine.
    solver.parameters.max_time_in_seconds = 10 * seconds
    with Stopped(left, solver.stop_search):
        status = solver.solve(model)
    if status in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return round(solver.objective_value)
    return None


@dataclass
class Stopped:
    """Stops a solver once the seconds of the processor are over."""

    left: Any
    stop: Any
    done: Event = field(default_factory=Event)

    def __enter__(self) -> None:
        Thread(target=self._wait, daemon=True).start()

    def __exit__(self, *_: object) -> None:
        self.done.set()

    def _wait(self) -> None:
        while not self.done.wait(0.02):
            if self.left() <= 0:
                self.stop()


def _alike(model: Any, there: list[Board], used: list[Any]) -> None:
    """Of equal boards the first ones are used first."""
    for n in range(1, len(there)):
        if there[n] == there[n - 1]:
            model.add(used[n] <= used[n - 1])


def _counted(model: Any, instance: Instance, there: list[Board]) -> list[Any]:
    kerf = instance["kerf"]
    used = [model.new_bool_var("") for _ in there]
    rooms: list[list[Any]] = [[] for _ in there]
    for one in instance["items"]:
        size, times = one["length"] + kerf, one["quantity"]
        held = []
        for n, board in enumerate(there):
            often = model.new_int_var(0, min(times, board.length // size), "")
            rooms[n].append(size * often)
            held.append(often)
        model.add(sum(held) == times)
    for n, board in enumerate(there):
        model.add(sum(rooms[n]) <= board.length * used[n])
    return used


def _laid(model: Any, instance: Instance, there: list[Board]) -> list[Any]:
    kerf = instance["kerf"]
    used = [model.new_bool_var("") for _ in there]
    across: list[tuple[list[Any], list[Any]]] = [([], []) for _ in there]
    for one in instance["items"]:
        for _ in range(one["quantity"]):
            size = (one["length"] + kerf, one["width"] + kerf)
            _piece(model, size, there, used, across)
    for xs, ys in across:
        model.add_no_overlap_2d(xs, ys)
    return used


def _piece(
    model: Any,
    size: tuple[int, int],
    there: list[Board],
    used: list[Any],
    across: list[tuple[list[Any], list[Any]]],
) -> None:
    """One piece on one of the boards that hold it."""
    here = []
    for n, board in enumerate(there):
        if size[0] > board.length or size[1] > board.width:
            continue
        lies = model.new_bool_var("")
        model.add_implication(lies, used[n])
        here.append(lies)
        for which, room in enumerate((board.length, board.width)):
            at = model.new_int_var(0, room - size[which], "")
            span = model.new_optional_fixed_size_interval_var(at, size[which], lies, "")
            across[n][which].append(span)
    model.add_exactly_one(here)
