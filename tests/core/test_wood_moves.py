"""How any design's wood moves, by hand and by the published figures."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import registry
from app.core.climate import Climate
from app.core.design import Moving
from app.core.length import Display, Length, Unit, inches, mm
from app.core.moisture import moved
from app.core.shop import Shop
from app.core.wood import all_species, species
from app.core.wood_moves import movements
from tests.core.completed import MAPLE, WALNUT, Inputs, made, size

# Air in which wood comes to 6, 9 and 12 %, by the handbook's equation 4-5.
SIX = Climate(Fraction("28.7"), Fraction(21))
NINE = Climate(Fraction("48.4"), Fraction(21))
TWELVE = Climate(Fraction("65.2"), Fraction(21))
INCH = Shop(air_now=SIX, air_dry=SIX, air_damp=TWELVE, display=Display(denominator=64))


def test_the_airs_of_these_tests_are_what_they_say() -> None:
    assert [air.moisture for air in (SIX, NINE, TWELVE)] == [6, 9, 12]


def base(species: str, room: str = "1/8", **more: object) -> Moving:
    room_there = inches(room) if room else None
    known = {"room": room_there, "input": "base_clearance"} | more
    return Moving("base", "Base", species, inches("6 5/8"), **known)  # type: ignore[arg-type]


# Wood Handbook FPL-GTR-190 (2010), equation 13-2 with table 13-5, by hand: a base
# 6 5/8 in wide between 6 and 12 %, width × coefficient × 6.
@pytest.mark.parametrize(
    ("wood", "sawn", "across", "swells", "leave"),
    [
        ("cherry", "flat", "width", "0.0986", "1/16"),
        ("walnut", "flat", "width", "0.1089", "1/16"),
        ("hard maple", "flat", "width", "0.1403", "5/64"),
        ("hard maple", "quarter", "width", "0.0656", "3/64"),
        ("hard maple", "flat", "thickness", "0.0656", "3/64"),
        ("hard maple", "quarter", "thickness", "0.1403", "5/64"),
    ],
)
def test_a_board_swells_by_the_handbook_and_by_how_it_is_sawn(
    wood: str, sawn: str, across: str, swells: str, leave: str
) -> None:
    moving = (base(wood, "1/64", across=across),)
    found = made(INCH, Inputs(sawn=sawn), moving=moving)
    most = size(found, "base_swells").value
    assert isinstance(most, Length)
    assert abs(float(most.inches) - float(swells)) < 0.00005
    assert size(found, "base_room").value == inches(leave)
    (told,) = found.warnings
    assert f"Leave {leave} in at each side (“Room for the base”)" in told
    assert "Wood Handbook FPL-GTR-190 eq. 13-2" in told


def test_wood_that_starts_between_shrinks_and_swells() -> None:
    shop = replace(INCH, air_now=NINE)
    found = made(shop, moving=(base("walnut"),))
    # 6.625 × 0.00274 × 3, down and up alike.
    for key in ("base_swells", "base_shrinks"):
        change = size(found, key).value
        assert isinstance(change, Length)
        assert float(change.inches) == pytest.approx(0.05446, abs=0.00001)


def test_wood_made_in_the_dampest_air_only_shrinks() -> None:
    shop = replace(INCH, air_now=TWELVE)
    found = made(shop, moving=(base("walnut", "0"),))
    assert size(found, "base_swells").value == Length(0)
    assert not found.warnings


def test_outside_six_to_fourteen_the_other_equation_holds() -> None:
    """FPL-GTR-190 equation 13-3: 6.625 × (16 - 6) / (3000 / 7.8 - 30 + 6) in."""
    porch = Climate(Fraction("79.4"), Fraction(15))
    assert porch.moisture == 16
    found = made(replace(INCH, air_damp=porch), moving=(base("walnut"),))
    swells = size(found, "base_swells")
    assert isinstance(swells.value, Length)
    assert float(swells.value.inches) == pytest.approx(
        6.625 * 10 / (3000 / 7.8 - 24), abs=1e-6
    )
    assert "eq. 13-3" in swells.source


def test_wood_moves_no_more_above_the_moisture_where_shrinking_starts() -> None:
    """Redwood shrinks from 22 %, table 4-3's footnote; air at 95 % brings 24 %."""
    wet = Climate(Fraction(95), Fraction(5))
    assert wet.moisture > 22
    found = made(replace(INCH, air_damp=wet), moving=(base("western red cedar"),))
    swells = size(found, "base_swells").value
    assert isinstance(swells, Length)
    assert float(swells.inches) == pytest.approx(6.625 * 16 / (2200 / 5 - 16), abs=1e-6)


def test_room_enough_is_not_warned_of() -> None:
    assert not made(INCH, moving=(base("walnut", "1/8"),)).warnings
    assert made(INCH, moving=(base("walnut", "3/32"),)).warnings


def test_the_room_it_says_to_leave_is_enough() -> None:
    for wood in ("walnut", "maple soft", "white oak", "teak"):
        found = made(INCH, moving=(base(wood, "1/64"),))
        planned = [one.value for one in found.sizes if one.key == "base_room"]
        for room in planned:
            assert isinstance(room, Length)
            enough = replace(base(wood), room=room * 2)
            assert not made(INCH, moving=(enough,)).warnings


