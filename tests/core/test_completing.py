"""What any design takes, by hand and by the published figures."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest

from app.core.completing import complete
from app.core.design import Design, Joint, Moving
from app.core.forms._bench import finishing, sand
from app.core.length import mm
from app.core.part import GlueUp, Strip
from app.core.shop import Shop
from app.core.step import Supply
from tests.core.completed import (
    MAPLE,
    SQUARE_METRE,
    WALNUT,
    Inputs,
    design,
    made,
    plank,
    size,
    slab,
    value,
)

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


def test_a_sheet_that_a_step_counts_itself_stays() -> None:
    inputs = Inputs(coats=2)
    found = made(
        inputs=inputs,
        steps=tuple(finishing(inputs, "it", 10)),
        finish_area=SQUARE_METRE,
    )
    assert found.steps[1].supplies[1] == Supply("P320 abrasive", "1 sheet")


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


def test_completing_a_large_design_takes_no_time() -> None:
    """Two of the twenty milliseconds of a size call; ten times that fails here."""
    parts = tuple(plank(key=f"part-{n}") for n in range(60))
    many = design(
        parts=parts,
        joints=tuple(Joint(f"joint {n}", SQUARE_METRE) for n in range(20)),
        moving=tuple(Moving(f"base-{n}", "Base", WALNUT, mm(100)) for n in range(10)),
        finish_area=SQUARE_METRE,
    )
    complete(many, Inputs(), Shop())
    start = time.perf_counter()
    complete(many, Inputs(), Shop())
    assert time.perf_counter() - start < 0.02
