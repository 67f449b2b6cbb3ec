"""Laminated boards: sizes, the wood each operation takes, set-ups and steps."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core import registry, shopwork
from app.core.design import Design
from app.core.forms._board_balance import balance
from app.core.forms._board_inputs import Inputs
from app.core.forms._board_parts import parts, volume_of
from app.core.forms._board_resolve import resolve
from app.core.inputs import read
from app.core.length import Display, Length, inches, mm, show
from app.core.movement import PanelStrip, Piece, PieceKind, Taken
from app.core.panel_cuts import kerf_and_scrap
from app.core.safety import cautions
from app.core.shop import Shop
from tests.core.forms.grid_laminated_board import GRID
from tests.drawings import crowded

SHOP = Shop()
NOTHING_OVER = (
    "board: length 0, width 0, thickness 0; panel: length 0, width 0, thickness 0; "
    "strip: length 0, width 0, thickness 0"
)


def made(**typed: str) -> Design:
    return registry.work_out("laminated_board", typed, SHOP)


def end(**typed: str) -> Design:
    return made(grain="end", **typed)


def sizes(design: Design) -> dict[str, object]:
    return {one.key: one.value for one in design.sizes}


def test_an_edge_grain_board_is_its_strips_side_by_side() -> None:
    found = sizes(made(length="16", width="10", strip_width="1 1/4"))
    assert found["strip_count"] == 8
    assert found["slice_count"] == 0
    assert found["first_panel_length"] == inches("16")
    assert found["first_panel_width"] == inches("10")


def test_an_end_grain_board_is_sliced_from_its_first_panel() -> None:
    # Worked by hand: 12 slices of 1 1/4 in and 1/16 in to level, 11 kerfs of 1/8 in.
    found = sizes(end(length="18", width="12", thickness="1 1/4", strip_width="1 1/2"))
    assert found["strip_count"] == 8
    assert found["slice_count"] == 12
    assert found["slice_thickness"] == inches("1 5/16")
    assert found["first_panel_length"] == inches("17 1/8")
    assert found["first_panel_width"] == inches("12")


def test_with_nothing_over_size_a_slice_is_as_thick_as_the_board() -> None:
    found = sizes(end(over_size=NOTHING_OVER, kerf="3 mm", length="300 mm",
                      slice_width="30 mm", thickness="40 mm"))  # fmt: skip
    assert found["first_panel_length"] == mm(10 * 40 + 9 * 3)
    assert found["first_panel_thickness"] == mm(30)


def test_strips_share_the_width_so_that_none_is_a_sliver() -> None:
    design = made(width="10", strip_width="1 1/2")
    (panel,) = design.glue_ups
    widths = [strip.finished_width.nm for strip in panel.strips]
    assert max(widths) - min(widths) <= 1
    assert max(widths) <= inches("1 1/2").nm


def test_an_edge_grain_board_is_one_part_and_an_end_grain_board_its_slices() -> None:
    (board,) = made().parts
    assert (board.key, board.glue_up) == ("board", "board_panel")
    slices = end(length="16", strip_width="2").parts
    assert sum(part.quantity for part in slices) == 8
    assert {part.glue_up for part in slices} == {"first_panel"}
    # The grain of a slice runs through the board's thickness.
    assert {part.finished.length for part in slices} == {inches("1 1/4")}


def test_strips_of_an_edge_grain_board_are_ripped_to_its_thickness_and_turned() -> None:
    design = made(length="16", width="9", thickness="1 1/4", strip_width="1")
    (panel,) = design.glue_ups
    strip = panel.strips[0].blank
    # The thickness and what planing takes; the stock stands across the board.
    assert strip.width == inches("1 5/16")
    assert strip.thickness >= inches("1 1/8")
    rip = next(one for one in design.set_ups if one.key == "rip-board-panel")
    assert rip.fence == inches("1 5/16")
    planed = next(step for step in design.steps if step.key == "plane-board-panel")
    assert planed.name.endswith("to 1 1/4 in")


@pytest.mark.parametrize("typed", GRID[::9])
def test_strips_cut_to_their_blanks_glue_up_into_the_panel(
    typed: dict[str, str],
) -> None:
    for panel in made(**typed).glue_ups:
        taken = [
            Taken(1, Piece(PieceKind.STRIP, strip.species, strip.blank), strip.quantity)
            for strip in panel.strips
        ]
        order = [
            PanelStrip(strip.species, strip.finished_width)
            for strip in panel.strips
            for _ in range(strip.quantity)
        ]
        glued = shopwork.glued_up(taken, order, panel.panel)
        assert glued.chips >= 0
        assert glued.made[0].piece.size == panel.panel


def test_the_kerfs_of_the_slices_are_recorded_as_kerf_where_the_board_is_built() -> (
    None
):
    design = end(over_size=NOTHING_OVER, length="300 mm", slice_width="30 mm",
                 width="200 mm", strip_width="40 mm", kerf="3 mm")  # fmt: skip
    (first,) = design.glue_ups
    piece = Piece(PieceKind.PANEL, "walnut + maple", first.panel)
    kerf, scrap = kerf_and_scrap([Taken(1, piece, 1)], design.parts, mm(3))
    # Nine kerfs through 200 × 30 mm, and nothing left over.
    assert kerf == 9 * 3 * 200 * 30 * 10**18
    assert scrap == 0


def test_slices_that_the_trim_makes_narrower_are_parts_of_their_own() -> None:
    design = end(length="400 mm", strip_width="40 mm")
    assert [(part.key, part.quantity) for part in design.parts] == [
        ("slice", 2),
        ("slice_2", 8),
    ]


def test_a_checked_end_grain_board_turns_every_other_slice() -> None:
    design = end(width="8", strip_width="1", pattern="alternating")
    assert [one.key for one in design.glue_ups] == ["first_panel"]
    turn = next(step for step in design.steps if step.key == "turn-slices")
    assert "end for end" in turn.detail


def test_a_checked_board_with_an_odd_count_of_strips_takes_two_panels() -> None:
    design = end(width="9", strip_width="1", pattern="alternating")
    assert [one.key for one in design.glue_ups] == ["first_panel_a", "first_panel_b"]
    assert {part.glue_up for part in design.parts} == {"first_panel_a", "first_panel_b"}


def test_a_pattern_of_ones_own_names_every_strip_of_every_slice() -> None:
    design = end(
        length="90 mm",
        width="60 mm",
        slice_width="30 mm",
        strip_width="30 mm",
        pattern="own",
        own_pattern="ash | cherry | ash\nwalnut | maple | walnut",
    )
    colours = [
        [cell.species for cell in piece.cells]
        for piece in sorted(
            design.assembly, key=lambda one: one.cells[0].faces[0][0][0]
        )
    ]
    assert colours == [["walnut", "ash"], ["maple", "cherry"], ["walnut", "ash"]]


@pytest.mark.parametrize("typed", GRID[::3])
def test_every_cubic_nanometre_of_the_strips_is_accounted_for(
    typed: dict[str, str],
) -> None:
    inputs = read(Inputs, typed, SHOP)
    board = resolve(inputs, SHOP)
    finished = volume_of(parts(board, inputs.spares))
    stages = balance(board, finished)
    assert all(stage.takes >= 0 for stage in stages)
    assert stages[0].left - sum(stage.takes for stage in stages) == stages[-1].left
    assert stages[-1].left == finished
    for before, after in pairwise(stages):
        assert before.left - after.takes == after.left
    strips = [s for one in made(**typed).glue_ups for s in [(one, one.strips)]]
    ripped = sum(
        one.quantity * strip.quantity * strip.blank.volume
        for one, group in strips
        for strip in group
    )
    assert ripped == stages[0].left
    # A trim halved over an odd nanometre may stand in the wrong slice.
    room = 4 * board.width.nm * board.thickness.nm
    assert abs(finished - board.volume) <= room


def test_the_table_names_each_glue_up_each_planing_and_the_kerf() -> None:
    table = next(one for one in end().tables if one.key == "takes_away")
    named = [row[0] for row in table.rows]
    assert named == [
        "Strips as ripped",
        "Edges jointed, first panel glued up",
        "The first panel planed",
        "Kerfs between the slices",
        "Ends of the first panel cut off",
        "Slices turned on end and glued again",
        "The board levelled on both faces",
        "Trimmed at its ends and edges",
        "All together",
    ]
    assert table.rows[5][1] == "nothing"


def test_a_groove_holds_what_its_frame_does() -> None:
    # 2 × (360 + 200 - 2 × 10) × 10 × 5 mm³ of a frame 20 mm in on 400 × 240 mm.
    found = sizes(
        made(length="400 mm", width="240 mm", thickness="32 mm", groove_inset="20 mm",
             juice_groove="one face", groove_width="10 mm", groove_depth="5 mm")
    )  # fmt: skip
    assert found["groove_holds"] == 54_000 * 10**18
    assert found["groove_middle"] == mm(25)
    assert found["wood_under_groove"] == mm(27)


def test_end_grain_never_goes_through_a_thickness_planer() -> None:
    design = end()
    keys = [step.key for step in design.steps]
    after = design.steps[keys.index("glue-board") :]
    assert all(step.tool != "thickness planer" for step in after)
    level = design.steps[keys.index("level-board")]
    assert level.tool == "router"
    assert "thickness-planer.end-grain" in level.cautions
    # The first panel is still long grain and is planed.
    planed = next(step for step in design.steps if step.key == "plane-first-panel")
    assert planed.tool == "thickness planer"


@pytest.mark.parametrize("grain", ["edge", "end"])
def test_steps_come_in_bench_order_with_cautions_that_exist(grain: str) -> None:
    design = made(grain=grain, juice_groove="both faces", feet="4")
    keys = [step.key for step in design.steps]
    order = ["joint-stock", "plane-stock", "trim-width", "trim-ends", "juice-groove"]
    order += ["ease-edges", "sand", "raise-grain", "finish-1", "finish-2", "feet"]
    assert [key for key in keys if key in order] == order
    for step in design.steps:
        cautions(step.cautions)


def test_what_meets_food_carries_its_caution_with_every_coat() -> None:
    coats = [step for step in made(coats="3").steps if step.key.startswith("finish-")]
    assert len(coats) == 3
    assert all("food-finish.chemical-in-food" in step.cautions for step in coats)


def test_a_board_too_long_for_the_sled_is_sawn_by_hand() -> None:
    ends = {one.key: one for one in made(length="48").set_ups}["trim-ends"]
    assert ends.machine == "hand saw"
    assert "48 in" in ends.cuts


def test_an_end_grain_board_moves_both_ways_and_an_edge_grain_one_in_thickness() -> (
    None
):
    # On edge, the stock's thickness lies across the board and moves less.
    assert [(one.key, one.across) for one in end().moving] == [
        ("width", "width"),
        ("length", "thickness"),
    ]
    assert [(one.key, one.across) for one in made().moving] == [
        ("width", "thickness"),
        ("thickness", "width"),
    ]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"grain": "end", "thickness": "1/2"}, "breaks easily"),
        ({"grain": "end", "width": "20"}, "glue it up in halves"),
        ({"grain": "end", "thickness": "1/4", "kerf": "1/8"}, "thinner blade"),
        ({"finish": "shellac"}, "chips under a knife"),
        ({"grain": "end", "species": "red oak, maple"}, "drinks what is cut on it"),
        ({"own_pattern": "ash"}, "is not used"),
    ],
)
def test_the_maker_is_warned(typed: dict[str, str], told: str) -> None:
    assert any(told in sentence for sentence in made(**typed).warnings)


def test_a_plain_board_has_no_warnings_of_its_own() -> None:
    assert not any("knife" in one or "breaks" in one for one in made().warnings)


def test_a_narrow_planer_refuses_nothing_and_takes_a_hand_plane() -> None:
    narrow = Shop(widest_planed=inches("6"))
    design = registry.work_out("laminated_board", {"grain": "end"}, narrow)
    planed = next(step for step in design.steps if step.key == "plane-first-panel")
    assert planed.tool == "hand plane"


@settings(max_examples=40, deadline=None)
@given(
    st.integers(130, 900),
    st.integers(130, 900),
    st.integers(20, 60),
    st.sampled_from(["bands", "alternating", "mirrored"]),
)
def test_a_pattern_back_to_front_takes_the_same_wood(
    length: int, width: int, strip: int, pattern: str
) -> None:
    typed = {
        "length": f"{length} mm",
        "width": f"{width} mm",
        "strip_width": f"{max(strip, width // 40 + 1, length // 40 + 1)} mm",
        "grain": "end",
        "pattern": pattern,
    }
    volumes = []
    for woods in ("walnut, maple", "maple, walnut"):
        design = made(**typed, species=woods)
        volumes.append(
            sum(part.volume * part.quantity for part in design.parts),
        )
        rips = [s for one in design.glue_ups for s in one.strips]
        volumes.append(sum(s.blank.volume * s.quantity for s in rips))
    assert volumes[:2] == volumes[2:]


@pytest.mark.parametrize("both", [False, True])
def test_every_text_of_every_drawing_can_be_read(both: bool) -> None:
    shop = Shop(display=Display(both=both))
    for typed in GRID[::4]:
        design = registry.work_out("laminated_board", typed, shop)
        for drawing in design.draw():
            assert not crowded(drawing), typed


def test_the_example_of_either_unit_can_be_built() -> None:
    for typed in (registry.form("laminated_board").METRIC, {}):
        assert made(**typed).parts
        assert Length.read(made(**typed).inputs["kerf"]) == SHOP.kerf


@pytest.mark.parametrize("grain", ["edge", "end"])
def test_the_panels_drawing_tells_how_many_strips_and_how_wide(grain: str) -> None:
    design = registry.work_out("laminated_board", {"grain": grain}, Shop())
    (panel,) = (one for one in design.drawings if one.key == "panel")
    count = sum(strip.quantity for strip in design.glue_ups[0].strips)
    wide = show(design.glue_ups[0].strips[0].finished_width, Shop().display).text
    assert f"{count} strips of {wide}" in {label.text for label in panel.labels}
    assert wide in {measure.text for measure in panel.measures}
