"""Movement, moisture, weight and spread against the published tables, every row.

Sources are named beside each check. The tables lie in the folder ``reference`` of
the published material: wood_movement.csv (Wood Handbook FPL-GTR-190, 2010, tables
13-5, 4-3 and 4-4; specific gravity by the USDA table), emc_table.csv (table 4-2),
finishing_and_glue.csv and lumber_measure.md (exact units and common practice).
"""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from app import cli
from app.core.completing import complete
from app.core.design import Design, Joint
from app.core.figures import table
from app.core.finishes import FINISHES
from app.core.forms._common import Common
from app.core.length import Length, inches, mm
from app.core.moisture import equilibrium, moved
from app.core.part import Dimensions, Part
from app.core.shop import Shop
from app.core.size import (
    GRAMS_PER_POUND,
    KG_M3_PER_LB_FT3,
    ML_PER_FLUID_OUNCE,
)
from app.core.wood import Species, all_species, species
from tests.conftest import shared

SQUARE_METRE = 10**18
Row = dict[str, str]


def rows(name: str) -> list[Row]:
    text = shared(f"reference/{name}").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def woods() -> Iterator[tuple[Species, Row]]:
    """Every species beside its row, which stand in the same order."""
    for wood, row in zip(all_species(), rows("wood_movement.csv"), strict=True):
        assert row["species_botanical"].split(" (")[0] in wood.botanical
        yield wood, row


def change(
    wood: Species, size: Length, way: str, start: str, end: str
) -> tuple[Length, str]:
    found = moved(
        size,
        wood,
        tangential=way == "tangential",
        start=Fraction(start),
        end=Fraction(end),
    )
    return found.change, found.source


# --- movement


def test_every_species_moves_by_its_row_inside_six_to_fourteen() -> None:
    """Equation 13-2 with table 13-5, on the board of the handbook's own example."""
    for wood, row in woods():
        for way in ("radial", "tangential"):
            coefficient = float(row[f"dimensional_change_coefficient_{way}"])
            moves, source = change(wood, inches("9.15"), way, "8", "11")
            # The handbook prints inches to a thousandth and mm to a tenth.
            assert round(float(moves.inches), 3) == round(9.15 * coefficient * 3, 3)
            assert round(float(moves.millimetres), 1) == round(
                232.41 * coefficient * 3, 1
            ), wood.key
            assert "eq. 13-2" in source


def test_every_species_moves_by_its_row_outside_six_to_fourteen() -> None:
    """Equation 13-3 with the shrinkage of tables 4-3 and 4-4, 4 to 20 %."""
    for wood, row in woods():
        onset = float(row["shrinkage_onset_mc_pct"])
        for way in ("radial", "tangential"):
            shrinkage = float(row[f"shrinkage_{way}_pct"])
            expected = 232 * 16 / (100 * onset / shrinkage - onset + 4)
            moves, source = change(wood, mm(232), way, "4", "20")
            assert float(moves.millimetres) == pytest.approx(expected, abs=1e-5)
            assert "eq. 13-3" in source


def test_every_species_agrees_with_the_tables_own_identity() -> None:
    """Equation 13-3 from 15 to 16 % beside the identity of the two tables.

    The identity is equation 13-3 at 10 %, printed to five decimals; from another
    start it changes in a known ratio.
    """
    for wood, row in woods():
        onset = float(row["shrinkage_onset_mc_pct"])
        for way in ("radial", "tangential"):
            shrinkage = float(row[f"shrinkage_{way}_pct"])
            at_ten = 100 * onset / shrinkage - onset + 10
            moves, _ = change(wood, mm(1000), way, "15", "16")
            derived = float(moves.millimetres) / 1000 * (at_ten + 5) / at_ten
            assert round(derived, 5) == pytest.approx(
                float(row[f"identity_{way}"]), abs=1.01e-5
            ), wood.key


def test_white_fir_moves_as_the_worked_example_says() -> None:
    """FPL-GTR-190 (2010), example after equation 13-2: 0.067 in, 1.7 mm."""
    moves, _ = change(species("white fir"), inches("9.15"), "tangential", "8", "11")
    assert round(float(moves.inches), 3) == 0.067
    assert round(float(moves.millimetres), 1) == 1.7


# --- moisture


def test_the_air_brings_wood_to_the_printed_moisture() -> None:
    """Table 4-2, all 342 entries: the last printed digit, or one beside it."""
    apart, same = [], 0
    for row in rows("emc_table.csv"):
        for humidity in range(5, 100, 5):
            printed = float(row[f"emc_pct_rh_{humidity:02d}"])
            found = equilibrium(float(row["temperature_f"]), humidity)
            apart.append(abs(found - printed))
            same += round(found, 1) == printed
    assert len(apart) == 342
    # Rounding alone hides 0.05.
    assert max(apart) < 0.056
    assert same >= 332


# --- weight and amounts


def test_every_species_weighs_by_its_specific_gravity() -> None:
    """Chapter 4: 1000 kg/m³ × specific gravity × 1.12 at 12 %, a litre's cube."""
    for wood, row in woods():
        expected = 1.12 * 1000 * float(row["specific_gravity_12pct"])
        cube = Dimensions(mm(100), mm(100), mm(100))
        part = Part("cube", "Cube", 1, wood.key, cube, cube)
        made = complete(Design("f", "F", {}, (), (part,)), object(), Shop())
        (weight,) = (one.value for one in made.sizes if one.key == "weight")
        assert isinstance(weight, Fraction)
        assert float(weight) == pytest.approx(expected), wood.key


NAVY = "US Navy engineering-aid training text, printed"
UNITS = "exact units, computed"
HANDBOOK = "specific gravity of FPL-GTR-190, computed"


