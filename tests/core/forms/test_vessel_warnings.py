"""What the maker of a straight vessel is told before the wood is cut."""

from __future__ import annotations

import pytest

from app.core.inputs import typed
from app.core.length import Display, Length, inches
from app.core.shop import Shop
from tests.core.forms.vessels import size, vessel


def test_an_unknown_wood_is_told_not_refused() -> None:
    design = vessel(species="walnut, zebrano moon")
    assert any("zebrano moon" in warning for warning in design.warnings)


# Wood Handbook FPL-GTR-190 (2010), equation 13-2 with the tangential coefficients
# of table 13-5: width x coefficient x 6. A base 6 5/8 in wide, by hand:
#   black cherry 6.625 x 0.00248 x 6 = 0.0986 in, 0.0493 at each side
#   black walnut 6.625 x 0.00274 x 6 = 0.1089 in, 0.0545 at each side
#   sugar maple  6.625 x 0.00353 x 6 = 0.1403 in, 0.0702 at each side
@pytest.mark.parametrize(
    ("wood", "room", "swells", "leave"),
    [
        ("cherry", "3/64", "3/32", "1/16"),
        ("cherry", "1/16", "", ""),
        ("walnut", "3/64", "7/64", "1/16"),
        ("walnut", "1/16", "", ""),
        ("hard maple", "1/16", "9/64", "5/64"),
        ("hard maple", "5/64", "", ""),
    ],
)
def test_a_base_that_outgrows_its_groove_is_told_by_its_species(
    wood: str, room: str, swells: str, leave: str
) -> None:
    shop = Shop(display=Display(denominator=64))
    warnings = told(shop, base_species=wood, base_clearance=room)
    if not leave:
        assert not any("swell" in one for one in warnings)
        return
    (found,) = (one for one in warnings if "swells" in one)
    assert "Between 6 and 12 % moisture" in found
    assert f"6 5/8 in wide swells by {swells} in" in found
    assert f"Leave {leave} in at each side" in found
    assert found.endswith("Source: Wood Handbook FPL-GTR-190 eq. 13-2, table 13-5.")


def test_a_coefficient_that_is_not_in_the_table_says_so() -> None:
    warnings = told(Shop(), base_species="iroko", base_clearance="1/64")
    assert any(
        one.endswith("eq. 13-2, its coefficient derived with equation 13-3.")
        for one in warnings
    )


def test_a_base_of_a_wood_without_figures_goes_by_the_rule_of_thumb() -> None:
    # Half a percent of 6 5/8 in is 0.033 in: 1/32 is less, 3/64 is more.
    assert any(
        "half a percent" in one
        for one in told(Shop(), base_species="moonwood", base_clearance="1/32")
    )
    enough = told(Shop(), base_species="moonwood", base_clearance="3/64")
    assert not any("swell" in one for one in enough)


def told(shop: Shop, **more: str) -> tuple[str, ...]:
    """What is warned of for a six-sided vessel with a base 6 5/8 in wide."""
    # The groove is as deep as the room asks, so that the base stays as wide.
    room = Length.read(more["base_clearance"], shop.unit)
    depth = typed(inches("5/16") + room)
    shape = {"sides": 6, "inside_inscribed": "6", "wall": "3/4"}
    made = vessel(shop, **shape, groove_depth=depth, **more)
    assert size(made, "base_inscribed") == inches("6 5/8")
    return made.warnings


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
