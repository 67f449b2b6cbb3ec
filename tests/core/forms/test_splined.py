"""Splines as a form asks for them, and what they add to its design."""

from __future__ import annotations

import pytest

from app.core.allowance import Over
from app.core.corner_splines import Room, Splines
from app.core.errors import WorkshopError
from app.core.forms._spline_drawing import spline_drawing
from app.core.forms._spline_steps import spline_steps, spline_warnings
from app.core.forms._spline_work import (
    spline_joint,
    spline_key,
    spline_parts,
    spline_set_up,
    spline_sizes,
    spline_table,
)
from app.core.forms._splined import Corners, Splined, read_splines, understood_splines
from app.core.inputs import read
from app.core.length import inches
from app.core.safety import cautions
from app.core.shop import Shop
from tests.drawings import crowded

SHOP = Shop()
ROOM = Room(inches("1/2"), inches("6"))
STRIPS = (inches("2"),) * 3
CORNERS = Corners(6, inches("1/2"), inches("4"), ROOM, "maple", STRIPS)


def asked(**typed: str) -> Splined:
    return read(Splined, {"splines_per_corner": "2"} | typed, SHOP)


def made(corners: Corners = CORNERS, **typed: str) -> Splines:
    found = read_splines(asked(**typed), corners, SHOP)
    assert found is not None
    return found


def test_none_asked_is_none_made() -> None:
    assert read_splines(asked(splines_per_corner="0"), CORNERS, SHOP) is None


def test_half_the_corner_is_cut_where_nothing_is_said() -> None:
    found = made()
    assert abs((found.depth * 2 - found.corner_thickness).nm) <= 1
    # Two splines between base and rim: thirds of 5 1/2 in above 1/2 in.
    assert [one.nm for one in found.heights] == [59_266_667, 105_833_333]


def test_a_stated_cheek_is_left_behind_the_slots() -> None:
    found = made(spline_cheek="1/8 in")
    assert found.cheek == inches("1/8")


@pytest.mark.parametrize(
    ("places", "heights"),
    [("strips", ("1", "5")), ("joints", ("2", "4"))],
)
def test_rows_stand_by_the_strips_where_that_is_asked(
    places: str, heights: tuple[str, ...]
) -> None:
    found = made(spline_places=places)
    assert found.heights == tuple(inches(one) for one in heights)


NARROW = Corners(12, inches("1/2"), inches("1"), ROOM, "maple")
THICK = {
    "spline_thickness": "0.9 in",
    "spline_places": "strips",
    "splines_per_corner": "3",
}
TINY = Corners(16, inches("1/2"), inches("1/8"), ROOM, "maple")


@pytest.mark.parametrize(
    ("corners", "typed", "key"),
    [
        (CORNERS, {"spline_cheek": "1/8", "spline_depth_share": "1/2"}, "spline_cheek"),
        (CORNERS, {"spline_cheek": "1 in"}, "spline_cheek"),
        (NARROW, {}, "spline_depth_share"),
        (NARROW, {"spline_cheek": "1/8"}, "spline_cheek"),
        (TINY, {}, "splines_per_corner"),
        (CORNERS, {"spline_thickness": "0.9 in", "splines_per_corner": "9"}, None),
        (CORNERS, {"splines_per_corner": "3", "spline_places": "joints"}, None),
        (
            NARROW,
            {"spline_places": "joints", "spline_depth_share": "0.1"},
            "spline_places",
        ),
        (CORNERS, THICK, None),
    ],
)
def test_splines_that_cannot_be_let_in_are_refused_and_the_nearest_works(
    corners: Corners, typed: dict[str, str], key: str | None
) -> None:
    with pytest.raises(WorkshopError) as refusal:
        made(corners, **typed)
    error = refusal.value
    assert error.input == (key or "splines_per_corner")
    assert str(error).endswith(".")
    if error.nearest:
        read_splines(asked(**typed | {error.input: error.nearest}), corners, SHOP)
    else:
        assert error.input == "spline_cheek"
        assert len(typed) == 2


