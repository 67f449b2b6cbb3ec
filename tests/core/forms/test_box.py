"""The box's sizes, worked by hand beside each check."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.design import Design
from app.core.forms._box_fingers import LEAST, MOST, Fingers, most_fingers
from app.core.length import Length, inches, mm
from tests.core.forms.boxes import box, keys, value


@pytest.mark.parametrize(
    ("height", "cutter", "count", "width", "passes"),
    [
        # Thirteen quarters of an inch make 3 1/4 in: every notch in one pass.
        ("3 1/4 in", "1/4 in", 13, "1/4 in", 1),
        # Twelve would go into 3 in, but twelve is even: eleven, a little wider.
        ("3 in", "1/4 in", 11, "3/11", 2),
        ("90 mm", "6 mm", 15, "6 mm", 1),
        ("96 mm", "6 mm", 15, "6.4 mm", 2),
        # Just under a seventh finger's worth: five.
        ("41.9 mm", "6 mm", 5, "8.38 mm", 2),
        ("42 mm", "6 mm", 7, "6 mm", 1),
        ("300 mm", "100/6 mm", 17, "300/17", 2),
    ],
)
def test_fingers_are_odd_in_number_equal_and_no_narrower_than_the_cutter(
    height: str, cutter: str, count: int, width: str, passes: int
) -> None:
    """Worked by hand: the largest odd whole number of cutters in the height."""
    unit = "in" if "in" in height else "mm"
    cut = cutter
    if "/6" in cutter:
        cut = "16.6667 mm"
    design = box(height=height, cutter=cut)
    whole = Length.read(height)
    assert value(design, "finger_count") == count
    found = value(design, "finger_width")
    assert found == whole / count, unit
    assert value(design, "finger_passes") == passes


def test_wider_fingers_take_whole_cutters() -> None:
    # 3 1/4 in holds six and a half half-inches: five fingers of 0.65 in.
    design = box(finger_passes="2")
    assert value(design, "finger_count") == 5
    assert value(design, "finger_width") == inches("3 1/4") / 5
    assert value(design, "finger_passes") == 3


@given(
    height=st.integers(20, 900).map(mm),
    cutter=st.integers(10, 300).map(lambda tenths: Length(tenths * 100_000)),
)
def test_no_other_odd_number_of_fingers_comes_nearer_to_the_cutter(
    height: Length, cutter: Length
) -> None:
    count = most_fingers(height, cutter)
    if not LEAST <= count <= MOST:
        return
    assert count % 2 == 1
    assert Fraction(height.nm, count) >= cutter.nm
    assert Fraction(height.nm, count + 2) < cutter.nm
    made = Fingers(height, cutter, cutter, count)
    assert made.marks[0] == 0
    assert made.marks[-1] == height.nm
    assert made.width + Length(1) >= cutter
    assert (made.passes - 1) * cutter.nm < Fraction(height.nm, count)
    # What the last pass reaches, with its shim, is the notch: no more, no less.
    assert abs(made.shim.nm + cutter.nm - made.width.nm) <= 1


def test_the_working_says_which_height_needs_no_overlapping_passes() -> None:
    design = box(height="3 in")
    size = next(size for size in design.sizes if size.key == "finger_width")
    assert "walls 2 3/4 in high would need none" in size.working


@pytest.mark.parametrize(
    ("joint", "side", "end"),
    [
        ({"joint": "finger"}, "8 in", "5 in"),
        ({"joint": "mitre"}, "8 in", "5 in"),
        # An end sits 1/4 in deep in each of two rebates: 4 in inside and 2 x 1/4.
        ({"joint": "rebate"}, "8 in", "4 1/2 in"),
        ({"joint": "rebate", "rebate_depth": "3/8 in"}, "8 in", "4 3/4 in"),
        ({"joint": "rebate", "rebate_on": "ends"}, "7 1/2 in", "5 in"),
    ],
)
def test_walls_are_cut_to_what_their_joint_leaves_them(
    joint: dict[str, str], side: str, end: str
) -> None:
    """Worked by hand: 8 x 5 in outside, walls 1/2 in."""
    design = box(**joint)
    assert value(design, "side_length") == inches(side)
    assert value(design, "end_length") == inches(end)


def test_the_base_reaches_into_its_groove_less_the_room() -> None:
    # 7 x 4 in inside, each edge of solid wood 1/4 in into the wall less 1/16 in.
    design = box(base_material="solid")
    assert value(design, "base_length") == inches("7 3/8")
    assert value(design, "base_width") == inches("4 3/8")
    tight = box(base_clearance="0", groove_depth="3/16 in")
    assert value(tight, "base_length") == inches("7 3/8")


def test_plywood_reaches_to_the_grooves_bottom_and_the_groove_a_hair_beyond() -> None:
    design = box(base_material="plywood", groove_depth="1/4 in")
    assert value(design, "base_length") == inches("7 1/2")
    assert value(design, "base_width") == inches("4 1/2")
    grooves = [one for one in design.set_ups if one.key.startswith("base-groove")]
    assert all("a hair deeper" in one.cuts for one in grooves)
    roomy = box(base_material="plywood", base_clearance="1/32 in")
    assert not any("a hair deeper" in one.cuts for one in roomy.set_ups)


def test_a_base_under_the_walls_is_part_of_the_height() -> None:
    design = box(base="under", base_thickness="1/4 in")
    assert value(design, "base_length") == inches("8")
    assert value(design, "wall_height") == inches("3")
    tops = [max(z for *_, z in cell.points()) for cell in cells(design)]
    assert max(tops) == pytest.approx(inches("3 1/4").nm)


def cells(design: Design):  # type: ignore[no-untyped-def]
    return [cell for piece in design.assembly for cell in piece.cells]


def test_every_part_of_a_sliding_lid_is_sized_from_the_groove() -> None:
    """Worked by hand: 3 1/4 high, 1/4 of wood above a lid 1/4 thick."""
    design = box(lid="sliding", lid_thickness="1/4 in")
    assert value(design, "lowered_end_height") == inches("2 3/4")
    assert value(design, "lid_strip_height") == inches("1/2")
    # From the far groove's floor to the strip's: 7 in and 1/4 in at both ends.
    assert value(design, "lid_length") == inches("7 1/2")
    assert value(design, "lid_width") == inches("4") + inches("7/32") * 2
    found = {part.key: part.finished for part in design.parts}
    assert found["lowered_end"].width + found["lid_strip"].width == inches("3 1/4")


def test_a_rebated_lid_drops_in_with_its_room() -> None:
    design = box(lid="rebated", lid_room="1/16 in")
    assert value(design, "lid_inner_length") == inches("6 7/8")
    assert value(design, "lid_inner_width") == inches("3 7/8")
    assert value(design, "lid_rebate") == inches("9/16")


def test_dividers_share_the_room_evenly() -> None:
    # (7 - 2 x 1/8) / 3 = 2 1/4; (4 - 1/8) / 2 = 1 15/16.
    design = box(dividers_across="2", dividers_along="1")
    assert value(design, "compartment_length") == inches("2 1/4")
    assert value(design, "compartment_width") == inches("1 15/16")
    assert value(design, "divider_across_length") == inches("3 31/32")
    # The base ends 1/2 in up: 2 3/4 in are left, half of it to each slot.
    assert value(design, "slot_depth") == inches("1 3/8")
    assert value(design, "slot_width") == inches("9/64")


def test_dividers_in_dados_reach_into_them() -> None:
    design = box(dividers_across="1", dividers_held="dados", divider_room="1/32 in")
    # A quarter of the wall is 1/8: 4 in and 2 x (1/8 - 1/32).
    assert value(design, "divider_across_length") == inches("4 3/16")
    assert "dados-sides" in keys(design)
    assert "dados-ends" not in keys(design)


@given(
    st.sampled_from(["finger", "rebate", "mitre"]),
    st.integers(60, 500),
    st.integers(60, 500),
)
def test_a_box_turned_by_a_quarter_holds_the_same_wood(
    joint: str, one: int, other: int
) -> None:
    """What is a side becomes an end: its fingers differ, the box does not."""
    whole = []
    for long, wide, on in ((one, other, "sides"), (other, one, "ends")):
        design = box(
            joint=joint,
            length=f"{long} mm",
            width=f"{wide} mm",
            rebate_on=on,
            base="under",
            lid="battened",
        )
        kept = [part for part in design.parts if part.key != "batten"]
        whole.append(sum(part.volume * part.quantity for part in kept))
    # Marks between fingers lie on whole nanometres.
    assert abs(whole[0] - whole[1]) <= 2 * 99 * inches("1/2").nm ** 2


def test_what_moves_has_the_room_that_was_asked_for() -> None:
    solid = {"base_material": "solid", "base_clearance": "3/32 in"}
    design = box(lid="sliding", lid_thickness="1/4 in", **solid)
    rooms = {one.key: one.room for one in design.moving}
    assert rooms["base_width"] == inches("3/16")
    assert rooms["lid_width"] == inches("1/16")
    plywood = box(base_material="plywood")
    assert "base_width" not in {one.key for one in plywood.moving}
    assert next(p for p in plywood.parts if p.key == "base").species == "plywood"


@pytest.mark.parametrize("base", ["under", "rebate"])
def test_a_solid_base_glued_all_round_is_warned_of_and_plywood_is_not(
    base: str,
) -> None:
    solid = box(base=base, base_material="solid").warnings
    assert any("plywood" in text for text in solid)
    told = box(base=base, base_material="plywood").warnings
    assert not any("across its grain" in text for text in told)


def test_glue_covers_the_cheeks_and_shoulders_of_the_fingers() -> None:
    """By hand: 4 corners, 12 cheeks of 1/2 x 1/2 in, shoulders 1/2 x 3 1/4 in."""
    areas = {one.name: one.area for one in box().joints}
    square = inches("1").nm ** 2
    assert areas["cheeks of the fingers"] == 4 * 12 * square // 4
    assert areas["shoulders of the fingers"] == 4 * square * 13 // 8