def test_strips_side_by_side_move_each_by_its_own_figures() -> None:
    """Equation 13-2, table 13-5: 6.625 × (2/3 × 0.00274 + 1/3 × 0.00353) × 6 in."""
    shares = (
        (WALNUT, Fraction(1, 3)),
        (MAPLE, Fraction(1, 3)),
        ("walnut", Fraction(1, 3)),
    )
    found = made(INCH, moving=(base("walnut, maple", "1/64", woods=shares),))
    swells = size(found, "base_swells").value
    assert isinstance(swells, Length)
    expected = 6.625 * (2 * 0.00274 + 0.00353) / 3 * 6
    assert float(swells.inches) == pytest.approx(expected, abs=1e-6)
    assert "of Black walnut and Sugar maple, swells" in found.warnings[0]
    mixed = (*shares[:2], ("moonwood", Fraction(1, 3)))
    by_thumb = made(INCH, moving=(base("several", "1/64", woods=mixed),))
    assert "half a percent" in by_thumb.warnings[0]


def test_what_is_held_fast_is_told_to_be_let_move() -> None:
    (told,) = made(INCH, moving=(base("walnut", "0"),)).warnings
    assert "nothing gives way. Hold it so that it can move" in told


def test_the_table_names_each_air_with_numbers_and_units_kept_together() -> None:
    (table,) = (
        one
        for one in made(INCH, moving=(base("walnut"),)).tables
        if one.key == "wood_moves"
    )
    now, dry, damp = (
        text.replace("\N{NO-BREAK SPACE}", " ") for text in table.headings[1:4]
    )
    assert (now, dry) == (
        "In the shop: 28.7 % at 69.8 °F, wood at 6 %",
        "Driest: 28.7 % at 69.8 °F, wood at 6 %",
    )
    assert damp.endswith("wood at 12 %")
    assert " %" not in "".join(table.headings)
    (row,) = table.rows
    assert row[1:] == ("6 5/8 in", "no change", "0.109 in more", "0.125 in, enough")


def test_what_nothing_holds_is_told_and_not_warned_of() -> None:
    found = made(INCH, moving=(base("walnut", ""),))
    assert not found.warnings
    assert "base_room" not in {one.key for one in found.sizes}
    (table,) = (one for one in found.tables if one.key == "wood_moves")
    assert table.rows[0][-1] == "free"


# Half a percent of 6 5/8 in at each side is 0.066 in in all: common practice.
@pytest.mark.parametrize(("room", "warned"), [("1/16", True), ("3/32", False)])
def test_a_wood_without_figures_goes_by_the_rule_of_thumb(
    room: str, warned: bool
) -> None:
    found = made(INCH, moving=(base("moonwood", room),))
    assert any("half a percent" in one for one in found.warnings) is warned
    assert not any(one.key == "wood_moves" for one in found.tables)


def test_a_coefficient_that_is_not_in_the_table_says_so() -> None:
    (told,) = made(INCH, moving=(base("iroko", "1/64"),)).warnings
    assert told.endswith(
        "eq. 13-2, tangential, its coefficient derived with equation 13-3."
    )


@pytest.mark.parametrize(
    ("form", "typed", "key"),
    [
        (
            "straight_vessel",
            {"outside_side": "4", "base_clearance": "1/64", "groove_depth": "1/4"},
            "base_clearance",
        ),
        (
            "box",
            {"base_clearance": "1/64", "base_material": "solid"},
            "base_clearance",
        ),
        (
            "mitred_tray",
            {"panel_material": "solid wood", "panel_room": "1/64"},
            "panel_room",
        ),
    ],
)
def test_the_room_it_says_to_leave_mends_a_real_build(
    form: str, typed: dict[str, str], key: str
) -> None:
    shop = replace(INCH, air_now=NINE)
    given = registry.form(form).example(Unit.INCH) | typed
    before = registry.work_out(form, given, shop)
    (told,) = (one for one in before.warnings if "swells by" in one)
    leave = re.search(r"Leave (.+?) in at each side", told)
    assert leave
    after = registry.work_out(form, given | {key: f"{leave[1]} in"}, shop)
    assert not any("swells by" in one for one in after.warnings)


airs = st.builds(Climate.of_numbers, st.integers(0, 950), st.integers(0, 400))


@given(airs, airs, airs, st.sampled_from([wood.key for wood in all_species()]))
def test_more_damp_is_never_less_wood(
    now: Climate, one: Climate, other: Climate, wood: str
) -> None:
    """Also where the handbook's two tables rest on different data, as mahogany's."""
    dry, damp = sorted((one, other), key=lambda air: air.moisture)
    shop = Shop(air_now=now, air_dry=dry, air_damp=damp)
    (found,) = movements((base(wood),), "flat", shop)
    assert found.to_dry.change <= found.to_damp.change
    assert found.swells >= Length(0) <= found.shrinks


def test_mahogany_past_fourteen_percent_moves_no_less_than_up_to_it() -> None:
    """FPL-GTR-190: 10 to 14 % by table 13-5 is 4 × 0.00238; by table 4-4, to 14.5 %,
    only 4.5 / (2200 / 4.1 - 22 + 10)."""
    wood = species("honduras mahogany")
    ends = (Fraction(14), Fraction("14.5"), Fraction(20))
    changes = [
        moved(mm(1000), wood, tangential=True, start=Fraction(10), end=end).change
        for end in ends
    ]
    assert changes[0] == changes[1] == mm("9.52")
    assert abs(float(changes[2].millimetres) - 1000 * 10 / (2200 / 4.1 - 12)) < 1e-5


@given(airs, airs, st.integers(2, 40))
def test_a_board_so_many_times_as_wide_moves_so_many_times_as_far(
    now: Climate, then: Climate, times: int
) -> None:
    shop = Shop(air_now=now, air_dry=then, air_damp=then)
    narrow = base("cherry")
    (one,) = movements((narrow,), "flat", shop)
    (many,) = movements((replace(narrow, size=narrow.size * times),), "flat", shop)
    # Rounded once each to a nanometre.
    assert abs(many.swells.nm - one.swells.nm * times) <= times
