"""How a box is made: set-ups, steps, panels and drawings, checked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.angle import Angle
from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit, inches
from app.core.shop import Shop
from tests.core.forms.boxes import box, keys, set_up, step, value
from tests.drawings import crowded

METRIC = Shop(unit=Unit.MILLIMETRE)


def test_walls_are_sawn_longer_by_what_the_fingers_stand_proud() -> None:
    """Else the inside comes out smaller: notches are cut as deep as the fingers."""
    design = box()
    proud = inches("1/32")
    assert value(design, "finger_cut") == inches("1/2") + proud
    assert set_up(design, "cut-sides").stop == inches("8") + proud * 2
    assert set_up(design, "cut-ends").stop == inches("5") + proud * 2
    assert set_up(box(joint="mitre"), "cut-sides").stop == inches("8")
    own = box(over_size="side: length 0")
    assert own.parts[0].blank.length == inches("8") + proud * 2


def test_dados_and_slots_stand_where_the_dividers_do() -> None:
    """Worked by hand from the piece's own end, as a stop block is set."""
    design = box(dividers_across="1", dividers_along="1", divider_room="1/16 in")
    # 3 7/8 long, so 1/16 short of the wall at either end; 1 15/16 of room before
    # the other divider; the slot begins half its room before that.
    assert set_up(design, "slots-across").stop == inches("1 27/32")
    assert set_up(design, "slots-along").stop == inches("3 11/32")
    housed = box(dividers_across="1", dividers_along="1", dividers_held="dados")
    # The wall and half of what the divider leaves of 7 in, of 4 in; the fingers stand
    # 1/32 in proud.
    assert set_up(housed, "dados-sides").stop == inches("3 31/32")
    assert set_up(housed, "dados-ends").stop == inches("2 15/32")
    sunk = box(dividers_along="1", dividers_held="dados", joint="rebate")
    # The ends are 1/4 in shorter at either end.
    assert set_up(sunk, "dados-ends").stop == inches("2 3/16")


@pytest.mark.parametrize(
    ("typed", "through", "stopped"),
    [
        # The second finger, 1/4 to 1/2 in up, is the ends': only they would show it.
        ({}, "both sides", "both ends"),
        # Wholly in the third, which is the sides'.
        ({"groove_up": "1/2 in"}, "both ends", "both sides"),
        ({"groove_up": "3/8 in"}, "", "both sides and both ends"),
        ({"joint": "mitre"}, "both sides and both ends", ""),
        ({"joint": "rebate"}, "both sides and both ends", ""),
        ({"joint": "rebate", "rebate_depth": "1/8 in"}, "both ends", "both sides"),
        (
            {"joint": "rebate", "rebate_depth": "1/8 in", "rebate_on": "ends"},
            "both sides",
            "both ends",
        ),
    ],
)
def test_a_groove_is_stopped_where_run_through_it_would_show(
    typed: dict[str, str], through: str, stopped: str
) -> None:
    design = box(**typed)
    for key, walls in (("base-groove", through), ("base-groove-stopped", stopped)):
        assert (key in keys(design)) == bool(walls)
        if walls:
            assert walls in set_up(design, key).cuts


def test_a_stopped_groove_may_be_plugged_instead() -> None:
    detail = step(box(), "base-groove-stopped").detail
    assert "finger 2" in detail
    assert "plug" in detail


def test_a_groove_across_two_fingers_is_warned_of_with_a_height_that_is_not() -> None:
    told = next(text for text in box(groove_up="3/8 in").warnings if "groove" in text)
    assert "fingers 2 and 3" in told
    assert "1/2 in up" in told
    assert not [w for w in box(groove_up="1/2 in").warnings if "fingers" in w]


def test_the_pin_stands_a_finger_from_the_cutter() -> None:
    design = box(height="3 in")
    one = set_up(design, "fingers-sides")
    assert one.stop == value(design, "finger_width")
    assert one.fence is None
    assert "shim 1/32 in thick" in one.cuts
    assert "towards the cutter" in one.check
    assert "away from it" in one.check
    assert "table-saw.guard-off" in one.cautions


