"""What any design takes and how it moves, by hand and by the published figures."""

from __future__ import annotations

import re
import time
from dataclasses import dataclass, replace
from fractions import Fraction

import pytest

from app.core import registry
from app.core.climate import Climate
from app.core.completing import complete
from app.core.design import Design, Joint, Moving
from app.core.forms._bench import finishing, sand
from app.core.forms._common import Common
from app.core.inputs import Ask, ask
from app.core.length import Display, Length, Unit, inches, mm
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.shop import Shop
from app.core.size import Size

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(Unit.MILLIMETRE))
SQUARE_METRE = 10**18
WALNUT, MAPLE = "black walnut", "hard maple"


@dataclass(frozen=True, kw_only=True)
class Inputs(Common):
    base_clearance: Length = ask(
        "Room for the base", Ask.LENGTH, default=mm(1), help=""
    )


def slab(length: int, width: int, thickness: int) -> Dimensions:
    return Dimensions(mm(length), mm(width), mm(thickness))


def plank(**changes: object) -> Part:
    part = Part("top", "Top", 1, WALNUT, slab(1000, 200, 25), slab(1020, 210, 30))
    return replace(part, **changes)  # type: ignore[arg-type]


def design(**facts: object) -> Design:
    known = {"parts": (plank(),), "sizes": ()} | facts
    return Design("shelf", "Shelf", {}, **known)  # type: ignore[arg-type]


def made(shop: Shop = METRIC, inputs: object = None, **facts: object) -> Design:
    return complete(design(**facts), inputs or Inputs(), shop)


def size(found: Design, key: str) -> Size:
    (one,) = (one for one in found.sizes if one.key == key)
    return one


def value(found: Design, key: str) -> float:
    one = size(found, key).value
    assert isinstance(one, Fraction | int)
    return float(one)


# --- wood


def test_wood_is_counted_by_its_true_volume() -> None:
    """1 board foot is 0.002359737216 m³, lumber measure, computed."""
    found = made()
    assert value(found, "finished_cubic_metres") == 0.005
    assert value(found, "rough_cubic_metres") == pytest.approx(0.006426)
    assert value(found, "finished_board_feet") == pytest.approx(
        0.005 / 0.002359737216, rel=1e-12
    )


def test_the_finished_build_weighs_what_its_species_do() -> None:
    """FPL-GTR-190 specific gravity at 12 %: walnut 616, maple 705.6 kg/m³."""
    parts = (plank(), plank(key="leg", species=MAPLE, quantity=2))
    found = made(parts=parts)
    assert value(found, "weight") == pytest.approx(5 * 616 + 10 * 705.6)
    (table,) = (one for one in found.tables if one.key == "wood_by_species")
    assert [row[0] for row in table.rows] == ["Sugar maple", "Black walnut"]
    assert [row[3] for row in table.rows] == ["7.06 kg", "3.08 kg"]


def test_a_part_of_two_species_weighs_by_their_shares() -> None:
    shares = ((WALNUT, Fraction(3, 4)), (MAPLE, Fraction(1, 4)))
    found = made(parts=(plank(species="walnut, maple", woods=shares),))
    assert value(found, "weight") == pytest.approx(0.75 * 3080 + 0.25 * 3528)


def test_a_part_cut_from_a_panel_has_the_panels_shares() -> None:
    strips = tuple(
        Strip(name, 2, slab(1020, width + 4, 30), mm(width))
        for name, width in ((WALNUT, 75), (MAPLE, 25))
    )
    panel = GlueUp("panel", "Panel", 1, strips, slab(1020, 210, 30))
    parts = (plank(species="walnut, maple", glue_up="panel"),)
    found = made(parts=parts, glue_ups=(panel,))
    assert value(found, "weight") == pytest.approx(0.75 * 3080 + 0.25 * 3528)
    rough = 1020 * 30 * 2 * (79 + 29) / 1e9
    assert value(found, "rough_cubic_metres") == pytest.approx(rough)


def test_a_spare_goes_to_the_saw_and_not_into_the_build() -> None:
    spare = plank(key="top-spare", spare=True)
    found, without = made(parts=(plank(), spare)), made()
    assert value(found, "weight") == value(without, "weight")
    rough = "rough_cubic_metres"
    assert value(found, rough) == 2 * value(without, rough)


def test_a_wood_without_figures_is_named_and_not_weighed() -> None:
    parts = (plank(), plank(key="leg", species="moonwood"))
    found = made(parts=parts)
    assert size(found, "weight").label.endswith("without moonwood")
    assert value(found, "weight") == pytest.approx(3080)
    only = made(parts=(plank(species="moonwood"),))
    assert "weight" not in {one.key for one in only.sizes}


def test_one_wood_by_two_names_is_one_line() -> None:
    found = made(parts=(plank(), plank(key="leg", species="walnut")))
    (table,) = (one for one in found.tables if one.key == "wood_by_species")
    assert len(table.rows) == 1


