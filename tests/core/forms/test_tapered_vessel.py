"""The tapered vessel: sizes, machine settings, steps, spares and refusals."""

from __future__ import annotations

import math
import time
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core import registry, safety
from app.core.angle import Angle
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.forms import _tapered_parts, _tapered_resolve
from app.core.forms._tapered_inputs import Inputs
from app.core.inputs import read
from app.core.length import Display, Length, Unit, inches, mm
from app.core.setup import SetUp
from app.core.shop import Shop
from tests.core.forms.grid_tapered_vessel import GRID
from tests.drawings import crowded

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(unit=Unit.MILLIMETRE))
SHOWN_METRIC = Shop(display=Display(unit=Unit.MILLIMETRE))
SHOWN_BOTH = Shop(display=Display(both=True))


def vessel(shop: Shop = Shop(), **typed: object) -> Design:
    texts = {key: str(value) for key, value in typed.items()}
    return registry.work_out("tapered_vessel", texts, shop)


def size(design: Design, key: str) -> Length:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Length)
    return value


def degrees(design: Design, key: str) -> Fraction:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Angle)
    return value.degrees


def set_up(design: Design, key: str) -> SetUp:
    return next(one for one in design.set_ups if one.key == key)


@pytest.mark.parametrize(
    ("sides", "slope", "tilt", "gauge", "source"),
    [
        (4, 45, 30, 35.264, "a square splayed at 45°: a cube's corner, Euclid XIII 15"),
        (3, 45, 37.761, 50.768, "by hand: asin(cos 45 sin 60), atan(sin 45 tan 60)"),
        (6, 45, 20.705, 22.208, "by hand: asin(cos 45 sin 30), atan(sin 45 tan 30)"),
        (8, 45, 15.699, 16.325, "worked by hand: asin(cos 45 sin 22.5) and so on"),
    ],
)  # fmt: skip
def test_a_vessel_splayed_at_45_degrees_has_the_angles_of_the_table(
    sides: int, slope: int, tilt: float, gauge: float, source: str
) -> None:
    design = vessel(
        METRIC,
        sides=sides,
        top_inscribed=400,
        bottom_inscribed=200,
        height=100,
        wall=12,
        base="none",
    )
    assert float(degrees(design, "slope_from_vertical")) == pytest.approx(slope), source
    assert float(degrees(design, "blade_tilt")) == pytest.approx(tilt, abs=1e-3), source
    found = float(degrees(design, "gauge_angle"))
    assert found == pytest.approx(gauge, abs=1e-3), source


