"""The stave cylinder: sizes, machine settings, steps and refusals."""

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
from app.core.setup import SetUp
from app.core.shop import Shop

PLAIN = {"outside_diameter": "200 mm", "inside_diameter": "170 mm", "height": "300 mm"}


def cylinder(shop: Shop = Shop(), **typed: object) -> Design:
    texts = {key: str(value) for key, value in typed.items()}
    return registry.work_out("stave_cylinder", texts, shop)


def size(design: Design, key: str) -> Length:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Length)
    return value


def set_up(design: Design, key: str) -> SetUp:
    return next(one for one in design.set_ups if one.key == key)


@pytest.mark.parametrize(
    ("staves", "bevel", "source"),
    [
        (4, 45, "four sides: 45°, common practice, no source"),
        (6, 30, "six sides: 30° on every edge, common practice, no source"),
        (8, Fraction(45, 2), "eight: 22.5°, common practice, no source"),
        (10, 18, "ten: 18°, common practice, no source"),
        (12, 15, "twelve: 15°, common practice, no source"),
    ],
)
def test_the_blade_is_tilted_as_every_cooper_tilts_it(
    staves: int, bevel: Fraction, source: str
) -> None:
    design = cylinder(**PLAIN, staves=staves)
    value = next(one.value for one in design.sizes if one.key == "edge_bevel")
    assert value == Angle(Fraction(bevel)), source
    assert set_up(design, "bevel-second").tilt == value


def test_six_staves_by_euclid() -> None:
    """A hexagon's flats are √3 sides apart, its corners two sides: IV 15."""
    design = cylinder(**PLAIN, staves=6)
    assert size(design, "stave_width").nm / 1e6 == pytest.approx(
        200 / math.sqrt(3), abs=1e-6
    )
    least = 100 - 85 * math.sqrt(3) / 2
    assert size(design, "least_thickness").nm / 1e6 == pytest.approx(least, abs=1e-6)