def test_joints_come_before_grooves_and_the_insides_finish_before_glue() -> None:
    for joint, first in (
        ("finger", "fingers-ends"),
        ("rebate", "corner-rebates"),
        ("mitre", "bevel-ends"),
    ):
        order = [one.key for one in box(joint=joint, lid="rebated").steps]
        grooves = [key for key in order if key.startswith("base-groove")]
        assert order.index(first) < min(map(order.index, grooves))
        assert order.index("dry-fit") < order.index("finish-inside")
        assert order.index("finish-inside") < order.index("assemble")
        assert order.index("assemble") < order.index("finish-1")


def test_an_end_rebate_is_cut_against_a_wooden_face_with_nothing_trapped() -> None:
    one = set_up(box(joint="rebate"), "corner-rebates")
    assert one.fence == Length(0)
    assert one.gauge is None
    assert "table-saw.fence-face" in one.cautions


def test_a_blade_that_tilts_too_little_takes_a_jig_or_another_joint() -> None:
    jig = box(replace(METRIC, most_tilt=Angle.of(45)), joint="mitre")
    assert set_up(jig, "bevel-sides").tilt == Angle.of(45)
    with pytest.raises(WorkshopError) as refusal:
        box(replace(METRIC, most_tilt=Angle.of(40)), joint="mitre")
    assert refusal.value.input == "joint"
    assert box(replace(METRIC, most_tilt=Angle.of(40)), joint=refusal.value.nearest)


def test_walls_of_strips_come_from_one_panel_in_their_order_round_the_box() -> None:
    design = box(strip_rows="3", species="walnut, maple", kerf="1/8 in")
    (panel,) = [one for one in design.glue_ups if one.key == "wall_panel"]
    # 2 x (8 + 5) in, 1/32 in more at eight ends for the fingers to stand proud, three
    # kerfs between four walls, and the shop's half inch.
    whole = inches("26") + inches("1/32") * 8 + inches("1/8") * 3 + inches("1/2")
    assert panel.panel.length == whole
    assert {p.glue_up for p in design.parts if p.key in ("side", "end")} == {panel.key}
    side = next(part for part in design.parts if part.key == "side")
    assert sum(share for _, share in side.woods) == 1


def test_walls_with_different_strips_are_different_parts() -> None:
    own = "walnut | maple | maple | maple\nwalnut"
    design = box(strip_rows="2", pattern="own", own_pattern=own, species="walnut")
    found = {part.key for part in design.parts}
    assert {"side_front", "side_back", "end"} <= found


def test_a_spare_end_is_in_the_blanks_and_in_the_panel() -> None:
    plain = box(strip_rows="2", species="walnut")
    spared = box(strip_rows="2", species="walnut", spares="1")
    long = [design.glue_ups[0].panel.length for design in (plain, spared)]
    assert long[1] - long[0] == inches("5") + inches("1/16") + inches("1/8")
    spare = next(part for part in spared.parts if part.spare)
    assert (spare.key, spare.quantity) == ("end-spare", 1)


def test_a_wall_is_over_size_by_what_the_design_says() -> None:
    design = box(over_size="side: length 1 in, thickness 1/8 in")
    side = next(part for part in design.parts if part.key == "side")
    assert side.blank.length == inches("9")
    assert side.blank.thickness == inches("5/8")
    assert "5/8 in" in step(design, "plane-stock").detail


def test_mitres_tell_how_sure_the_last_one_is_and_take_splines() -> None:
    design = box(joint="mitre", splines_per_corner="2")
    assert "closing_gap_at_0_1_degree" in {size.key for size in design.sizes}
    assert any(table.key == "last_joint" for table in design.tables)
    assert any(part.key == "spline" and part.quantity == 8 for part in design.parts)
    assert any("weakly" in text for text in box(joint="mitre").warnings)


