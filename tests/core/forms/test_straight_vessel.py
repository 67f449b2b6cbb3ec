"""The straight vessel: sizes, machine settings, steps and refusals."""

from __future__ import annotations

import math
import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import geometry, registry, safety
from app.core.angle import Angle
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.inputs import typed
from app.core.length import Display, Length, Unit, inches, mm
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.size import Group
from tests.core.forms.vessels import size, vessel

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(unit=Unit.MILLIMETRE))


def degrees(design: Design, key: str) -> Fraction:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Angle)
    return value.degrees


def set_up(design: Design, key: str) -> SetUp:
    return next(one for one in design.set_ups if one.key == key)


@pytest.mark.parametrize(
    ("sides", "bevel", "gauge", "source"),
    [
        (3, 60, 30, "an equilateral triangle has 60° corners"),
        (4, 45, 0, "a square is cut with a square crosscut"),
        (6, 30, 30, "six sides: 30° on every edge and on the gauge, common practice"),
        (8, Fraction(45, 2), 45, "eight sides: 22.5° and 45°, common practice"),
        (12, 15, 60, "twelve sides: 15° and 60°, common practice"),
    ],
)
def test_angles_are_those_every_shop_uses(
    sides: int, bevel: Fraction, gauge: Fraction, source: str
) -> None:
    design = vessel(sides=sides)
    assert degrees(design, "edge_bevel") == bevel, source
    assert degrees(design, "base_gauge_angle") == gauge, source


@pytest.mark.parametrize(
    ("key", "typed_size"),
    [
        ("outside_side", "100 mm"),
        ("outside_inscribed", "173.205081 mm"),
        ("outside_circumscribed", "200 mm"),
        ("inside_inscribed", "153.205081 mm"),
    ],
)
def test_one_hexagon_by_any_of_its_sizes(key: str, typed_size: str) -> None:
    """A hexagon's radius is its side, its flats are √3 sides apart: Euclid IV 15."""
    design = vessel(METRIC, sides=6, wall="10", **{key: typed_size})
    expected = {
        "outside_side": 100,
        "outside_inscribed": 100 * math.sqrt(3),
        "outside_circumscribed": 200,
        "inside_inscribed": 100 * math.sqrt(3) - 20,
        "corner_thickness": 20 / math.sqrt(3),
    }
    for name, value in expected.items():
        assert size(design, name).nm / 1e6 == pytest.approx(value, abs=2e-6), name


def test_what_was_given_stays_exactly_as_given() -> None:
    for key in (
        "outside_side",
        "outside_inscribed",
        "outside_circumscribed",
        "inside_inscribed",
    ):
        design = vessel(sides=7, **{key: "9 3/64"})
        assert size(design, key) == inches("9 3/64")


def test_the_base_reaches_into_the_groove_less_its_room() -> None:
    design = vessel(
        sides=6,
        inside_inscribed="6",
        wall="3/4",
        groove_depth="3/8",
        base_clearance="1/16",
    )
    assert size(design, "base_inscribed") == inches("6 5/8")
    assert size(design, "base_blank") == inches("8 3/8")  # 1 1/4 × 6 5/8, to an 1/8
    assert size(design, "base_mark") == size(design, "base_side")


@given(st.integers(3, 16), st.integers(40, 400), st.sampled_from(["groove", "under"]))
def test_the_base_can_be_sawn_from_its_blank(sides: int, side: int, base: str) -> None:
    design = vessel(sides=sides, outside_side=f"{side} mm", base=base, wall="5 mm")
    blank = size(design, "base_blank")
    part = next(part for part in design.parts if part.key == "base")
    assert part.finished.length < blank
    assert part.finished.width < blank
    assert blank.nm * 4 >= size(design, "base_inscribed").nm * 5
    assert part.volume < part.blank.volume


def test_panel_and_strips_follow_the_published_rule() -> None:
    design = vessel(sides=6, outside_side="4", height="7", strip_rows=4, kerf="1/8")
    assert size(design, "panel_length") == inches("24 5/8")
    assert size(design, "strip_width") == inches("1 3/4")
    panel = design.glue_ups[0]
    assert panel.panel.width == inches("7")
    assert panel.panel.length == inches("24 5/8") + Shop().over_length
    assert [strip.species for strip in panel.strips] == ["walnut", "maple"] * 2


