"""Patterns as a form asks for them, and the panels a design is given."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from app.core.errors import WorkshopError
from app.core.forms._panel_tables import panel_sizes, panel_tables
from app.core.forms._pattern_drawing import Flat, pattern_drawing
from app.core.forms._patterned import Patterned, pattern_warnings, read_pattern
from app.core.forms._strip_panels import (
    glue_ups,
    panel_steps,
    part_key,
    rip_panels,
    side_parts,
)
from app.core.inputs import read
from app.core.length import Display, inches
from app.core.part import Dimensions, Part
from app.core.pattern import Cut, Pattern, panels, ways
from app.core.pattern_kinds import alternating
from app.core.shop import Shop
from tests.drawings import crowded

SHOP = Shop()
SIZE = Dimensions(inches("4"), inches("3"), inches("1/2"))
WALL = Part("wall", "Wall", 0, "", SIZE, SIZE)
WIDTHS = (inches("1"),) * 3
CUT = Cut(
    inches("4"),
    inches("1 1/8"),
    inches("9/16"),
    inches("1/8"),
    inches("1/2"),
    spares=1,
)


def asked(**typed: str) -> Patterned:
    return read(Patterned, typed, SHOP)


def pattern(sides: int = 6, **typed: str) -> Pattern:
    inputs = asked(**typed)
    return read_pattern(inputs, sides, inputs.strip_rows)


def test_without_a_word_the_species_repeat_from_the_bottom_up() -> None:
    assert pattern(2).rows == (("walnut",) * 2, ("maple",) * 2, ("walnut",) * 2)


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ({"strip_rows": "1"}, "strip_rows"),
        ({"pattern": "mirrored", "species": "ash, oak, elm"}, "strip_rows"),
        ({"pattern": "own", "own_pattern": "ash\noak"}, "strip_rows"),
        ({"pattern": "blend", "blend_rows": "9"}, "blend_rows"),
        ({"pattern": "blend", "species": "ash"}, "species"),
        ({"pattern": "blend", "species": "ash, oak, elm"}, "species"),
        ({"pattern": "own"}, "own_pattern"),
    ],
)
def test_a_pattern_that_does_not_fit_is_refused_and_the_nearest_works(
    typed: dict[str, str], key: str
) -> None:
    with pytest.raises(WorkshopError) as refusal:
        pattern(6, **typed)
    error = refusal.value
    assert (error.input, str(error)[-1]) == (key, ".")
    mended = pattern(6, **typed | {key: error.nearest})
    assert len(mended.rows) == asked(**typed | {key: error.nearest}).strip_rows or 1


@pytest.mark.parametrize(
    ("sides", "typed", "jumps"),
    [
        (6, {"pattern": "alternating"}, False),
        (5, {"pattern": "alternating"}, True),
        (5, {"pattern": "stepped", "step_rows": "2"}, False),
        (5, {"pattern": "bands"}, False),
    ],
)
def test_bands_that_do_not_meet_at_the_last_side_are_told(
    sides: int, typed: dict[str, str], jumps: bool
) -> None:
    told = pattern_warnings(asked(**typed), pattern(sides, **typed))
    assert bool(told) == jumps


def test_a_pattern_of_ones_own_that_is_not_chosen_is_told() -> None:
    typed = {"own_pattern": "ash", "pattern": "bands"}
    (told,) = pattern_warnings(asked(**typed), pattern(6, **typed))
    assert "is not used" in told


def test_one_panel_gives_one_part_with_its_woods_by_share() -> None:
    found = panels(pattern(), CUT)
    (panel,) = glue_ups(found, CUT, WIDTHS)
    assert (panel.key, panel.name, panel.quantity) == ("wall_panel", "Wall panel", 1)
    assert [(s.species, s.quantity) for s in panel.strips] == [
        ("walnut", 1),
        ("maple", 1),
        ("walnut", 1),
    ]
    wall, spare = side_parts(WALL, found)
    assert (wall.key, wall.quantity, wall.species) == ("wall", 6, "walnut, maple")
    assert wall.woods == (("walnut", Fraction(2, 3)), ("maple", Fraction(1, 3)))
    assert (spare.key, spare.quantity, spare.spare) == ("wall-spare", 1, True)
    assert part_key(found, 5) == "wall"


def test_several_panels_give_parts_and_glue_ups_that_name_each_other() -> None:
    found = panels(pattern(pattern="alternating"), CUT)
    made = glue_ups(found, CUT, WIDTHS)
    assert [one.key for one in made] == ["wall_panel_a", "wall_panel_b"]
    parts = side_parts(WALL, found)
    assert [(one.key, one.quantity, one.glue_up) for one in parts] == [
        ("wall_a", 3, "wall_panel_a"),
        ("wall-spare", 1, "wall_panel_a"),
        ("wall_b", 3, "wall_panel_b"),
    ]
    assert [part_key(found, side) for side in range(3)] == [
        "wall_a",
        "wall_b",
        "wall_a",
    ]
    set_up = rip_panels(made, SHOP)
    assert set_up.key == "rip-wall-panel"
    assert "6 strips" in set_up.cuts
    assert {step.set_up for step in panel_steps(made, SHOP)} == {"rip-wall-panel", ""}


def test_every_panel_holds_the_sides_that_come_from_it() -> None:
    for kind in ("bands", "alternating", "stepped", "mirrored", "blend"):
        found = panels(pattern(7, pattern=kind), CUT)
        for panel, glue_up in zip(found, glue_ups(found, CUT, WIDTHS), strict=True):
            kerfs = CUT.kerf * (panel.each - 1)
            assert glue_up.panel.length >= CUT.wall * panel.each + kerfs
            lies = sum(s.quantity * s.finished_width.nm for s in glue_up.strips)
            assert lies == glue_up.panel.width.nm


def test_a_single_row_is_a_plain_board_for_each_species() -> None:
    found = panels(Pattern((("walnut", "maple", "walnut"),)), CUT)
    assert glue_ups(found, CUT, WIDTHS[:1]) == ()
    made = side_parts(WALL, found)
    assert [(one.species, one.glue_up) for one in made] == [
        ("walnut", ""),
        ("walnut", ""),
        ("maple", ""),
    ]


def test_the_tables_tell_the_panels_and_compare_the_ways() -> None:
    turning = Cut(CUT.wall, *(inches("1"),) * 4, may_turn=True)
    found = ways(pattern(4, strip_rows="2", pattern="alternating"), turning)
    listed, compared = panel_tables(found, SHOP)
    assert listed.rows[0][-1] == "1, 3; turned upside down: 2, 4"
    assert len(compared.rows) == len(found) > 1
    assert compared.rows[0][-1] == "the way taken"
    sizes = {size.key: size.value for size in panel_sizes(found, turning, SHOP)}
    assert sizes["panel_count"] == 1
    assert sizes["strips_to_rip"] == 2


@pytest.mark.parametrize("sides", [1, 3, 16, 40])
def test_the_picture_shows_every_strip_in_its_wood(sides: int) -> None:
    flat = Flat(pattern(sides), inches("4"), inches("5"), WIDTHS)
    drawing = pattern_drawing(flat, SHOP)
    shown = [shape.species for shape in drawing.shapes]
    assert shown.count("walnut") == 2 * sides
    assert shown.count("maple") == sides


@pytest.mark.parametrize("display", [Display(), Display(both=True)])
@pytest.mark.parametrize("sides", [1, 2, 6, 16, 40])
@pytest.mark.parametrize("rows", [1, 4, 40])
@pytest.mark.parametrize(("bottom", "top"), [("4", "4"), ("2", "5"), ("30", "20")])
def test_no_text_of_the_picture_stands_on_another(
    display: Display, sides: int, rows: int, bottom: str, top: str
) -> None:
    made = alternating(("ash", "oak", "elm"), rows, sides)
    found = panels(made, replace(CUT, may_turn=True))
    flat = Flat(made, inches(bottom), inches(top), (inches("1/2"),) * rows, found)
    assert not crowded(pattern_drawing(flat, Shop(display=display)))
