"""Species by the names makers use, each with its source and its own look."""

from __future__ import annotations

import csv
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.figures import table
from app.core.wood import (
    NoSuchSpecies,
    Plain,
    Species,
    all_species,
    species,
    species_or_plain,
)
from tests.conftest import shared


# Trade names: common practice, no source.
@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("cherry", "black-cherry"),
        ("Cherry, black", "black-cherry"),
        ("walnut", "black-walnut"),
        ("black walnut", "black-walnut"),
        ("Juglans nigra", "black-walnut"),
        ("maple", "sugar-maple"),
        ("Hard Maple", "sugar-maple"),
        ("soft maple", "red-maple"),
        ("red oak", "northern-red-oak"),
        ("oak, white", "white-oak"),
        ("  white   oak ", "white-oak"),
        ("ash", "white-ash"),
        ("poplar", "yellow-poplar"),
        ("tulipwood", "yellow-poplar"),
        ("western red cedar", "western-redcedar"),
        ("Douglas-fir", "douglas-fir"),
        ("khaya", "african-mahogany"),
    ],
)
def test_a_species_goes_by_the_names_makers_use(typed: str, key: str) -> None:
    assert species(typed).key == key


@pytest.mark.parametrize(
    ("typed", "says", "nearest"),
    [
        ("oak", "Northern red oak or White oak", "Northern red oak"),
        ("mahogany", "Honduras mahogany or African mahogany", "Honduras mahogany"),
        ("mapel", "Nearest: Sugar maple", "Sugar maple"),
        ("wallnut", "Nearest: Black walnut", "Black walnut"),
        ("zebrawood", "Try a name like", ""),
        ("", "Try a name like", ""),
    ],
)
def test_a_name_that_is_none_or_several_is_refused_with_what_would_do(
    typed: str, says: str, nearest: str
) -> None:
    with pytest.raises(NoSuchSpecies) as refusal:
        species(typed, input="species")
    assert says in str(refusal.value)
    assert (refusal.value.nearest, refusal.value.input) == (nearest, "species")


@given(st.text(max_size=30))
def test_any_name_can_be_drawn_and_is_drawn_alike_every_time(typed: str) -> None:
    drawn = species_or_plain(typed)
    assert drawn == species_or_plain(typed)
    assert drawn.hatch_spacing > 0
    if isinstance(drawn, Plain):
        assert drawn.name == typed.strip()


def test_no_two_species_are_drawn_alike_in_colour_or_in_grey() -> None:
    """Without colour the hatch alone tells two woods apart at a glance."""
    every = all_species()
    assert len({one.colour for one in every}) == len(every)
    for one, other in combinations(every, 2):
        turned = abs(one.hatch_angle - other.hatch_angle)
        denser, wider = sorted([one.hatch_spacing, other.hatch_spacing])
        apart = min(turned, 180 - turned) >= 15 or wider / denser >= Fraction(6, 5)
        assert apart, (one.key, other.key)


def test_figures_stay_within_what_wood_can_do() -> None:
    """Tangential movement exceeds radial in every wood: FPL-GTR-190, chapter 4."""
    for one in all_species():
        assert one.coefficient_tangential > one.coefficient_radial > 0, one.key
        assert one.shrinkage_tangential > one.shrinkage_radial > 0, one.key
        assert Fraction("0.25") < one.specific_gravity < 1, one.key


# FPL-GTR-190 (2010), table 13-5: coefficients as read in the stored page.
@pytest.mark.parametrize(
    ("name", "radial", "tangential"),
    [
        ("black walnut", "0.00190", "0.00274"),
        ("black cherry", "0.00126", "0.00248"),
        ("white ash", "0.00169", "0.00274"),
        ("white oak", "0.00180", "0.00365"),
    ],
)
def test_coefficients_are_the_handbooks(
    name: str, radial: str, tangential: str
) -> None:
    one = species(name)
    assert one.coefficient_radial == Fraction(radial)
    assert one.coefficient_tangential == Fraction(tangential)


def test_every_row_says_where_it_was_read_and_how_sure_that_is() -> None:
    for row in table("wood"):
        assert row["source"]
        assert row["confidence"] in {"read", "memory"}


def test_the_table_carries_the_reference_figures_unchanged() -> None:
    path = shared("reference/wood_movement.csv")
    with path.open(encoding="utf-8", newline="") as file:
        reference = {
            row["species_botanical"] + row["specific_gravity_12pct"]: row
            for row in csv.DictReader(file)
        }
    assert len(reference) == len(all_species())
    for row in table("wood"):
        told = reference[row["botanical"] + row["specific_gravity"]]
        assert (
            row["coefficient_radial"] == told["dimensional_change_coefficient_radial"]
        )
        assert (
            row["coefficient_tangential"]
            == told["dimensional_change_coefficient_tangential"]
        )
        assert row["shrinkage_radial"] == told["shrinkage_radial_pct"]
        assert row["shrinkage_tangential"] == told["shrinkage_tangential_pct"]
        assert row["confidence"] == told["confidence"]


def test_a_known_wood_is_a_species_and_an_unknown_one_is_only_drawn() -> None:
    assert isinstance(species_or_plain("cherry"), Species)
    assert isinstance(species_or_plain("zebrawood"), Plain)
