"""The table of all rectangles against published optima, and against itself."""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest

from app.core.cutting.boards import worths
from app.core.cutting.boards.kinds import Board, Kinds, Lie, Limits
from app.core.cutting.boards.tree import counted, size
from app.core.cutting.boards.worths import Worths
from app.core.cutting.effort import Work
from tests.conftest import shared

LIMITS = Limits(0, None, "either", 0, 0, None, None, None)
# One plate, pieces by value, any number of each: optima of the published set of
# classic guillotine knapsacks (gcut: Beasley 1985, J. Oper. Res. Soc. 36:297-306),
# as the README beside the instances tells.
PLATES = ("gcut1", "gcut3", "gcut5", "gcut6")
ENDLESS = 10_000


def plate(instance: dict[str, Any], wanted: int) -> tuple[Kinds, Any]:
    [stock], items = instance["stock"], instance["items"]
    lies = tuple(
        Lie(n, one["length"], one["width"], turned=False) for n, one in enumerate(items)
    )
    every = frozenset(range(len(items)))
    board = Board(stock["length"], stock["width"], None, 1, 0, (0,), every)
    count = len(items)
    numbers = tuple((n,) for n in range(count))
    kinds = Kinds(lies, (wanted,) * count, numbers, (0,) * count, (board,), LIMITS)
    return kinds, np.array([float(one["value"]) for one in items])


def published(name: str) -> tuple[dict[str, Any], float]:
    path = shared("benchmarks/cutting") / "guillotine_knapsack_classic.json"
    found = json.loads(path.read_text(encoding="utf-8"))
    instance = next(one for one in found if one["name"] == name)
    [known] = [one for one in instance["known"] if "unconstrained" in one["variant"]]
    return instance, float(known["optimum"])


@pytest.mark.parametrize("name", PLATES)
def test_the_best_of_one_plate_is_the_published_optimum(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(worths, "ROWS", 600)  # every line of the plate
    instance, optimum = published(name)
    kinds, values = plate(instance, ENDLESS)
    table = Worths(kinds, Work(10**12))
    [most] = table.most(values)
    assert most == pytest.approx(optimum, rel=1e-6)
    [(_, tree)] = table.trees()
    assert float(counted(kinds, tree) @ values) == pytest.approx(optimum)
    length, width = size(kinds, tree, crosscut=1)
    assert length <= kinds.boards[0].length
    assert width <= kinds.boards[0].width


@pytest.mark.parametrize("name", PLATES)
def test_a_coarser_grid_never_bounds_too_low(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    instance, optimum = published(name)
    kinds, values = plate(instance, ENDLESS)
    for rows in (7, 31, 120):
        monkeypatch.setattr(worths, "ROWS", rows)
        [most] = Worths(kinds, Work(10**12)).most(values)
        assert most >= optimum * (1 - 1e-9)


def test_no_more_counts_than_is_wanted_by_area() -> None:
    instance, _ = published("gcut1")
    kinds, values = plate(instance, 1)
    [most] = Worths(kinds, Work(10**12)).most(values)
    assert most <= float(values.sum()) * (1 + 1e-6)
