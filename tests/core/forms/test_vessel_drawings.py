"""Every drawing of every vessel can be read, in one system of units and in both."""

from __future__ import annotations

import pytest

from app.core.design import Design
from app.core.length import Display, Unit
from app.core.shop import Shop
from tests.core.forms.grids import grid, made
from tests.core.forms.vessels import vessel
from tests.drawings import crowded

DISPLAYS = (
    Display(denominator=64, both=True),
    Display(unit=Unit.MILLIMETRE),
    Display(unit=Unit.MILLIMETRE, both=True),
)


@pytest.mark.parametrize("part", range(3))
def test_no_text_stands_on_another_or_on_a_line(part: int) -> None:
    shop = Shop(display=DISPLAYS[part])
    for typed in grid("straight_vessel")[part::9]:
        for drawing in made("straight_vessel", typed, shop).drawings:
            assert crowded(drawing) == [], typed


def keys(design: Design) -> set[str]:
    found = [drawing.key for drawing in design.drawings]
    assert len(found) == len(set(found))
    return set(found)


def test_each_joint_that_a_vessel_has_is_drawn_at_a_larger_scale() -> None:
    plain = keys(vessel(base="none"))
    assert {"plan", "elevation", "unrolled", "corner"} <= plain
    assert not plain & {"base_joint", "lid_joint", "spline"}
    full = keys(vessel(lid="plug", splines_per_corner=1, lid_overhang="1/4"))
    assert {"base_joint", "lid_joint", "spline"} <= full
    for plate in ("base", "lid", "plug"):
        assert {plate, f"{plate}_cut", f"{plate}_template"} <= full


def test_a_template_is_as_large_as_its_plate_and_left_out_where_no_paper_is() -> None:
    design = vessel(sides=6, outside_side="3")
    template = next(one for one in design.drawings if one.key == "base_template")
    base = next(part for part in design.parts if part.key == "base")
    xs = [point.x for point in template.shapes[0].points]
    ys = [point.y for point in template.shapes[0].points]
    found = sorted((max(xs) - min(xs), max(ys) - min(ys)))
    expected = sorted((base.finished.length.nm, base.finished.width.nm))
    assert found == pytest.approx(expected, abs=2)
    assert template.true_size
    assert "base_template" not in keys(vessel(sides=6, outside_side="40"))