def test_faces_and_slant_are_those_of_the_drawing() -> None:
    """Worked by hand: a 3-4-5 triangle in the section, a square from above."""
    design = vessel(
        METRIC,
        sides=4,
        top_inscribed=400,
        bottom_inscribed=280,
        height=80,
        wall=16,
        base="none",
    )
    # Half the difference is 60, so the slope's sine is 0.6 and its cosine 0.8.
    assert size(design, "face_top") == mm(400)
    assert size(design, "face_bottom") == mm(280)
    assert size(design, "slant_height") == mm(100)
    assert size(design, "rim_thickness") == mm(20)
    assert size(design, "inner_top") == mm(360)
    assert size(design, "inner_bottom") == mm(240)
    assert size(design, "wall_width") == mm(112)
    # Mean of the four edges 320, the section 100 by 16.
    assert design.parts[0].volume == pytest.approx(320 * 100 * 16 * 10**18, rel=1e-12)
    outline = [(x.nm // 10**6, y.nm // 10**6) for x, y in design.parts[0].outline]
    assert outline == [(60, 0), (340, 0), (400, 100), (0, 100)]


def test_square_edges_stand_over_the_face_by_wall_times_the_sine() -> None:
    """Worked by hand: the face rises 80 in a 3-4-5 triangle, 16 × 0.6 on top."""
    design = vessel(
        METRIC,
        sides=4,
        top_inscribed=400,
        bottom_inscribed=280,
        height="89.6",
        wall=16,
        edges="square",
        base="none",
    )
    assert abs(size(design, "slant_height").nm - 100_000_000) <= 1
    assert abs(size(design, "inner_top").nm - (400 - 2 * 12.8) * 1e6) <= 2
    assert float(degrees(design, "slope_from_vertical")) == pytest.approx(
        math.degrees(math.asin(0.6)), abs=1e-9
    )


@settings(max_examples=40)
@given(st.integers(3, 16), st.integers(80, 400), st.integers(80, 400), st.booleans())
def test_leaning_in_is_splaying_out_upside_down(
    sides: int, top: int, bottom: int, level: bool
) -> None:
    edges = "level" if level else "square"

    def made(top: int, bottom: int) -> Design:
        return vessel(
            METRIC,
            sides=sides,
            top_inscribed=top,
            bottom_inscribed=bottom,
            height=300,
            wall=9,
            edges=edges,
            base="none",
        )

    one, turned = made(top, bottom), made(bottom, top)
    for key in ("slope_from_vertical", "blade_tilt", "gauge_angle"):
        assert degrees(one, key) == degrees(turned, key)
    for key in ("face_top", "inner_top"):
        assert size(one, key) == size(turned, key.replace("top", "bottom"))
    assert size(one, "slant_height") == size(turned, "slant_height")
    assert one.parts[0].volume == pytest.approx(turned.parts[0].volume, rel=1e-12)


@pytest.mark.parametrize("sides", range(3, 17))
def test_upright_it_is_the_straight_vessel(sides: int) -> None:
    shared = {"sides": str(sides), "height": "6", "wall": "1/2", "base": "none"}
    flats = {"top_inscribed": "7 1/2", "bottom_inscribed": "7 1/2"}
    tapered = vessel(**shared, **flats)
    straight = registry.work_out(
        "straight_vessel", {**shared, "outside_inscribed": "7 1/2"}, Shop()
    )
    assert degrees(tapered, "slope_from_vertical") == 0
    assert degrees(tapered, "gauge_angle") == 0
    assert degrees(tapered, "blade_tilt") == degrees(straight, "edge_bevel")
    assert degrees(tapered, "dihedral_angle") == degrees(straight, "interior_angle")
    for here, there in (
        ("face_top", "outside_side"),
        ("face_bottom", "outside_side"),
        ("inner_top", "inside_side"),
        ("top_circumscribed", "outside_circumscribed"),
        ("bottom_inside_inscribed", "inside_inscribed"),
        ("closing_gap_at_0_1_degree", "closing_gap_at_0_1_degree"),
    ):
        assert abs(size(tapered, here).nm - size(straight, there).nm) <= 1, here
    walls = [part for part in straight.parts if part.key.startswith("wall")]
    assert tapered.parts[0].finished == walls[0].finished
    assert abs(tapered.parts[0].volume - walls[0].volume) <= 2_000_000 * 6 * 10**8
    volumes = [
        next(one.value for one in made.sizes if one.key == "inside_volume")
        for made in (tapered, straight)
    ]
    assert float(volumes[0]) == pytest.approx(float(volumes[1]), rel=1e-8)  # type: ignore[arg-type]


def test_nearly_flat_it_comes_to_the_flat_mitre_of_a_tray() -> None:
    """A flat frame is mitred at 180° over its sides on the gauge, the blade square."""
    for sides in (3, 4, 6, 12):
        design = vessel(
            METRIC,
            sides=sides,
            top_inscribed=900,
            bottom_inscribed=300,
            height=40,
            wall=12,
            edges="square",
            base="none",
        )
        tilt, gauge = degrees(design, "blade_tilt"), degrees(design, "gauge_angle")
        slope = float(degrees(design, "slope_from_vertical"))
        assert slope > 80
        assert float(gauge) == pytest.approx(180 / sides, abs=1)
        assert float(tilt) < 9


def test_rows_add_up_to_a_wall_and_share_its_wood() -> None:
    for typed in GRID[::7]:
        made = _tapered_resolve.resolve(read(Inputs, typed, Shop()), Shop())
        rows = _tapered_parts.row_volumes(made)
        whole = _tapered_parts.wall_volume(made)
        # The rows share the wall's width, which is whole nanometres.
        assert float(sum(rows)) == pytest.approx(whole, rel=1e-7)
        assert sum(width.nm for width in made.row_widths) == made.across.nm
        for part in _tapered_parts.parts(made):
            assert not part.woods or sum(share for _, share in part.woods) == 1


def test_head_to_tail_saves_board_and_needs_one_gauge_setting() -> None:
    asked = {"sides": "6", "strip_rows": "3", "top_inscribed": "9"}
    nested = vessel(**asked)
    apart = vessel(**asked, cut_from="one by one")
    assert nested.inputs["cut_from"] == "head to tail"
    saved = size(apart, "board_length") - size(nested, "board_length")
    assert size(nested, "board_saved") == saved
    assert nested.glue_ups[0].panel.length + saved == apart.glue_ups[0].panel.length
    keys = [one.key for one in nested.set_ups if "mitres" in one.key]
    assert keys == ["mitres"]
    keys = [one.key for one in apart.set_ups if "mitres" in one.key]
    assert keys == ["first-mitres", "second-mitres"]


def test_strips_that_read_otherwise_upside_down_are_cut_one_by_one() -> None:
    design = vessel(strip_rows=2, top_inscribed="9")
    assert design.inputs["cut_from"] == "one by one"
    with pytest.raises(WorkshopError) as refused:
        vessel(strip_rows=2, top_inscribed="9", cut_from="head to tail")
    assert (refused.value.input, refused.value.nearest) == ("cut_from", "one by one")


def test_nested_walls_fit_on_their_panel_with_their_kerfs() -> None:
    """Each cut is as wide along the board as a slanted blade makes it."""
    design = vessel(METRIC, sides=6, top_inscribed=240, bottom_inscribed=150, wall=12)
    count, kerf = 6, Shop().kerf.nm
    tilt, gauge = (
        math.radians(degrees(design, key)) for key in ("blade_tilt", "gauge_angle")
    )
    four = ("face_top", "face_bottom", "inner_top", "inner_bottom")
    mean = sum(size(design, key).nm for key in four) / 4
    step = mean + kerf / (math.cos(tilt) * math.cos(gauge))
    long = size(design, "face_top").nm + (count - 1) * step
    assert size(design, "board_length").nm == pytest.approx(long, abs=10)
    assert long < 6 * size(design, "face_top").nm


def test_level_edges_are_ripped_with_the_fence_at_the_width_of_a_face() -> None:
    design = vessel()
    edges = set_up(design, "edges")
    assert edges.fence == size(design, "slant_height")
    assert edges.tilt is not None
    assert edges.tilt.degrees == degrees(design, "slope_from_vertical")
    assert "leaning away from the fence" in edges.cuts
    assert set_up(
        vessel(edges="square", strip_rows=1, species="oak"), "edges"
    ).tilt == (Angle.of(0))


def test_a_bevel_steeper_than_the_blade_tilts_is_planed() -> None:
    design = vessel(METRIC, top_inscribed=600, bottom_inscribed=200, height=120)
    edges = set_up(design, "edges")
    assert (edges.machine, edges.tilt) == ("hand plane", None)
    assert any("come to a point" in told for told in design.warnings)
    base = set_up(design, "base")
    assert base.tilt == Angle.of(0)
    assert "plane the bevel" in base.cuts


def test_three_steep_sides_are_mitred_in_a_jig_at_the_rest_of_a_right_angle() -> None:
    mitres = set_up(vessel(sides=3), "mitres")
    tilt = degrees(vessel(sides=3), "blade_tilt")
    assert tilt > 45
    assert mitres.tilt == Angle(90 - tilt)
    assert "jig" in mitres.cuts


def test_a_gauge_that_turns_too_little_gives_way_to_a_sled() -> None:
    shop = replace(Shop(), most_gauge=Angle.of(5))
    for key in ("first-mitres", "second-mitres"):
        made = set_up(vessel(shop, cut_from="one by one"), key)
        assert made.machine == "crosscut sled"
        assert str(Angle(90 - (made.gauge or Angle.of(0)).degrees)) in made.cuts


def test_walls_too_long_for_the_sled_are_sawn_and_planed_by_hand() -> None:
    design = vessel(sides=3, top_inscribed="40", bottom_inscribed="30")
    assert set_up(design, "mitres").machine == "hand saw"
    assert set_up(design, "mitres").gauge is None


def test_a_blade_that_tilts_too_little_is_refused_naming_the_sides() -> None:
    shop = replace(Shop(), most_tilt=Angle.of(35))
    with pytest.raises(WorkshopError, match="More sides need less") as refused:
        vessel(shop, sides=4)
    assert refused.value.input == "sides"
    vessel(shop, sides=refused.value.nearest)


def test_the_base_has_its_room_at_either_face() -> None:
    """Worked by hand: at 0.75 per unit of height, walls 20 thick as they lie."""
    design = vessel(
        METRIC,
        sides=4,
        top_inscribed=400,
        bottom_inscribed=280,
        height=80,
        wall=16,
        base="loose",
        base_up=20,
        base_thickness=8,
        base_clearance=3,
    )
    # Inside 240 at the bottom, 1.5 wider for each unit up: 270 and 282, less 6.
    assert size(design, "base_below_inscribed") == mm(264)
    assert size(design, "base_above_inscribed") == mm(276)
    assert size(design, "base_mark") == mm(276)
    assert design.moving[-1].room == mm(6)
    glued = vessel(METRIC, base="glued", height=120)
    assert glued.moving[-1].room == Length(0)
    assert any("plywood" in told for told in glued.warnings)


def test_spares_are_cut_along_and_counted_in_the_panel() -> None:
    plain, spared = vessel(), vessel(spares=2)
    spare = next(part for part in spared.parts if part.spare)
    assert (spare.key, spare.name, spare.quantity) == ("wall-spare", "Spare wall", 2)
    assert spared.glue_ups[0].panel.length > plain.glue_ups[0].panel.length
    assert "8 walls" in set_up(spared, "mitres").cuts


def test_a_wall_is_over_size_by_what_its_own_line_says() -> None:
    asked = {"strip_rows": "1", "species": "oak"}
    own = vessel(**asked, over_size="wall: length 1 in, width 1/4 in, thickness 1/8 in")
    wall = own.parts[0]
    assert wall.blank.length - wall.finished.length == inches("1")
    assert wall.blank.width - wall.finished.width == inches("1/4")
    assert wall.blank.thickness - wall.finished.thickness == inches("1/8")


def test_steps_come_in_bench_order_and_carry_their_set_up() -> None:
    design = vessel(base="glued")
    keys = [step.key for step in design.steps]
    order = [
        *("joint-stock", "rip-wall-panel", "glue-wall-panel", "plane-wall-panel"),
        *("edges", "mitres", "dry-fit", "base", "sand-inside", "finish-inside"),
        *("assemble", "fix-base", "level-rims", "sand-outside", "finish-1"),
    ]
    assert [key for key in keys if key in order] == order
    for step in design.steps:
        if step.set_up:
            made = set_up(design, step.set_up)
            assert step.tool == made.machine
            assert set(made.cautions) <= set(step.cautions)
        assert safety.cautions(step.cautions) or not step.cautions


def test_a_mitre_is_end_grain_and_a_corner_as_large_as_the_cut() -> None:
    design = vessel(METRIC, sides=6, top_inscribed=240, bottom_inscribed=180, wall=12)
    mitres = next(joint for joint in design.joints if joint.end_grain)
    tilt, gauge = (
        math.radians(degrees(design, key)) for key in ("blade_tilt", "gauge_angle")
    )
    square = size(design, "slant_height").nm * 12e6
    assert mitres.area == pytest.approx(
        6 * square / math.cos(tilt) / math.cos(gauge), rel=1e-9
    )


@pytest.mark.parametrize(
    "shop", [Shop(), SHOWN_METRIC, SHOWN_BOTH], ids=["in", "mm", "both"]
)
def test_every_drawing_can_be_read(shop: Shop) -> None:
    for typed in GRID[::23]:
        for drawing in registry.work_out("tapered_vessel", typed, shop).drawings:
            assert crowded(drawing) == [], typed


def test_working_out_the_largest_takes_little_time() -> None:
    asked = {"sides": "16", "strip_rows": "12", "pattern": "stepped", "spares": "5"}
    vessel(**asked)
    start = time.process_time()
    for kerf in range(5):
        vessel(**asked, kerf=f"{kerf + 2} mm")
    assert time.process_time() - start < 5 * 0.05