@given(
    st.integers(3, 16),
    st.integers(60_000_001, 600_000_000),
    st.integers(1, 7),
    st.lists(
        st.sampled_from(["walnut", "cherry", "oak"]),
        min_size=1,
        max_size=3,
        unique=True,
    ),
)
def test_strips_add_up_to_the_wall_and_hold_its_volume(
    sides: int, height_nm: int, rows: int, species: list[str]
) -> None:
    if len(species) > rows:
        species = species[:rows]
    height = typed(Length(height_nm), Unit.MILLIMETRE)
    design = vessel(
        sides=sides, height=height, strip_rows=rows, species=", ".join(species)
    )
    wall = design.parts[0]
    for panel in design.glue_ups:
        added = sum(s.finished_width.nm * s.quantity for s in panel.strips)
        assert added == panel.panel.width.nm
        assert all(
            s.finished_width.nm <= s.blank.width.nm
            and s.blank.length >= panel.panel.length
            for s in panel.strips
        )
    if rows > 1:
        panel = design.glue_ups[0]
        assert wall.glue_up == panel.key
        assert wall.volume * sides < panel.panel.volume * panel.quantity


@given(st.permutations(["walnut", "maple", "cherry"]))
def test_the_order_of_woods_changes_no_size(order: list[str]) -> None:
    plain = vessel(sides=8, species="walnut, maple, cherry", base_species="oak")
    turned = vessel(sides=8, species=", ".join(order), base_species="oak")
    groups = (Group.BUILD, Group.SURE)
    assert [one for one in turned.sizes if one.group in groups] == [
        one for one in plain.sizes if one.group in groups
    ]
    assert [part.volume for part in turned.parts] == [p.volume for p in plain.parts]


@given(st.integers(3, 16), st.integers(60, 500), st.integers(2, 5))
def test_a_vessel_twice_the_size_has_twice_every_length(
    sides: int, side: int, times: int
) -> None:
    def made(by: int) -> Design:
        return vessel(
            METRIC,
            sides=sides,
            outside_side=side * by,
            wall=8 * by,
            height=100 * by,
            kerf=2 * by,
            groove_up=6 * by,
            base_clearance=by,
            base_thickness=6 * by,
        )

    one, more = made(1), made(times)
    for key in ("inside_side", "outside_circumscribed", "base_side", "panel_length"):
        assert abs(size(more, key).nm - size(one, key).nm * times) <= 3 * times
    assert more.parts[0].volume == pytest.approx(
        one.parts[0].volume * times**3, rel=1e-12
    )


@pytest.mark.parametrize("sides", range(3, 17))
def test_no_through_cut_has_two_stops_and_no_machine_is_overtaxed(sides: int) -> None:
    shop = Shop()
    for base in ("groove", "rebate", "under", "none"):
        design = vessel(sides=sides, base=base, splines_per_corner=1)
        for one in design.set_ups:
            assert one.fence is None or one.gauge is None, one.key
            assert one.tilt is None or one.tilt <= shop.most_tilt, one.key
            assert one.cautions, one.key
            assert one.check, one.key
            assert one.face_down, one.key


def test_three_sides_are_bevelled_in_a_jig_at_the_rest_of_a_right_angle() -> None:
    bevel = set_up(vessel(sides=3), "bevel")
    assert bevel.tilt == Angle.of(30)
    assert "60°" in bevel.cuts
    assert "jig" in bevel.cuts


def test_sixteen_sides_cut_their_base_on_a_sled() -> None:
    base = set_up(vessel(sides=16, outside_side="2 in"), "base")
    assert base.machine == "crosscut sled"
    assert "22.5°" in base.cuts


def test_a_shop_whose_blade_cannot_tilt_far_enough_refuses() -> None:
    shop = Shop(most_tilt=Angle.of(35))
    with pytest.raises(WorkshopError, match="More sides need less") as refused:
        vessel(shop, sides=4)
    assert refused.value.input == "sides"
    assert refused.value.nearest == "6"
    vessel(shop, sides=6)


def test_walls_are_cut_from_the_outside_corner() -> None:
    design = vessel(sides=5, outside_side="7 1/2")
    assert set_up(design, "cut-walls").stop == inches("7 1/2")
    bevel = set_up(design, "bevel")
    assert (bevel.stop, bevel.face_down) == (inches("7 1/2"), "outside face")
    assert bevel.tilt == Angle.of(36)


def test_every_caution_named_is_in_the_safety_table() -> None:
    for base in ("groove", "rebate", "under", "none"):
        for sides in (3, 6, 16):
            design = vessel(sides=sides, base=base, splines_per_corner=2)
            keys = [key for one in design.set_ups for key in one.cautions]
            keys += [key for step in design.steps for key in step.cautions]
            assert safety.cautions(keys)


