"""Grits by the rule of the trade: common practice, no source."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.abrasives import discs, grades, sequence
from app.core.figures import row
from app.core.forms._common import FINISHES

SQUARE_METRE = 10**18


# The rule: each grit about 1.5 times the last (1.4 to 1.6), up to P180 before a film.
@pytest.mark.parametrize(
    ("finish", "grits"),
    [
        ("oil varnish", (80, 120, 180)),
        ("waterborne varnish", (80, 120, 180)),
        ("shellac", (80, 120, 180)),
        ("penetrating oil", (100, 150, 220)),
        ("wax", (100, 150, 220)),
        ("none", (100, 150, 220)),
    ],
)
def test_the_grits_before_each_finish(finish: str, grits: tuple[int, ...]) -> None:
    assert sequence(finish) == grits


@pytest.mark.parametrize("finish", FINISHES)
def test_no_step_between_grits_is_larger_than_the_rule_allows(finish: str) -> None:
    rule = row("finishing", "abrasive.grit-step-rule")
    for coarse, fine in pairwise(sequence(finish)):
        assert float(rule["low"]) <= fine / coarse <= float(rule["high"])
        assert {coarse, fine} <= {*grades()}


@given(st.integers(1, 50), st.integers(1, 50))
def test_more_surface_never_takes_fewer_discs(one: int, more: int) -> None:
    least = discs(one * SQUARE_METRE // 10)
    assert 1 <= least <= discs((one + more) * SQUARE_METRE // 10)


def test_a_disc_sands_half_a_square_metre() -> None:
    assert [discs(SQUARE_METRE * n // 2) for n in (1, 2, 3)] == [1, 2, 3]
    assert discs(SQUARE_METRE // 2 + 1) == 2
