"""What a straight vessel takes: panels, spares, allowances, and by hand or machine."""

from __future__ import annotations

import pytest

from app.core.design import Design
from app.core.length import Length, inches
from app.core.part import Part
from app.core.shop import Shop
from tests.core.forms.vessels import size, vessel


def parts(design: Design) -> dict[str, Part]:
    return {part.key: part for part in design.parts}


def text(design: Design, key: str) -> str:
    step = next(one for one in design.steps if one.key == key)
    return f"{step.name}. {step.detail}"


def test_spare_walls_lengthen_the_panel_and_a_spare_strip_comes_along() -> None:
    plain, spared = vessel(sides=6), vessel(sides=6, spares=2)
    longer = spared.glue_ups[0].panel.length - plain.glue_ups[0].panel.length
    assert longer == inches("8 1/4")  # two walls of 4 in and two kerfs
    found = parts(spared)
    assert (found["wall-spare"].quantity, found["wall-spare"].spare) == (2, True)
    strip = found["strip-spare"]
    assert strip.blank == spared.glue_ups[0].strips[0].blank
    assert strip.species == "walnut"
    assert size(spared, "panel_length") == size(plain, "panel_length")
    cut = next(one for one in spared.set_ups if one.key == "cut-walls")
    assert "6 walls and 2 spares" in cut.cuts


def test_a_wall_that_is_one_board_gets_a_spare_board() -> None:
    found = parts(vessel(strip_rows=1, species="ash", spares=1))
    assert found["wall-spare"].blank == found["wall"].blank
    assert "strip-spare" not in found


def test_an_allowance_of_its_own_reaches_strips_panel_and_words() -> None:
    own = "wall: length 2 in, width 1/4 in, thickness 3/16 in; base: thickness 1/8 in"
    design = vessel(over_size=own, sides=6)
    panel = design.glue_ups[0]
    assert panel.panel.length == inches("26 5/8")
    strip = panel.strips[0]
    assert strip.blank.width - strip.finished_width == inches("1/4")
    assert strip.blank.thickness == inches("11/16")
    assert parts(design)["base"].blank.thickness == inches("3/8")
    assert "Leave the wall stock at 11/16 in" in text(design, "plane-stock")
    assert "to 1/2 in" in text(design, "plane-wall-panel")


def test_sanding_is_left_on_at_both_faces() -> None:
    design = vessel(Shop(sanding=inches("1/32")), wall="1/2")
    assert design.glue_ups[0].panel.thickness == inches("9/16") + Shop().over_thickness
    assert "to 9/16 in" in text(design, "plane-wall-panel")


@pytest.mark.parametrize("count", ["1", "2", "3"])
def test_walls_alike_come_from_as_many_panels_as_are_asked_for(count: str) -> None:
    design = vessel(sides=6, outside_side="30", height="10", panels=count)
    panel = design.glue_ups[0]
    assert (panel.key, panel.quantity) == ("wall_panel", int(count))
    each = 6 // int(count)
    whole = inches("30") * each + inches("1/8") * (each - 1) + inches("1/2")
    assert panel.panel.length == whole


def test_walls_that_differ_come_from_a_panel_for_each_sort() -> None:
    design = vessel(sides=6, pattern="alternating", strip_rows=3)
    found = parts(design)
    assert [found[key].quantity for key in ("wall_a", "wall_b")] == [3, 3]
    assert found["wall_a"].glue_up == "wall_panel_a"
    strips = {one.key: [s.species for s in one.strips] for one in design.glue_ups}
    assert strips["wall_panel_a"] == ["walnut", "maple", "walnut"]
    assert strips["wall_panel_b"] == ["maple", "walnut", "maple"]
    rip = next(one for one in design.set_ups if one.key == "rip-wall-panel")
    assert "6 strips for the wall panels" in rip.cuts
    assert {"unrolled", "pattern"} <= {one.key for one in design.drawings}


def test_the_share_of_each_wood_leaves_out_what_was_cut_away() -> None:
    # The groove lies in the lowest of two rows: it takes wood of that one alone.
    wall = parts(vessel(strip_rows=2, height="4", base_thickness="1/2"))["wall"]
    shares = dict(wall.woods)
    assert sum(shares.values()) == 1
    assert shares["walnut"] < shares["maple"]
    plain = parts(vessel(strip_rows=2, height="4", base="none"))["wall"]
    assert set(dict(plain.woods).values()) == {plain.woods[0][1]}