@pytest.mark.parametrize(
    ("thickness", "width", "length", "key", "value", "source"),
    [
        ("1 in", "6 in", "96 in", "board_feet", 4, NAVY),
        ("1 in", "9 in", "96 in", "board_feet", 6, NAVY),
        ("1.5 in", "9 in", "96 in", "board_feet", 9, NAVY),
        ("2 in", "4 in", "14 ft", "board_feet", 28 / 3, UNITS),
        ("1.25 in", "7.5 in", "96 in", "board_feet", 6.25, UNITS),
        ("3/4 in", "6 in", "48 in", "board_feet", 1.5, UNITS),
        ("25 mm", "150 mm", "2400 mm", "board_feet", 3.8140, UNITS),
        ("25 mm", "150 mm", "2400 mm", "cubic_metres", 0.009, UNITS),
        ("1 in", "12 in", "12 in", "cubic_metres", 0.002359737216, UNITS),
        ("1 in", "12 in", "12 in", "mass", 1453.60, HANDBOOK),
    ],
)
def test_a_walnut_board_is_measured_as_printed(
    capsys: pytest.CaptureFixture[str],
    thickness: str,
    width: str,
    length: str,
    key: str,
    value: float,
    source: str,
) -> None:
    """The check values of lumber_measure.md, through the command itself."""
    sides = ("--thickness", thickness, "--width", width, "--length", length)
    found = told(capsys, "black walnut", *sides)[key]["value"]
    assert found == pytest.approx(value, rel=2e-5), source


def told(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert cli.main(["wood", *words, "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    return {size["key"]: size for size in document["sizes"]}


def test_heavier_pieces_weigh_as_computed(capsys: pytest.CaptureFixture[str]) -> None:
    """lumber_measure.md, weight: a white oak slab; sapele's fact sheet, 42 lb/ft³."""
    slab = ("--thickness", "25 mm", "--width", "1000 mm", "--length", "3000 mm")
    oak = told(capsys, "white oak", *slab)
    assert oak["mass"]["value"] == pytest.approx(57_120)
    assert told(capsys, "black walnut")["density"]["value"] == 616
    sapele = told(capsys, "sapele")["density"]["text"]
    assert round(float(sapele.split()[0])) == 42


# --- glue and finish


def spread(topic: str, quantity: str) -> float:
    (row,) = (
        row
        for row in rows("finishing_and_glue.csv")
        if row["topic"] == topic and row["quantity"] == quantity
    )
    return float(row["value"])


COVERAGE = {
    "oil varnish": ("varnish", "coverage per coat"),
    "waterborne varnish": ("waterborne", "coverage per coat"),
    "penetrating oil": (
        "oil",
        "coverage, penetrating oil on planed hardwood, first coat",
    ),
    "wax": ("wax", "coverage"),
}


@pytest.mark.parametrize("name", COVERAGE)
def test_a_litre_covers_what_the_table_says(name: str) -> None:
    """finishing_and_glue.csv, coverage rows (common practice, no source)."""
    area = round(spread(*COVERAGE[name]) * SQUARE_METRE)
    assert taken("finish", Common(finish=name, coats=1), finish_area=area) == 1000
    assert taken("finish", Common(finish=name, coats=3), finish_area=area) == 3000


def test_every_finish_but_one_has_its_coverage_in_the_table() -> None:
    """Shellac's is common practice, from memory, and is named so in our own table."""
    assert {one.name for one in FINISHES} - {*COVERAGE} == {"shellac"}


def test_a_litre_of_glue_spreads_over_the_computed_area() -> None:
    """finishing_and_glue.csv: 200 g/m² at 1.08 kg/l is 5.4 m² a litre, computed."""
    area = spread("PVA glue", "coverage at 200 g/m2 and 1.08 kg/L")
    assert area == 5.4
    joints = (Joint("edges", round(area * SQUARE_METRE)),)
    assert taken("glue", Common(), joints=joints) == pytest.approx(1000)


def taken(key: str, inputs: Common, **facts: Any) -> float:
    cube = Dimensions(mm(100), mm(100), mm(100))
    parts = (Part("cube", "Cube", 1, "walnut", cube, cube),)
    made = complete(Design("f", "F", {}, (), parts, **facts), inputs, Shop())
    (value,) = (one.value for one in made.sizes if one.key == key)
    assert isinstance(value, Fraction)
    return float(value)


def gallons(count: int) -> Fraction:
    """In litres: a US gallon is 128 fluid ounces."""
    return count * 128 * ML_PER_FLUID_OUNCE / 1000


@pytest.mark.parametrize(
    ("quantity", "ours"),
    [
        ("1 ft2/US gal", Fraction("0.3048") ** 2 / gallons(1)),
        ("400 ft2/US gal", 400 * Fraction("0.3048") ** 2 / gallons(1)),
        ("1 lb/ft2 as mass per area", GRAMS_PER_POUND / 1000 / Fraction("0.09290304")),
        (
            "1 lb per 1000 ft2 glue line",
            KG_M3_PER_LB_FT3 * Fraction("0.3048"),
        ),
    ],
)
def test_our_units_give_the_tables_conversions(quantity: str, ours: Fraction) -> None:
    """finishing_and_glue.csv, units rows, computed from exact definitions."""
    assert float(ours) == pytest.approx(spread("units", quantity), rel=1e-5)


def test_every_row_of_finishing_and_glue_is_ours_to_the_figure() -> None:
    ours = {(row["topic"], row["quantity"]): row["value"] for row in table("finishing")}
    for row in rows("finishing_and_glue.csv"):
        assert ours[row["topic"], row["quantity"]] == row["value"], row["quantity"]