# --- glue, finish, abrasives


# Spread 200 g/m² over 1.08 kg/l is 5.4 m² a litre, the table of finishing and glue:
# a square metre takes 185.2 ml; end grain is sized and takes it twice.
@pytest.mark.parametrize(
    ("ends", "millilitres", "bottle", "us"),
    [
        (False, 185.2, "one 250 ml bottle", "one 8 fl oz bottle"),
        (True, 370.4, "one 500 ml bottle", "one 16 fl oz bottle"),
    ],
)
def test_glue_goes_by_the_area_of_its_joints(
    ends: bool, millilitres: float, bottle: str, us: str
) -> None:
    joints = (Joint("mitres", SQUARE_METRE, ends),)
    found = made(joints=joints)
    assert value(found, "glue") == pytest.approx(millilitres, abs=0.05)
    assert bought(found, "PVA wood glue") == bottle
    assert bought(made(Shop(), joints=joints), "PVA wood glue") == us


def bought(found: Design, supply: str) -> str:
    (table,) = (one for one in found.tables if one.key == "supplies")
    (row,) = (row for row in table.rows if row[0] == supply)
    return row[2]


# Coverage of the table of finishing, m² a litre: film finishes and oil 10, wax 25.
@pytest.mark.parametrize(
    ("finish", "coats", "millilitres", "can"),
    [
        ("oil varnish", 3, 600, "one 1 litre can"),
        ("penetrating oil", 1, 200, "one 250 ml can"),
        ("wax", 2, 160, "one 250 ml can"),
        ("shellac", 10, 2000, "one 2.5 litre can"),
        ("waterborne varnish", 2, 400, "one 500 ml can"),
    ],
)
def test_finish_goes_by_surface_coats_and_coverage(
    finish: str, coats: int, millilitres: float, can: str
) -> None:
    inputs = Inputs(finish=finish, coats=coats)
    found = made(inputs=inputs, finish_area=2 * SQUARE_METRE)
    assert value(found, "finish") == pytest.approx(millilitres)
    assert bought(found, finish) == can


def test_more_than_the_largest_can_is_so_many_of_it() -> None:
    inputs = Inputs(finish="oil varnish", coats=10)
    found = made(inputs=inputs, finish_area=11 * SQUARE_METRE)
    assert bought(found, "oil varnish") == "three 5 litre cans"


def test_the_steps_say_how_much_of_what_they_use() -> None:
    inputs = Inputs(finish="wax", coats=2)
    steps = (sand("sand", "Sand", 10, ""), *finishing(inputs, "it", 10))
    found = made(inputs=inputs, steps=steps, finish_area=SQUARE_METRE * 6 // 5)
    sanding, first, second = (step.supplies for step in found.steps)
    # Three discs for 1.2 m², a disc for half a square metre.
    assert [(one.name, one.quantity) for one in sanding] == [
        ("P100 abrasive", "3 discs"),
        ("P150 abrasive", "3 discs"),
        ("P220 abrasive", "3 discs"),
    ]
    assert first == second
    assert first[0].quantity == "96 ml (3.25 fl oz) in all: one 250 ml can"


def test_bare_wood_is_sanded_and_takes_no_finish() -> None:
    found = made(inputs=Inputs(finish="none"), finish_area=SQUARE_METRE)
    keys = {one.key for one in found.sizes}
    assert "finish" not in keys
    assert "finish_area" in keys
    assert bought(found, "P220 abrasive") == "2 discs"


def test_what_asks_for_no_finish_gets_wood_alone() -> None:
    """A free list of parts: its wood and its weight, nothing it does not know."""
    found = made(inputs=object(), finish_area=SQUARE_METRE)
    assert {table.key for table in found.tables} == {"wood_by_species"}
    assert value(found, "weight") == pytest.approx(3080)


# --- movement


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


def test_completing_a_large_design_takes_no_time() -> None:
    """Two of the twenty milliseconds of a size call; ten times that fails here."""
    parts = tuple(plank(key=f"part-{n}") for n in range(60))
    many = design(
        parts=parts,
        joints=tuple(Joint(f"joint {n}", SQUARE_METRE) for n in range(20)),
        moving=tuple(replace(base("walnut"), key=f"base-{n}") for n in range(10)),
        finish_area=SQUARE_METRE,
    )
    complete(many, Inputs(), INCH)
    start = time.perf_counter()
    complete(many, Inputs(), INCH)
    assert time.perf_counter() - start < 0.02


@pytest.mark.parametrize(
    ("form", "typed", "key"),
    [
        (
            "straight_vessel",
            {"outside_side": "4", "base_clearance": "1/64", "groove_depth": "1/4"},
            "base_clearance",
        ),
        ("box", {"base_clearance": "1/64"}, "base_clearance"),
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