def test_walls_longer_than_the_sled_are_cut_and_bevelled_by_hand() -> None:
    design = vessel(sides=4, outside_side="30", height="10")
    made = {one.key: one for one in design.set_ups}
    assert made["cut-walls"].machine == "hand saw"
    assert made["bevel"].machine == "hand plane"
    assert "leans 45°" in made["bevel"].cuts
    assert made["base"].machine == "hand saw"
    tools = {step.key: step.tool for step in design.steps}
    assert (tools["cut-walls"], tools["bevel"]) == ("hand saw", "hand plane")


def test_a_panel_wider_than_the_planer_is_levelled_by_hand() -> None:
    design = vessel(height="14", outside_side="8")
    step = next(one for one in design.steps if one.key == "plane-wall-panel")
    assert step.tool == "hand plane"
    assert "dealer" in step.detail


def test_the_steps_carry_the_know_how_of_the_trade() -> None:
    """Common practice, no source."""
    design = vessel(sides=6, splines_per_corner=1)
    assert "Square one end first" in text(design, "cut-walls")
    assert "just reaches the outer corner" in text(design, "bevel")
    assert "Tape the walls and close them dry" in text(design, "dry-fit")
    assert "Before assembly" in text(design, "finish-inside")
    assert "about half the wall" in text(design, "groove")
    assert "offcuts of the same wood" in text(design, "spline-stock")
    assert "Clean off the squeeze-out" in text(design, "glue-wall-panel")


def test_no_finish_is_no_coat_and_other_coats_are_counted() -> None:
    bare = [step.key for step in vessel(finish="none").steps]
    assert not any(key.startswith("finish") for key in bare)
    five = [step.key for step in vessel(finish="shellac", coats=5).steps]
    assert sum(key.startswith("finish-") for key in five) == 10


def test_glue_lines_of_the_mitres_are_end_grain_and_reckoned_from_the_wall() -> None:
    design = vessel(sides=4, outside_side="10", wall="1", height="5", base="none")
    mitres = next(joint for joint in design.joints if joint.end_grain)
    # Four faces of √2 in by 5 in.
    assert mitres.area == pytest.approx(4 * 2**0.5 * 5 * inches("1").nm ** 2, rel=1e-7)
    assert design.finish_area == (
        # Four outsides, four insides, two rims of 100 - 64 in².
        (4 * 10 * 5 + 4 * 8 * 5 + 2 * 36) * inches("1").nm ** 2
    )


def test_odd_sides_are_measured_from_a_side_to_the_corner_across() -> None:
    # An equilateral triangle's height is √3/2 of its side: Euclid I 47.
    across = size(vessel(sides=3, outside_side="10"), "flat_to_corner")
    assert abs(across.nm - 254e6 * 3**0.5 / 2) <= 1
    assert isinstance(across, Length)


def test_a_count_of_panels_that_the_pattern_overrules_is_told() -> None:
    told = vessel(sides=6, pattern="alternating", panels=3).warnings
    assert any("panels follow from the pattern: 2" in one for one in told)
    alike = vessel(sides=6, panels=3).warnings
    assert not any("follow from the pattern" in one for one in alike)


def test_set_ups_say_by_how_much_blanks_are_over_size() -> None:
    made = {one.key: one for one in vessel(over_size="wall: length 1 in").set_ups}
    assert "over size by 1 in in length" in made["cut-walls"].cuts
    assert "over size by 1/8 in, for jointing" in made["rip-wall-panel"].cuts


def test_walls_of_one_board_are_ripped_to_their_height_before_the_groove() -> None:
    design = vessel(strip_rows=1, species="ash", height="5 in")
    keys = [one.key for one in design.set_ups]
    assert keys.index("rip-walls") < keys.index("groove") < keys.index("cut-walls")
    rip = next(one for one in design.set_ups if one.key == "rip-walls")
    assert rip.fence == inches("5")
    assert "rip-walls" not in [one.key for one in vessel().set_ups]


def test_walls_too_long_for_the_sled_are_told_of_no_stop_block() -> None:
    design = vessel(outside_inscribed="60 in", height="12 in")
    cut = next(one for one in design.set_ups if one.key == "cut-walls")
    assert cut.machine == "hand saw"
    assert "against the stop" not in cut.cuts