def test_steps_come_in_bench_order_and_carry_their_set_up() -> None:
    design = vessel(sides=6, splines_per_corner=2)
    keys = [step.key for step in design.steps]
    order = [
        "joint-stock",
        "rip-wall-panel",
        "glue-wall-panel",
        "plane-wall-panel",
        "groove",
        "cut-walls",
        "bevel",
        "dry-fit",
        "base",
        "finish-inside",
        "assemble",
        "spline-slots",
        "trim-splines",
        "sand-outside",
        "finish-2",
    ]
    assert [key for key in keys if key in order] == order
    assert len(set(keys)) == len(keys)
    known = {one.key for one in design.set_ups}
    assert known == {step.set_up for step in design.steps} - {""}
    bevel = next(step for step in design.steps if step.key == "bevel")
    assert set(set_up(design, "bevel").cautions) <= set(bevel.cautions)
    assert all(step.bench_minutes > 0 for step in design.steps)


@pytest.mark.parametrize(
    ("wrong", "input", "sentence"),
    [
        ({"sides": 17}, "sides", "16 is the most"),
        ({"sides": 2}, "sides", "3 is the least"),
        ({"wall": "1/2", "groove_depth": "1/2"}, "groove_depth", "goes through"),
        ({"wall": "1/2", "groove_depth": "3/4"}, "groove_depth", "goes through"),
        ({"wall": "4"}, "wall", "meet in the middle"),
        ({"base_clearance": "1/4"}, "base_clearance", "does not reach"),
        ({"base_thickness": "6"}, "base_thickness", "does not fit"),
        ({"groove_up": "5 7/8"}, "groove_up", "does not fit"),
        ({"height": "0"}, "height", "more than nothing"),
        ({"height": "40 m"}, "height", "will not do"),
        ({"strip_rows": 1}, "strip_rows", "need at least 2 rows"),
        ({"strip_rows": 40, "height": "2"}, "strip_rows", "too narrow"),
        ({"sides": 3, "panels": 4}, "panels", "cannot come from"),
        ({"base_species": "oak, ash"}, "base_species", "Name one species"),
        (
            {"splines_per_corner": 1, "sides": 16, "outside_side": "1", "wall": "1/2"},
            "spline_depth_share",
            "run into those",
        ),
        ({"splines_per_corner": 20, "height": "2"}, "splines_per_corner", "too little"),
    ],
)
def test_what_cannot_be_built_says_why_and_what_would_do(
    wrong: dict[str, object], input: str, sentence: str
) -> None:
    with pytest.raises(WorkshopError, match=sentence) as refused:
        vessel(**wrong)
    assert refused.value.input == input
    # What is offered is taken, unless another input stands in its way.
    if refused.value.nearest:
        assert faulty(wrong | {input: refused.value.nearest}) != input


def faulty(texts: dict[str, object]) -> str:
    """The input at fault, if any."""
    try:
        vessel(**texts)
    except WorkshopError as fault:
        return fault.input
    return ""


def test_one_size_across_is_needed_and_no_more() -> None:
    with pytest.raises(WorkshopError, match="Give one size across") as none:
        registry.work_out("straight_vessel", {}, Shop())
    assert none.value.input == "outside_side"
    with pytest.raises(WorkshopError, match="given together") as two:
        vessel(outside_side="4", inside_inscribed="5")
    assert two.value.input == "inside_inscribed"


def test_each_size_shows_its_working_and_source() -> None:
    for base in ("groove", "rebate", "under", "none"):
        for one in vessel(base=base, splines_per_corner=1, panels=2).sizes:
            assert one.formula, one.key
            assert one.source, one.key
            assert one.values or one.formula == "as given" or "flush" in one.formula


def test_designing_is_quick_enough_to_do_while_typing() -> None:
    vessel()
    times = []
    for _ in range(5):
        start = time.perf_counter()
        vessel(sides=16, splines_per_corner=3)
        times.append(time.perf_counter() - start)
    assert min(times) < 0.020


def test_the_mitred_slab_of_a_square_box_is_exact() -> None:
    # 100 square outside, walls 10: the ring is 100² - 80², a quarter each.
    assert geometry.mitred_slab(mm(100), mm(10), 4) == 900 * 10**12


def test_splines_are_sawn_before_a_base_hides_the_edge_their_stop_goes_by() -> None:
    for base, last in (("under", "fix-base"), ("rebate", "trim-splines")):
        design = vessel(base=base, splines_per_corner=2)
        keys = [step.key for step in design.steps]
        found = [key for key in keys if key in ("fix-base", "trim-splines")]
        assert found[-1] == last


def test_walls_too_low_for_their_species_are_told_a_height_and_no_row() -> None:
    with pytest.raises(WorkshopError) as refused:
        vessel(height="1/3 in")
    assert refused.value.input == "height"
    assert vessel(height=refused.value.nearest).parts
