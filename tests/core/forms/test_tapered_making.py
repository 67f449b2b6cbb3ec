"""The tapered vessel at the bench: its cuts, their proofs, and what stays bare."""

from __future__ import annotations

import pytest

from app.core import registry
from app.core.design import Design
from app.core.setup import SetUp
from app.core.shop import Shop


def vessel(**typed: object) -> Design:
    given = {key: str(value) for key, value in typed.items()}
    return registry.work_out("tapered_vessel", given, Shop())


def set_up(design: Design, key: str) -> SetUp:
    return next(one for one in design.set_ups if one.key == key)


def test_the_first_ends_are_proven_on_scraps_before_any_wall_has_two() -> None:
    design = vessel(cut_from="one by one")
    first, second = (set_up(design, f"{one}-mitres") for one in ("first", "second"))
    assert "walls" not in first.check
    assert second.check.startswith(first.check[:-1])


def test_the_kerf_lies_on_the_stocks_side_of_the_mark() -> None:
    assert "the kerf lies in the stock" in set_up(vessel(), "mitres").cuts


def test_a_bevelled_base_takes_a_cut_for_every_side() -> None:
    base = set_up(vessel(sides=5), "base")
    assert "5 sides with the blade at" in base.cuts
    assert "5 cuts" in base.cuts
    assert "the corner across it" in base.check


def test_a_loose_base_is_pinned_once_and_not_where_nothing_is_under_it() -> None:
    steps = vessel(base="loose").steps
    detail = next(one.detail for one in steps if one.key == "fix-base")
    assert "one pin" in detail


@pytest.mark.parametrize(
    ("base", "bare"), [("loose", "blocks"), ("glued", "bevels"), ("none", "mitres")]
)
def test_wood_stays_bare_where_the_base_is_glued_later(base: str, bare: str) -> None:
    steps = {step.key: step.detail for step in vessel(base=base).steps}
    assert bare in steps["finish-inside"].split("glue does not hold")[0]
