"""Carcasses: worked sizes, sag, refusals, set-ups, spares, steps."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core import registry
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.length import Length, inches, mm, show
from app.core.shop import Shop

SHOP = Shop()


def built(typed: dict[str, str], shop: Shop = SHOP) -> Design:
    return registry.work_out("carcass", typed, shop)


def case(**typed: object) -> Design:
    return built({key: str(value) for key, value in typed.items()})


def length(design: Design, key: str) -> Length:
    value = next(size.value for size in design.sizes if size.key == key)
    assert isinstance(value, Length)
    return value


def part(design: Design, key: str):  # type: ignore[no-untyped-def]
    return next(part for part in design.parts if part.key == key)


def set_up(design: Design, key: str):  # type: ignore[no-untyped-def]
    return next(one for one in design.set_ups if one.key == key)


# Worked by hand for 24 × 36 × 11 in, boards 3/4, dadoes 1/4, back 1/4, two shelves:
# 24 less 1 1/2 is 22 1/2 between the sides, and a dado takes 1/4 at each end.
@pytest.mark.parametrize(
    ("key", "expected"),
    [
        ("inside_width", "22 1/2"),
        ("inside_height", "34 1/2"),
        ("shelf_length", "23"),
        ("shelf_depth", "10 3/4"),
        ("opening", "11"),
        ("shelf_1_up", "11 3/4"),
        ("shelf_2_up", "23 1/2"),
        ("back_width", "23"),
        ("back_height", "35"),
    ],
)
def test_a_case_of_24_by_36_comes_out_as_worked_by_hand(
    key: str, expected: str
) -> None:
    assert length(case(), key) == inches(expected)


def test_a_solid_back_is_smaller_by_its_room_and_a_sheet_is_not() -> None:
    solid = case(back="solid wood", back_room="1/16 in")
    assert length(solid, "back_width") == inches("22 7/8")
    held = next(one for one in solid.moving if one.key == "back_width")
    assert held.room == inches("1/8")
    assert {one.key for one in case().moving} == {"board_depth", "shelf_depth"}
    assert case(material="plywood").moving == ()


# Worked by hand: white oak at 1.78 million psi, load 30 kg/m is 1.680 lbf/in, 23 in
# long, 10 3/4 by 3/4: I = 0.37793 in⁴. 5 · 1.680 · 23⁴ / (384 · 1.78e6 · 0.37793) in.
def test_a_shelf_of_white_oak_sags_as_worked_by_hand_in_inches() -> None:
    sagged = length(case(shelf_load=30), "shelf_sag")
    pounds_per_inch = 30 * 0.0254 / 0.45359237
    moment = 10.75 * 0.75**3 / 12
    wanted = 5 * pounds_per_inch * 23**4 / (384 * 1.78e6 * moment)
    assert float(sagged.inches) == pytest.approx(wanted, abs=3e-8)
    assert wanted == pytest.approx(0.0091, abs=5e-5)


def test_twice_as_long_sags_sixteen_times_and_twice_as_thick_an_eighth() -> None:
    short = case(width="21 1/2 in", dado_depth="1/4 in")  # shelves 20 1/2 in
    long = case(width="42 in", dado_depth="1/4 in")  # shelves 41 in
    ratio = Fraction(length(long, "shelf_sag").nm, length(short, "shelf_sag").nm)
    assert float(ratio) == pytest.approx(16, rel=1e-4)
    thick = case(width="23 in", thickness="1 1/2 in", dado_depth="1/4 in")
    ratio = Fraction(length(short, "shelf_sag").nm, length(thick, "shelf_sag").nm)
    assert length(thick, "shelf_length") == length(short, "shelf_length")
    assert float(ratio) == pytest.approx(8, rel=1e-4)


def test_the_thickness_that_sags_unseen_does_so_for_years() -> None:
    long = {"width": "48 in", "shelf_load": "40"}
    needed = length(built(long), "thickness_for_unseen")
    assert needed > inches("3/4")
    # In boards that thick, the load alone and for years: no more than the eye allows.
    wide = inches("46 1/2") + needed * 2
    again = built(
        long
        | {
            "width": f"{float(wide.millimetres):.6f} mm",
            "thickness": f"{float(needed.millimetres):.6f} mm",
            "dado_depth": "1/4 in",
        }
    )
    assert length(again, "shelf_length") == length(built(long), "shelf_length")
    assert length(again, "shelf_sag") * 2 <= length(again, "sag_unseen")


def test_a_wood_without_published_stiffness_says_so_and_is_built_all_the_same() -> None:
    design = case(species="moonwood")
    assert "shelf_sag" not in {size.key for size in design.sizes}
    assert any("stiffness" in told for told in design.warnings)


def test_a_long_shelf_under_books_is_warned_of() -> None:
    assert any("1/360" in told for told in case(width="60 in", material="mdf").warnings)
    assert not any("sag" in told for told in case(shelf_load=5).warnings)


def test_solid_boards_are_glued_up_and_sheets_are_not() -> None:
    solid = {one.key: one for one in case().glue_ups}
    assert solid["side_panel"].quantity == 2
    # 11 in and 1/8 over, 5 in at most: three strips.
    assert sum(strip.quantity for strip in solid["side_panel"].strips) == 3
    sheet = case(material="plywood")
    assert sheet.glue_ups == ()
    side = part(sheet, "side")
    assert side.blank.thickness == side.finished.thickness
    assert sheet.steps[0].key == "break-down"


def test_grain_runs_up_the_sides_and_along_the_shelves() -> None:
    design = case()
    assert part(design, "side").finished.length == inches("36")
    assert part(design, "shelf").finished.length == inches("23")


def test_both_sides_are_worked_as_a_pair_from_one_story_stick() -> None:
    dado = set_up(case(), "dado")
    assert dado.machine == "router"
    assert "11 3/4 in, 23 1/2 in up" in dado.cuts
    assert "one pass cuts both" in dado.cuts
    table = next(one for one in case().tables if one.key == "story_stick")
    assert table.rows[1] == ("Shelf 1", "11 3/4 in", "12 1/2 in")


def test_what_the_sled_does_not_take_is_sawn_along_a_guide() -> None:
    design = case(height="60 in")
    assert set_up(design, "cut-sides").machine == "hand saw"
    assert "guide" in set_up(design, "cut-sides").cuts
    assert set_up(design, "cut-shelves").machine == "crosscut sled"


def test_a_side_wider_than_the_planer_is_levelled_by_hand() -> None:
    steps = {step.key: step for step in case(depth="16 in").steps}
    assert steps["plane-side-panel"].tool == "hand plane"
    assert {step.key: step for step in case().steps}[
        "plane-side-panel"
    ].tool == "thickness planer"


def test_holes_stand_clear_of_boards_and_one_pitch_apart() -> None:
    design = case(pins="yes")
    first = length(design, "pin_first_up")
    # Space of 11 in, 2 in clear at both ends: 7 in hold 6 holes 1 1/4 in apart, which
    # span 6 1/4 and stand in the middle: 3/4 + (11 - 6 1/4) / 2.
    assert first == inches("3 1/8")
    holes = next(size.value for size in design.sizes if size.key == "pin_holes")
    assert holes == 4 * 3 * 6


def test_adjustable_shelves_bring_their_holes_and_their_play() -> None:
    design = case(loose_shelves=2)
    assert design.inputs["pins"] == "yes"
    assert length(design, "loose_shelf_length") == inches("22 3/8")
    lows = [
        min(z for cell in piece.cells for _, _, z in cell.points())
        for piece in design.assembly
        if piece.part == "loose_shelf"
    ]
    assert len(set(lows)) == 2


def test_strips_on_the_edges_count_in_the_depth() -> None:
    design = case(material="plywood", edge_strip="1/2 in", edge_species="white oak")
    assert length(design, "shelf_depth") == inches("10 1/4")
    assert part(design, "shelf_edge").quantity == 4
    assert part(design, "shelf_edge").finished.length == inches("22 1/2")
    assert part(design, "side_edge").finished.length == inches("36")


def test_spares_are_in_the_blanks_and_in_the_panels() -> None:
    design = case(spares=2)
    assert (
        part(design, "shelf-spare").quantity,
        part(design, "shelf-spare").spare,
    ) == (
        2,
        True,
    )
    panel = next(one for one in design.glue_ups if one.key == "shelf_panel")
    assert panel.quantity == 4


def test_a_part_may_have_its_own_over_size() -> None:
    design = case(over_size="side: length 1 in")
    assert part(design, "side").blank.length == inches("37")


def test_insides_are_finished_first_and_a_tall_case_is_fastened_to_the_wall() -> None:
    order = [step.key for step in case(pins="yes").steps]
    assert order.index("pins") < order.index("finish-inside") < order.index("assemble")
    assert order[-1] == "to-the-wall"
    assert "to-the-wall" not in [step.key for step in case(height="20 in").steps]


@pytest.mark.parametrize(
    ("typed", "key", "nearest"),
    [
        ({"dado_depth": "3/4 in"}, "dado_depth", "1/4 in"),
        ({"shelves": "20"}, "shelves", "14"),
        ({"back_room": "1/4 in"}, "back_room", "1/16 in"),
        ({"pins": "yes", "pin_depth": "1 in"}, "pin_depth", "1/2 in"),
    ],
)
def test_a_refusal_names_the_input_and_what_would_work(
    typed: dict[str, str], key: str, nearest: str
) -> None:
    with pytest.raises(WorkshopError) as refused:
        built(typed)
    assert (refused.value.input, refused.value.nearest) == (key, nearest)
    built(typed | {key: nearest})


def test_a_kerf_moves_the_fence_for_the_last_pass_of_the_rebate() -> None:
    thin = built({}, replace(SHOP, kerf=inches("1/16")))
    assert "3/16 in from the blade" in set_up(thin, "rebate-back").cuts


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 6), st.integers(600, 2000), st.integers(12, 30))
def test_boards_and_spaces_add_up_to_the_height(
    shelves: int, high: int, thick: int
) -> None:
    design = case(shelves=shelves, height=f"{high} mm", thickness=f"{thick} mm")
    boards = mm(thick) * (shelves + 2)
    spaces = length(design, "opening") * (shelves + 1)
    assert abs((boards + spaces - mm(high)).nm) <= shelves + 1


def test_a_drill_is_named_by_its_own_size_and_every_hole_has_a_cross() -> None:
    design = case(pins="yes")
    assert "holes 5 mm wide" in set_up(design, "pins").cuts
    drawn = next(one for one in design.drawings if one.key == "pins-template")
    assert drawn.true_size
    holes = [shape for shape in drawn.shapes if len(shape.points) == 12]
    middles = {
        (
            round(sum(p.x for p in hole.points) / 12 / 1e4),
            round(sum(p.y for p in hole.points) / 12 / 1e4),
        )
        for hole in holes
    }
    crosses = {
        (
            round((line.start.x + line.end.x) / 2 / 1e4),
            round((line.start.y + line.end.y) / 2 / 1e4),
        )
        for line in drawn.lines
    }
    # The strip itself has none that could be drilled by mistake.
    assert middles <= crosses
    pitch = inches("1 1/4").nm
    ups = sorted(sum(p.y for p in hole.points) / 12 for hole in holes)
    assert all(abs(high - low - pitch) < 10 for low, high in pairwise(ups))


def test_sheets_with_a_back_of_boards_are_broken_down_and_the_back_is_planed() -> None:
    keys = [one.key for one in case(material="mdf", back="solid wood").steps]
    assert keys.index("break-down") < keys.index("joint-stock")
    assert "plane-back-panel" in keys
    assert "plane-side" not in keys
    narrow = [one.key for one in case(depth="4 in", edge_strip="5 mm").steps]
    assert "plane-side" in narrow
    assert not [key for key in narrow if key.startswith("plane-") and "edge" in key]


def test_boards_that_lie_on_pins_come_with_four_pins_each() -> None:
    design = case(loose_shelves="3")
    pins = next(step for step in design.steps if step.key == "pins")
    assert [(one.name, one.quantity) for one in pins.supplies] == [("shelf pins", "12")]


def test_the_face_that_the_blade_splinters_is_the_one_that_does_not_show() -> None:
    found = {one.key: one.face_down for one in case(back="plywood").set_ups}
    assert found["cut-sides"].startswith("inner face")
    assert found["cut-back"].startswith("the face that will be behind")
    assert found["rip-back"].startswith("the face that shows less")


def test_strips_for_the_front_are_ripped_as_thick_as_their_blanks() -> None:
    design = case(edge_strip="1/2 in")
    rip = next(one for one in design.set_ups if one.key == "rip-edges")
    blank = next(one for one in design.parts if one.key == "side_edge").blank
    assert str(show(blank.thickness)) in rip.cuts


def test_only_the_back_is_said_to_stand_in_the_back() -> None:
    found = {one.key: one.detail for one in case(back="solid wood").steps}
    assert "top and shelves" not in found["glue-back-panel"]
    assert "top and shelves" in found["glue-side-panel"]


def test_a_case_without_back_and_shelves_is_told_of_neither() -> None:
    design = case(material="plywood", back="none", shelves=0, edge_strip="6 mm")
    told = {step.key: step.detail for step in design.steps}
    assert "the back in dry" not in told["assemble"]
    assert "grain" not in told["assemble"]
    assert "shelf" not in told["dry-fit"]
    assert "thinner than their name" in told["rebate-ends"]
    assert "jointed" in told["rip-edges"]
