"""What the maker of a straight vessel is told before the wood is cut."""

from __future__ import annotations

import pytest

from app.core.design import Moving
from app.core.length import inches
from app.core.shop import Shop
from tests.core.forms.vessels import size, vessel


def test_an_unknown_wood_is_told_not_refused() -> None:
    design = vessel(species="walnut, zebrano moon")
    assert any("zebrano moon" in warning for warning in design.warnings)


def moving(key: str, **given: object) -> Moving:
    return next(one for one in vessel(**given).moving if one.key == key)


@pytest.mark.parametrize("base", ["groove", "rebate"])
def test_a_base_has_its_clearance_at_both_sides_to_swell_into(base: str) -> None:
    found = moving("base", base=base, base_clearance="1/16", base_species="cherry")
    assert found.room == inches("1/8")
    assert (found.species, found.input) == ("cherry", "base_clearance")


def test_nothing_holds_a_base_under_the_walls() -> None:
    assert moving("base", base="under").room is None


def test_a_plug_swells_towards_the_walls_and_the_lid_over_them() -> None:
    given = {"lid": "plug", "lid_room": "3/32", "lid_species": "oak"}
    plug = moving("lid_plug", **given)
    assert (plug.room, plug.input) == (inches("3/16"), "lid_room")
    assert plug.size == size(vessel(**given), "plug_inscribed")
    assert moving("lid", **given).room is None


def test_rows_of_each_wood_add_up_to_the_height() -> None:
    made = vessel(species="walnut, maple, cherry", strip_rows=7, height="9 1/3 in")
    rows = [one for one in made.moving if one.key.startswith("walls")]
    assert sum(one.size.nm for one in rows) == inches("9 1/3").nm
    assert [one.species for one in rows] == ["walnut", "maple", "cherry"]


@pytest.mark.parametrize(("room", "told"), [("1/64", True), ("5/32", False)])
def test_a_base_too_tight_is_told_with_the_input_that_frees_it(
    room: str, told: bool
) -> None:
    made = vessel(base_species="hard maple", base_clearance=room)
    assert any("“Room for the base”" in one for one in made.warnings) is told


def test_weak_mitres_are_told_until_splines_mend_them() -> None:
    assert any("end grain meets end grain" in one for one in vessel().warnings)
    splined = vessel(splines_per_corner=1).warnings
    assert not any("end grain meets end grain" in one for one in splined)


@pytest.mark.parametrize(
    ("base", "up", "faced"),
    [("rebate", "0", True), ("groove", "0", True), ("groove", "1/4", False)],
)
def test_a_blade_against_the_fence_is_given_a_wooden_face(
    base: str, up: str, faced: bool
) -> None:
    made = vessel(base=base, groove_up=up)
    (groove,) = [one for one in made.set_ups if one.key == "groove"]
    assert groove.cuts.startswith("Clamp a wooden face to the fence first.") is faced
    assert ("table-saw.fence-face" in groove.cautions) is faced


@pytest.mark.parametrize(("kerf", "loose"), [("1/8", True), ("3/32", False)])
def test_what_one_pass_of_the_blade_cuts_too_wide_is_told(
    kerf: str, loose: bool
) -> None:
    made = vessel(Shop(kerf=inches(kerf)), base_thickness="3/32")
    assert any("would be loose" in one for one in made.warnings) is loose
