"""The straight vessel's lid: a plug under a plate, or one thick plate rebated."""

from __future__ import annotations

import pytest

from app.core.length import Length, inches
from tests.core.forms.vessels import size, vessel

LID = {"outside_inscribed": "8", "wall": "1/2", "lid_room": "1/16", "sides": 6}


@pytest.mark.parametrize("kind", ["plug", "rebate"])
def test_what_drops_inside_has_its_room_at_every_flat(kind: str) -> None:
    design = vessel(**LID, lid=kind)
    assert size(design, "plug_inscribed") == inches("6 7/8")  # 8 - 2 × 1/2 - 2 × 1/16
    assert size(design, "lid_inscribed") == inches("8")


def test_a_plug_is_a_second_plate_and_a_rebate_makes_one_thick_one() -> None:
    sizes = {"lid_thickness": "3/8", "lid_lip": "1/4"}
    plugged = {part.key: part for part in vessel(**LID, **sizes, lid="plug").parts}
    assert plugged["lid"].finished.thickness == inches("3/8")
    assert plugged["plug"].finished.thickness == inches("1/4")
    rebated = {part.key: part for part in vessel(**LID, **sizes, lid="rebate").parts}
    assert rebated["lid"].finished.thickness == inches("5/8")
    assert "plug" not in rebated
    both = plugged["lid"].volume + plugged["plug"].volume
    assert abs(rebated["lid"].volume - both) <= 1


def test_the_rebate_goes_in_by_overhang_wall_and_room() -> None:
    design = vessel(**LID, lid="rebate", lid_overhang="1/4")
    assert size(design, "lid_rebate_width") == inches("13/16")
    assert size(design, "lid_inscribed") == inches("8 1/2")
    made = next(one for one in design.set_ups if one.key == "lid-rebate")
    assert made.fence == Length(0)
    assert "table-saw.fence-face" in made.cautions
    assert "13/16 in wide" in made.cuts


def test_the_lid_stands_on_the_walls() -> None:
    design = vessel(**LID, lid="plug", height="6", base="under", base_thickness="3/8")
    assert size(design, "overall_height") == inches("6 3/4")
    assert not any(one.key == "overall_height" for one in vessel(**LID).sizes)


def test_a_plug_is_glued_grain_along_grain_before_the_last_sanding() -> None:
    keys = [step.key for step in vessel(**LID, lid="plug").steps]
    order = ["dry-fit", "lid", "plug", "glue-plug", "assemble", "sand-outside"]
    assert [key for key in keys if key in order] == order
    glue = next(s for s in vessel(**LID, lid="plug").steps if s.key == "glue-plug")
    assert "Grain along grain" in glue.detail


@pytest.mark.parametrize("key", ["base", "lid", "plug"])
def test_each_plate_says_in_which_order_its_sides_are_cut(key: str) -> None:
    design = vessel(**LID, lid="plug")
    made = next(one for one in design.set_ups if one.key == key)
    assert "5 cuts, one way round" in made.cuts
    assert "Side 1 is the blank's jointed edge, along the grain" in made.cuts
    assert "falls away" in made.cuts
    assert made.stop == size(design, f"{key}_mark")
    blank = size(design, f"{key}_blank")
    part = next(part for part in design.parts if part.key == key)
    assert part.blank.length == part.blank.width == blank
    across = size(design, f"{key}_inscribed")
    assert blank.nm * 4 >= across.nm * 5  # a quarter more: common practice, no source
