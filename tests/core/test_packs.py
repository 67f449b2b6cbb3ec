"""What is bought holds what is needed, and the next smaller does not."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.length import Unit
from app.core.packs import FINISH, GLUE, sold, to_buy
from app.core.size import ML_PER_FLUID_OUNCE

NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
# Exact: 1 US gallon is 4 quarts, 8 pints, 128 fluid ounces (NIST SP 811, B.8).
OUNCES = {
    "4 fl oz bottle": 4,
    "8 fl oz bottle": 8,
    "16 fl oz bottle": 16,
    "1 gallon jug": 128,
    "half-pint can": 8,
    "pint can": 16,
    "quart can": 32,
    "gallon can": 128,
}


def test_an_american_bottle_holds_what_its_name_says() -> None:
    named = {p.name: p for supply in (GLUE, FINISH) for p in sold(supply, Unit.INCH)}
    assert set(named) == set(OUNCES)
    for name, ounces in OUNCES.items():
        assert named[name].millilitres == ounces * ML_PER_FLUID_OUNCE


def test_a_metric_can_holds_what_its_name_says() -> None:
    for supply in (GLUE, FINISH):
        for pack in sold(supply, Unit.MILLIMETRE):
            number, unit, *_ = pack.name.split()
            per = {"ml": 1, "litre": 1000}[unit]
            assert pack.millilitres == Fraction(number) * per


@given(
    st.integers(1, 60_000).map(lambda n: Fraction(n, 3)),
    st.sampled_from([GLUE, FINISH]),
    st.sampled_from(list(Unit)),
)
def test_what_is_bought_is_enough_and_no_size_too_large(
    needed: Fraction, supply: str, unit: Unit
) -> None:
    number, _, name = to_buy(supply, needed, unit).partition(" ")
    count = NUMBERS.index(number) + 1 if number in NUMBERS else int(number)
    packs = sold(supply, unit)
    (at,) = (i for i, p in enumerate(packs) if name.removesuffix("s") == p.name)
    assert count * packs[at].millilitres >= needed
    if count > 1:
        assert at == len(packs) - 1
        assert (count - 1) * packs[at].millilitres < needed
    elif at:
        assert packs[at - 1].millilitres < needed


@pytest.mark.parametrize(
    ("needed", "words"),
    [("118.29", "one 4 fl oz bottle"), ("118.3", "one 8 fl oz bottle")],
)
def test_a_drop_more_is_the_next_bottle(needed: str, words: str) -> None:
    """4 fl oz are 118.29411825 ml exactly."""
    assert to_buy(GLUE, Fraction(needed), Unit.INCH) == words
