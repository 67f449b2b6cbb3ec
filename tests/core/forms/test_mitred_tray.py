"""Trays and frames: worked sizes, refusals, set-ups, spares, steps."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core import registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.length import Length, inches, mm
from app.core.shop import Shop

SHOP = Shop()


def tray(shop: Shop = SHOP, **typed: object) -> Design:
    given = {key: str(value) for key, value in typed.items()}
    return registry.work_out("mitred_tray", given, shop)


def oblong(shop: Shop = SHOP, **typed: object) -> Design:
    return tray(shop, **({"length": "16 in", "width": "12 in"} | typed))


def value(design: Design, key: str) -> object:
    return next(size.value for size in design.sizes if size.key == key)


def part(design: Design, key: str):  # type: ignore[no-untyped-def]
    return next(part for part in design.parts if part.key == key)


def set_up(design: Design, key: str):  # type: ignore[no-untyped-def]
    return next(one for one in design.set_ups if one.key == key)


@pytest.mark.parametrize(
    ("sides", "gauge"),
    [(3, 60), (4, 45), (5, 36), (6, 30), (8, Fraction(45, 2)), (12, 15)],
)
def test_the_gauge_stands_at_180_over_the_sides(sides: int, gauge: Fraction) -> None:
    # Source: common practice, no source; a square frame is mitred at 45°.
    given = {"length": "300 mm", "width": "200 mm"} if sides == 4 else {
        "inscribed": "300 mm"
    }  # fmt: skip
    assert value(tray(sides=sides, **given), "gauge_angle") == Angle.of(gauge)


# Worked by hand: 16 less two rails of 3/4 is 14 1/2, and 3/8 reaches in at each end.
@pytest.mark.parametrize(
    ("key", "expected"),
    [
        ("long_side", "16"),
        ("short_side", "12"),
        ("long_inner_side", "14 1/2"),
        ("short_inner_side", "10 1/2"),
        ("inside_length", "14 1/2"),
        ("inside_width", "10 1/2"),
        ("panel_length", "15 1/4"),
        ("panel_width", "11 1/4"),
        ("inside_depth", "1"),
        ("diagonal", "20"),  # the 3-4-5 triangle, four times over
    ],
)
def test_a_tray_of_16_by_12_comes_out_as_worked_by_hand(
    key: str, expected: str
) -> None:
    assert value(oblong(), key) == inches(expected)


def test_the_panel_is_smaller_by_its_room_on_every_side() -> None:
    design = oblong(panel_room="1/16 in", panel_material="solid wood")
    assert value(design, "panel_length") == inches("15 1/8")
    assert value(design, "panel_width") == inches("11 1/8")
    held = next(one for one in design.moving if one.key == "panel_width")
    assert held.room == inches("1/8")
    assert held.size == inches("11 1/8")


def test_a_tray_turned_by_a_quarter_is_the_same_tray() -> None:
    turned = tray(length="12 in", width="16 in")
    assert turned.parts == oblong().parts
    assert turned.sizes == oblong().sizes


def test_a_hexagon_has_sides_by_its_flats() -> None:
    # Across the flats of a regular hexagon of side s is s·√3: any geometry.
    design = tray(sides=6, inscribed="300 mm")
    long = value(design, "long_side")
    assert isinstance(long, Length)
    assert long.nm * math.sqrt(3) == pytest.approx(300e6, abs=2)
    assert long == value(design, "short_side")
    assert value(design, "panel_gauge_angle") == Angle.of(30)


def test_sheets_and_glass_do_not_move_and_keep_their_thickness() -> None:
    for material in ("plywood", "mdf", "glass"):
        design = oblong(panel_material=material)
        assert "panel_width" not in {one.key for one in design.moving}
        panel = part(design, "panel")
        assert panel.blank.thickness == panel.finished.thickness
    glass = oblong(panel_material="glass")
    assert part(glass, "panel").blank == part(glass, "panel").finished
    assert "rip-panel" not in {one.key for one in glass.set_ups}


def test_a_wide_panel_of_solid_wood_is_glued_up_from_strips() -> None:
    design = oblong(panel_material="solid wood")
    (glue_up,) = design.glue_ups
    assert sum(strip.quantity for strip in glue_up.strips) == 3  # 11 1/8 by 5 at most
    assert part(design, "panel").glue_up == glue_up.key
    lines = [one.name for one in design.joints]
    assert lines == ["mitres", "panel strips"]


def test_mitres_are_glued_on_end_grain_and_splines_are_not() -> None:
    joints = {one.name: one for one in oblong(splines_per_corner=2).joints}
    assert joints["mitres"].end_grain
    assert not joints["splines"].end_grain
    told = " ".join(oblong().warnings)
    assert "end grain" in told


def test_rails_are_cut_in_pairs_to_one_stop_and_turned_end_for_end() -> None:
    design = oblong()
    long, short = (
        set_up(design, "mitre-long-rails"),
        set_up(design, "mitre-short-rails"),
    )
    assert (long.stop, short.stop) == (inches("16"), inches("12"))
    assert "2 long rails" in long.cuts
    assert "end for end" in long.cuts
    assert "gauge's own fence" in long.cuts  # what falls away is not trapped
    keys = [one.key for one in design.set_ups]
    assert keys.index("mitre-first-ends") < keys.index("mitre-long-rails")
    assert set_up(design, "mitre-first-ends").stop is None


def test_three_sides_beyond_the_gauge_are_cut_on_a_sled_at_the_rest() -> None:
    short = replace(SHOP, most_gauge=Angle.of(50))
    one = set_up(tray(short, sides=3, inscribed="5 in"), "mitre-rails")
    assert one.machine == "crosscut sled"
    assert "30°" in one.cuts


def test_rails_taller_than_the_blade_reaches_lie_under_a_tilted_blade() -> None:
    one = set_up(oblong(rail_height="5 in"), "mitre-long-rails")
    assert one.tilt == Angle.of(45)
    assert one.gauge == Angle.of(0)
    assert one.face_down == "outside face"


def test_a_rail_longer_than_the_sled_takes_is_sawn_by_hand() -> None:
    one = set_up(oblong(length="60 in"), "mitre-long-rails")
    assert one.machine == "hand saw"
    assert one.stop is None
    assert "stop" not in one.cuts.split("Longer")[0]


def test_the_fence_for_the_groove_stands_by_the_kerf_at_the_last_pass() -> None:
    one = set_up(oblong(), "groove")
    assert one.fence == inches("1/4")
    assert "3/8 in from the blade" in one.cuts  # 1/4 up + 1/4 wide - 1/8 kerf


def test_the_running_length_is_what_the_rails_blanks_and_the_kerfs_take() -> None:
    # Twice 16 in and twice 12 in, each 1/2 in over size, and three kerfs of 1/8 in.
    assert value(oblong(), "running_length") == inches("58 3/8")
    design = oblong(over_size="short_rail: length 1 in")
    blanks = [part(design, f"{one}_rail").blank.length for one in ("long", "short")]
    kerfs = inches("3/8")
    assert value(design, "running_length") == (blanks[0] + blanks[1]) * 2 + kerfs


def test_mouldings_too_short_for_all_rails_are_counted() -> None:
    # Blanks of 16 1/2 and 12 1/2 and a kerf are 29 1/8; two short ones 25 1/8.
    assert value(oblong(moulding_length="30 1/8 in"), "moulding_count") == 2
    assert value(oblong(moulding_length="30 in"), "moulding_count") == 3
    assert value(oblong(moulding_length="96 in"), "moulding_count") == 1
    table = next(one for one in oblong().tables if one.key == "mouldings")
    assert len(table.rows) == 1


def test_spares_are_one_more_kind_of_part_and_take_moulding_too() -> None:
    design = oblong(spares=2)
    spare = part(design, "long_rail-spare")
    assert (spare.quantity, spare.spare) == (2, True)
    assert "4 long rails" in set_up(design, "mitre-long-rails").cuts


def test_a_part_may_have_its_own_over_size() -> None:
    design = oblong(over_size="long_rail: length 1 in")
    blank = part(design, "long_rail").blank
    assert blank.length == inches("17")
    assert part(design, "short_rail").blank.length == inches("12 1/2")


def test_insides_are_finished_before_assembly_and_diagonals_prove_it() -> None:
    steps = {step.key: step for step in oblong().steps}
    order = list(steps)
    assert order.index("finish-inside") < order.index("assemble")
    assert "diagonals" in steps["assemble"].detail
    assert "diagonals" not in tray_steps(sides=5, inscribed="8 in")["assemble"]


def tray_steps(**typed: object) -> dict[str, str]:
    return {step.key: step.detail for step in tray(**typed).steps}


def test_a_panel_of_solid_wood_stays_dry_in_its_groove() -> None:
    solid = {s.key: s.detail for s in oblong(panel_material="solid wood").steps}
    assert "No glue in the groove" in solid["assemble"]


@pytest.mark.parametrize(
    ("typed", "key", "nearest"),
    [
        ({"rail_width": "6 in"}, "rail_width", "1 1/2 in"),
        ({"groove_depth": "3/4 in"}, "groove_depth", "3/8 in"),
        ({"moulding_length": "16 in"}, "moulding_length", "17 1/2 in"),
        ({"groove_up": "1 1/4 in"}, "groove_up", "5/16 in"),
    ],
)
def test_a_refusal_names_the_input_and_what_would_work(
    typed: dict[str, str], key: str, nearest: str
) -> None:
    with pytest.raises(WorkshopError) as refused:
        oblong(**typed)
    assert (refused.value.input, refused.value.nearest) == (key, nearest)
    oblong(**(typed | {key: nearest}))


@settings(max_examples=40, deadline=None)
@given(
    st.integers(80, 900), st.integers(80, 900), st.integers(8, 30), st.integers(4, 7)
)
def test_a_panel_with_its_room_fills_what_the_grooves_leave(
    long: int, short: int, rail: int, deep: int
) -> None:
    design = oblong(
        length=f"{long} mm",
        width=f"{short} mm",
        rail_width=f"{rail} mm",
        groove_depth=f"{deep} mm",
        panel_room="1 mm",
    )
    wide = value(design, "panel_width")
    assert isinstance(wide, Length)
    # From one groove's bottom to the other's: the panel and its room at both sides.
    assert wide + mm(2) == mm(min(long, short)) - mm(rail) * 2 + mm(deep) * 2


def test_short_rails_are_clamped_and_say_so() -> None:
    short, long = set_up(oblong(width="8 in"), "mitre-short-rails"), oblong()
    assert "crosscut-sled.short-piece" in short.cautions
    assert "clamp" in short.cuts
    kept = set_up(long, "mitre-long-rails").cautions
    assert "crosscut-sled.short-piece" not in kept


def test_every_different_moulding_is_drawn_with_its_rails() -> None:
    design = oblong(moulding_length="31 in")
    drawn = next(one for one in design.drawings if one.key == "mouldings")
    rails = [shape for shape in drawn.shapes if shape.title in ("long", "short")]
    # Two alike: one of them is drawn, and says so.
    assert [shape.title for shape in rails] == ["long", "short"]
    assert any(label.text == "2 ×" for label in drawn.labels)


def test_rails_too_tall_for_a_blade_that_hardly_tilts_are_refused() -> None:
    stiff = replace(SHOP, most_tilt=Angle.of(20))
    with pytest.raises(WorkshopError) as refused:
        oblong(stiff, rail_height="5 in")
    assert (refused.value.input, refused.value.nearest) == ("rail_height", "2 15/16 in")
    assert set_up(oblong(stiff, rail_height="2 15/16 in"), "mitre-long-rails").stop


def test_a_large_tray_is_warned_of_its_last_mitre_and_a_small_one_is_not() -> None:
    def told(design: Design) -> bool:
        return any("tenth of a degree" in one for one in design.warnings)

    assert told(oblong())
    # Side times eight edges times a tenth of a degree: 30 mm open by about 0.4 mm.
    assert not told(tray(sides=4, length="30 mm", width="30 mm", rail_width="6 mm"))


def test_glass_goes_in_when_the_last_coat_is_hard() -> None:
    steps = oblong(panel_material="glass", panel="rebate").steps
    assert steps[-1].key == "fix-panel"
    assert "glass.cut-edges" in steps[-1].cautions


def test_rails_too_long_for_the_sled_know_no_stop_and_no_fence() -> None:
    design = oblong(length="40 in", width="30 in", rail_width="1 1/2 in")
    made = set_up(design, "mitre-long-rails")
    step = next(one for one in design.steps if one.key == "mitre-long-rails")
    assert made.machine == step.tool == "hand saw"
    assert "fence" not in made.face_down
    assert "One stop" not in step.detail


@pytest.mark.parametrize(("sides", "pair"), [(5, "Any two"), (6, "Any two")])
def test_rails_that_are_all_alike_are_proven_by_any_two(sides: int, pair: str) -> None:
    made = set_up(tray(sides=sides, inscribed="10 in"), "mitre-rails")
    assert made.check.startswith(pair)


def test_a_panel_of_five_sides_is_measured_to_the_corner_across() -> None:
    design = tray(sides=5, inscribed="10 in")
    assert "the corner across it" in set_up(design, "cut-panel").check
    plan = next(one for one in design.drawings if one.key == "plan")
    # 10 in across the flats: half of it, and half of 10 / cos 36° = 12.361 in.
    assert [one.text for one in plan.measures][1] == "11 3/16 in"


def test_the_rebate_stays_bare_for_a_panel_that_is_glued_in() -> None:
    for material, bare in (("plywood", True), ("solid wood", False)):
        steps = oblong(panel="rebate", panel_material=material).steps
        first = next(one.detail for one in steps if one.key == "finish-inside")
        assert ("rebate" in first) == bare