@given(st.integers(4, 24), st.integers(100, 400), st.integers(70, 90))
@settings(max_examples=40, deadline=None)
def test_more_staves_may_be_thinner(staves: int, wide: int, share: int) -> None:
    typed = {"outside_diameter": f"{wide} mm", "height": "100 mm"}
    typed["inside_diameter"] = f"{wide * share // 100} mm"
    few = cylinder(**typed, staves=4)
    many = cylinder(**typed, staves=staves)
    wall = (wide - wide * share // 100) / 2
    assert size(many, "least_thickness") <= size(few, "least_thickness")
    # Never thinner than the wall between the circles.
    assert size(many, "least_thickness").nm / 1e6 > wall


def test_the_sharp_tip_stands_up_along_the_fence() -> None:
    design = cylinder(**PLAIN, staves=8, over_size="stave: width 1/4 in")
    first, second = (set_up(design, f"bevel-{which}") for which in ("first", "second"))
    for one in (first, second):
        assert one.face_down.startswith("inner face")
        assert "away from the fence" in one.cuts
        assert {"table-saw.narrow-bevel", "table-saw.kickback"} <= {*one.cautions}
    thick, wide = size(design, "stave_thickness"), size(design, "stave_width")
    lean = thick.nm * math.tan(math.pi / 8)
    assert second.fence is not None
    assert first.fence is not None
    assert second.fence.nm == pytest.approx(wide.nm - lean, abs=2)
    # A first pass takes nothing off the outer face of what was ripped square.
    assert first.fence - second.fence == inches("1/4")


def test_beyond_the_blades_tilt_a_tall_jig_holds_the_stave() -> None:
    design = cylinder(**(PLAIN | {"inside_diameter": "100 mm"}), staves=3)
    second = set_up(design, "bevel-second")
    assert second.tilt == Angle.of(30)
    assert second.fence is None
    assert "jig" in second.cuts
    assert not any(one.key == "second_fence" for one in design.sizes)


def test_what_not_even_a_jig_reaches_is_refused_with_a_count_that_works() -> None:
    small = replace(Shop(), most_tilt=Angle.of(20))
    with pytest.raises(WorkshopError, match="tilts to 20") as refusal:
        cylinder(small, **PLAIN, staves=6)
    assert (refusal.value.input, refusal.value.nearest) == ("staves", "9")
    assert cylinder(small, **PLAIN, staves=9)


def test_short_staves_are_ripped_several_in_one_length() -> None:
    short = cylinder(**(PLAIN | {"height": "60 mm"}))
    assert "In lengths of 5 staves" in set_up(short, "rip-staves").cuts
    assert "In lengths" not in set_up(cylinder(**PLAIN), "rip-staves").cuts


def test_long_staves_are_cut_to_length_by_hand() -> None:
    long = cylinder(**(PLAIN | {"height": "1 m"}))
    assert set_up(long, "cut-staves").machine == "hand saw"
    assert next(s for s in long.steps if s.key == "cut-staves").tool == "hand saw"


def test_staves_take_their_species_in_turn() -> None:
    design = cylinder(**PLAIN, staves=12, species="walnut, maple, walnut, ash")
    assert [(part.key, part.species, part.quantity) for part in design.parts] == [
        ("stave_a", "walnut", 6),
        ("stave_b", "maple", 3),
        ("stave_c", "ash", 3),
    ]
    around = [piece.cells[0].species for piece in design.assembly]
    assert around[:4] * 3 == around


def test_a_round_of_species_that_ends_as_it_began_is_told() -> None:
    told = cylinder(**PLAIN, staves=9).warnings
    assert any("do not come round" in one for one in told)


def test_thicker_staves_grow_inwards() -> None:
    plain, thick = cylinder(**PLAIN), cylinder(**PLAIN, thickness="30 mm")
    assert size(plain, "stave_width") == size(thick, "stave_width")
    assert size(thick, "stave_thickness") == mm(30)
    assert size(thick, "least_thickness") == size(plain, "least_thickness")


def test_no_allowance_is_told() -> None:
    assert any("turning allowance" in one for one in cylinder(**PLAIN).warnings)
    allowed = cylinder(**PLAIN, turning_allowance="3 mm")
    assert not any("turning allowance" in one for one in allowed.warnings)


def test_the_blank_is_checked_before_it_turns() -> None:
    steps = cylinder(**PLAIN, bottom="solid").steps
    keys = [step.key for step in steps]
    assert keys.index("glue-bottom") < keys.index("check-blank")
    assert keys.index("check-blank") < keys.index("turn-outside")
    lathe = {"lathe.thrown-work", "lathe.glued-blank", "lathe.check-the-joints"}
    assert all(lathe <= {*one.cautions} for one in steps if one.tool == "lathe")


@pytest.mark.parametrize(
    ("bottom", "held", "inside", "off"),
    [
        ("none", "each open end", "other plug", "last plug"),
        ("solid", "waste block", "plug at the tailstock", "Part the bottom"),
    ],
)
def test_it_is_held_at_the_lathe_by_the_ends_it_has(
    bottom: str, held: str, inside: str, off: str
) -> None:
    """A plug hides what it is glued into, and a closed end takes none."""
    told = {one.key: one for one in cylinder(**PLAIN, bottom=bottom).steps}
    assert held in told["mount"].detail
    assert sum(wait.minutes for wait in told["mount"].waits) >= 24 * 60
    assert inside in told["turn-inside"].detail
    assert off in told["part-off"].detail


def test_the_first_fence_leaves_the_outer_face_whole() -> None:
    """T × tan(180°/n) from the ripped width: plane geometry."""
    design = cylinder(**PLAIN, thickness="25 mm")
    slant = 25 * math.tan(math.pi / 12)
    fence = (size(design, "blank_width").nm / 1e6) - slant
    assert size(design, "first_fence").nm / 1e6 == pytest.approx(fence, abs=1e-5)
    assert set_up(design, "bevel-first").fence == size(design, "first_fence")


def test_a_solid_bottom_is_told_to_move() -> None:
    told = cylinder(**PLAIN, bottom="solid").warnings
    assert any("bottom" in one and "swells" in one for one in told)


def test_spares_are_ripped_along() -> None:
    design = cylinder(**PLAIN, spares=2, species="ash")
    assert [(part.key, part.quantity) for part in design.parts] == [
        ("stave", 12),
        ("stave-spare", 2),
    ]
    assert "2 spare" in set_up(design, "rip-staves").cuts


def test_what_is_left_is_a_tube() -> None:
    """π/4 (D² - d²) h, any handbook; 200 and 170 mm, 300 mm high."""
    design = cylinder(**PLAIN)
    left = next(one.value for one in design.sizes if one.key == "turned_volume")
    assert isinstance(left, int)
    assert left / 1e18 == pytest.approx(math.pi / 4 * (200**2 - 170**2) * 300)


@pytest.mark.parametrize(
    ("typed", "key", "told"),
    [
        (PLAIN | {"inside_diameter": "200 mm"}, "inside_diameter", "nothing is left"),
        (PLAIN | {"thickness": "10 mm"}, "thickness", "do not hold both circles"),
        (PLAIN | {"thickness": "99 mm"}, "thickness", "bevels nearly meet"),
        ({"outside_diameter": "60 mm", "inside_diameter": "40 mm", "staves": "24"},
         "staves", "too narrow"),
    ],
)  # fmt: skip
def test_what_cannot_be_ripped_says_why_and_what_would_do(
    typed: dict[str, str], key: str, told: str
) -> None:
    with pytest.raises(WorkshopError, match=told) as refusal:
        cylinder(**typed)
    assert refusal.value.input == key
    assert refusal.value.nearest
    cylinder(**(typed | {key: refusal.value.nearest}))


def test_too_thick_a_stave_is_offered_the_thickest_that_is_near() -> None:
    """The inner face keeps 3 mm: (width - 3 mm) / 2 / tan(180°/n), plane geometry."""
    with pytest.raises(WorkshopError) as refused:
        cylinder(**PLAIN, thickness="110 mm")
    most = (200 * math.tan(math.pi / 12) - 3) / 2 / math.tan(math.pi / 12)
    near = Length.read(refused.value.nearest, Shop().unit).nm / 1e6
    assert most * 0.8 < near <= most


def test_what_is_sawn_by_hand_meets_no_stop() -> None:
    long = set_up(cylinder(**PLAIN | {"height": "900 mm"}), "cut-staves")
    assert long.machine == "hand saw"
    assert "stop" not in long.cuts
    assert "flip stop" in set_up(cylinder(**PLAIN), "cut-staves").cuts


def test_staves_wider_than_most_boards_are_told() -> None:
    assert any("need boards as wide" in w for w in cylinder(**PLAIN, staves=3).warnings)
    assert not any("need boards as wide" in w for w in cylinder(**PLAIN).warnings)