def test_what_was_understood_gives_the_same_splines_again() -> None:
    for typed in ({}, {"spline_cheek": "1/8"}, {"spline_depth_share": "0.3"}):
        inputs = asked(**typed)
        splines = read_splines(inputs, CORNERS, SHOP)
        again = asked(**typed | understood_splines(inputs, splines))
        assert read_splines(again, CORNERS, SHOP) == splines


def test_splines_of_one_wood_are_one_part_and_of_two_two() -> None:
    over = Over(inches("1/4"), inches("1/8"), inches("1/16"))
    (one,) = spline_parts(made(), over)
    assert (one.key, one.quantity, one.species) == ("spline", 12, "maple")
    assert one.blank.width - one.finished.width == inches("1/8")
    both = made(spline_species="walnut, maple", splines_per_corner="3")
    parts = spline_parts(both, over)
    assert [(part.key, part.quantity) for part in parts] == [
        ("spline_a", 12),
        ("spline_b", 6),
    ]
    assert [spline_key(both, row) for row in range(3)] == [
        "spline_a",
        "spline_b",
        "spline_a",
    ]


def test_the_set_up_names_every_stop_and_the_last_pass() -> None:
    found = spline_set_up(made(), inches("1/8"), SHOP, "vessel")
    assert found.stop is not None
    assert "2 9/32 in, 4 3/32 in" in found.cuts
    assert "last one" not in found.cuts
    thick = spline_set_up(made(spline_thickness="1/4"), inches("1/8"), SHOP, "vessel")
    assert "at the last one it stands" in thick.cuts
    assert cautions(found.cautions)


def test_the_table_has_a_last_pass_only_where_there_is_one() -> None:
    assert len(spline_table(made(), inches("1/8"), SHOP).headings) == 4
    table = spline_table(made(spline_thickness="1/4"), inches("1/8"), SHOP)
    assert [len(row) for row in (table.headings, *table.rows)] == [5, 5, 5]


@pytest.mark.parametrize("sides", [3, 4, 6, 16])
def test_the_corner_is_drawn_so_that_it_can_be_read(sides: int) -> None:
    corners = Corners(sides, inches("1/2"), inches("9"), ROOM, "maple")
    drawing = spline_drawing(made(corners), SHOP, ("walnut", "walnut"))
    assert [shape.species for shape in drawing.shapes] == ["walnut", "walnut", "maple"]
    assert not crowded(drawing)


def test_the_steps_carry_cautions_and_name_the_woods() -> None:
    steps = spline_steps(made(), SHOP)
    assert [step.key for step in steps] == [
        "spline-slots",
        "spline-stock",
        "glue-splines",
        "trim-splines",
    ]
    assert "12 of maple, from offcuts of the same wood" in steps[1].detail
    assert all(cautions(step.cautions) for step in steps)


def test_weak_mitres_loose_splines_and_thin_cheeks_are_told() -> None:
    kerf = inches("1/8")
    (weak,) = spline_warnings(None, kerf, SHOP)
    assert "end grain" in weak
    assert spline_warnings(made(), kerf, SHOP) == []
    (loose,) = spline_warnings(made(spline_thickness="1/16"), kerf, SHOP)
    assert "would be loose" in loose
    (thin,) = spline_warnings(made(spline_depth_share="0.85"), kerf, SHOP)
    assert "break through" in thin


def test_the_glue_that_splines_add_is_said_beside_the_end_grain() -> None:
    found = made()
    sizes = {one.key: one for one in spline_sizes(found, None, inches("6"), SHOP)}
    area = spline_joint(found).area
    assert sizes["spline_glue_area"].value == area
    assert 0 < float(sizes["spline_glue_share"].value) < 1  # type: ignore[arg-type]
    assert not spline_joint(found).end_grain