def test_splines_stay_below_a_strip_that_slides_away() -> None:
    design = box(joint="mitre", splines_per_corner="3", lid="sliding")
    low = value(design, "lowered_end_height")
    assert isinstance(low, Length)
    tops = [
        max(z for *_, z in cell.points())
        for piece in design.assembly
        if piece.part == "spline"
        for cell in piece.cells
    ]
    assert max(tops) < low.nm


def test_the_story_stick_in_numbers_has_every_mark() -> None:
    table = next(one for one in box().tables if one.key == "finger_marks")
    assert len(table.rows) == 13
    assert table.rows[0][1:] == ("0 in", "1/4 in", "sides")
    assert table.rows[1][3] == "ends"
    assert table.rows[12][2] == "3 1/4 in"


def test_a_groove_that_a_finger_joint_shows_beside_the_lowered_end_is_told() -> None:
    # From 2 3/4 to 3 in up lies the twelfth finger, an end's; 1/4 in higher the top.
    hidden = box(lid="sliding", lid_thickness="1/4 in", lid_down="1/4 in")
    shown = box(lid="sliding", lid_thickness="1/4 in", lid_down="1/2 in")
    assert not [text for text in hidden.warnings if "lowered end" in text]
    assert [text for text in shown.warnings if "finger 11" in text]


def test_the_drawings_show_joint_walls_lid_and_dividers() -> None:
    design = box(lid="rebated", dividers_across="1", dividers_along="1")
    found = {drawing.key for drawing in design.drawings}
    assert found >= {
        *("plan", "front", "end", "fingers", "side-inside", "end-inside"),
        *("divider-across", "divider-along", "lid", "finger-template"),
    }
    assert next(d for d in design.drawings if d.key == "finger-template").true_size


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize(
    "typed",
    [
        {"lid": "sliding", "lid_thickness": "1/4 in", "dividers_across": "2"},
        {"joint": "mitre", "splines_per_corner": "2", "strip_rows": "3"}
        | {"species": "walnut, maple", "lid": "rebated"},
        {"joint": "rebate", "length": "50 in", "dividers_across": "9"}
        | {"dividers_along": "1", "dividers_held": "dados"},
        {"height": "151.3 mm", "cutter": "30.06 mm", "width": "9 1/2 in"}
        | {"length": "13 1/8 in", "wall": "14.1 mm", "lid": "battened"},
    ],
)
def test_the_drawings_can_be_read_with_both_systems_on_them(
    unit: Unit, typed: dict[str, str]
) -> None:
    both = Shop(unit=unit, display=Display(unit, both=True))
    for drawing in box(both, **typed).drawings:
        assert not crowded(drawing)


def test_a_plywood_base_comes_at_its_thickness_and_is_not_jointed() -> None:
    """A sheet is not planed: common practice, no source."""
    design = box(base_material="plywood")
    (base,) = (part for part in design.parts if part.key == "base")
    assert base.blank.thickness == base.finished.thickness
    assert base.blank.width > base.finished.width
    assert "sheet" in set_up(design, "rip-base").face_down
    solid = box(base_material="solid")
    assert "planed" in set_up(solid, "rip-base").face_down
    assert "rattles" in step(solid, "dry-fit").detail
    assert "rattles" not in step(design, "dry-fit").detail


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ({"base": "under", "joint": "mitre", "base_material": "plywood"}, "fix-base"),
        ({"lid": "sliding"}, "fit-lid"),
    ],
)
def test_what_is_glued_on_last_waits_before_it_is_worked(
    typed: dict[str, str], key: str
) -> None:
    """Every glue line waits to be unclamped: the table of finishing and glue."""
    glued = step(box(**typed), key)
    assert {wait.until.value for wait in glued.waits} == {"unclamp", "machine"}
    assert "clamps.falling-or-pinch" in glued.cautions
