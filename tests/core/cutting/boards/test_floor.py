"""Bounds of whole boards against published optima."""

from __future__ import annotations

import json

import numpy as np
import pytest

from app.core.cutting.boards.floor import Floor
from app.core.cutting.boards.kinds import apart, kinds
from app.core.cutting.effort import Work
from tests.conftest import shared
from tests.core.cutting.published import known, read


@pytest.mark.parametrize("number", range(0, 300, 23))
def test_no_bound_is_above_the_published_optimum(number: int) -> None:
    path = shared("benchmarks/cutting") / "class_2bp.json"
    instance = json.loads(path.read_text(encoding="utf-8"))[number]
    [part] = apart(kinds(read(instance)))
    floor = Floor(part, 1.0, Work(10**12))
    dice = np.random.default_rng(number)
    for _ in range(2):
        # Any values bound, not only a relaxation's own.
        floor.values(part.areas * dice.uniform(0.5, 1.5, len(part.wanted)))
    _, best = known(instance)
    assert 0 < floor.least() <= best
