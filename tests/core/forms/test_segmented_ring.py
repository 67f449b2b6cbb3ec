"""The segmented ring: sizes, stacks, machine settings, steps and refusals."""

from __future__ import annotations

import math
import time
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core import registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.forms._turned import Profile
from app.core.length import Display, Length, Unit, inches, mm
from app.core.setup import SetUp
from app.core.shop import Shop

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(unit=Unit.MILLIMETRE))
RING = {"outside_diameter": "200 mm", "inside_diameter": "160 mm"}
STACK = {"profile": "0: 120 mm; 50 mm: 200 mm; 100 mm: 180 mm", "thickness": "20 mm"}


def ring(shop: Shop = Shop(), **typed: object) -> Design:
    texts = {key: str(value) for key, value in typed.items()}
    return registry.work_out("segmented_ring", texts, shop)


def size(design: Design, key: str) -> Length:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Length)
    return value


def set_up(design: Design, key: str) -> SetUp:
    return next(one for one in design.set_ups if one.key == key)


@pytest.mark.parametrize(
    ("segments", "gauge", "source"),
    [
        (6, 30, "six sides: 30° on every edge, common practice, no source"),
        (8, Fraction(45, 2), "eight: 22.5°, common practice, no source"),
        (12, 15, "twelve: 15°, common practice, no source"),
        (18, 10, "eighteen: 10°, common practice, no source"),
        (24, Fraction(15, 2), "twenty-four: 7.5°, common practice, no source"),
    ],
)
def test_the_gauge_is_set_as_every_turner_sets_it(
    segments: int, gauge: Fraction, source: str
) -> None:
    design = ring(**RING, segments=segments)
    value = next(one.value for one in design.sizes if one.key == "gauge_angle")
    assert value == Angle(Fraction(gauge)), source
    assert set_up(design, "cut-ring-1").gauge == Angle(Fraction(gauge))


def test_a_ring_of_six_by_euclid() -> None:
    """A hexagon's side is its corner's radius, its flats √3 sides apart: IV 15."""
    design = ring(**RING, segments=6, turning_allowance="0")
    assert size(design, "segment_outer_edge").nm / 1e6 == pytest.approx(
        200 / math.sqrt(3), abs=1e-6
    )
    assert size(design, "segment_inner_edge") == mm(80)
    wide = 100 - 80 * math.sqrt(3) / 2
    assert size(design, "segment_width").nm / 1e6 == pytest.approx(wide, abs=1e-6)


def test_the_allowance_enlarges_one_circle_and_shrinks_the_other_first() -> None:
    with_it = ring(**RING, turning_allowance="3 mm")
    plain = ring(
        outside_diameter="206 mm", inside_diameter="154 mm", turning_allowance="0"
    )
    for key in ("segment_outer_edge", "segment_inner_edge", "segment_width"):
        assert size(with_it, key) == size(plain, key)


def test_a_strip_of_squares_is_the_pieces_and_the_kerfs_between_them() -> None:
    """Worked by hand: four segments of 100 and 60 mm, kerf 3 mm at 45°.

    4 × 80 + 3 × 3 √2 + 20 = 352.728 mm.
    """
    design = ring(
        segments=4,
        outside_diameter="100 mm",
        inside_diameter=f"{60 * math.sqrt(2):.6f} mm",
        turning_allowance="0",
        kerf="3 mm",
    )
    assert size(design, "segment_outer_edge") == mm(100)
    assert size(design, "segment_inner_edge").nm / 1e6 == pytest.approx(60, abs=1e-5)
    assert size(design, "strip_length").nm / 1e6 == pytest.approx(352.728, abs=1e-3)


def test_each_ring_of_a_stack_holds_the_profile_over_its_height() -> None:
    """Worked by hand: the profile is 120 at 0, 200 at 50 and 180 at 100 mm."""
    design = ring(METRIC, **STACK, turning_allowance="3", wall="10")
    (rings, *_) = design.tables
    assert rings.key == "rings"
    flats = [row[2] for row in rings.rows]
    corners = [row[3] for row in rings.rows]
    # Ring 1, 0 to 20: 152 outside at its top, 120 - 20 inside at its foot.
    assert flats == ["158 mm", "190 mm", "206 mm", "202 mm", "194 mm"]
    assert corners == ["94 mm", "126 mm", "158 mm", "162 mm", "154 mm"]


def test_rings_alike_are_cut_with_one_set_up() -> None:
    design = ring(profile="0: 8 in; 3 in: 8 in", thickness="3/4 in", species="ash")
    assert [one.key for one in design.set_ups] == ["rip-ring-1", "cut-ring-1"]
    (segment,) = design.parts
    assert segment.quantity == 4 * 12
    assert segment.name == "Segment, rings 1, 2, 3 and 4, ash"


def test_a_stack_is_laid_like_bricks() -> None:
    design = ring(**STACK, segments=8)
    starts: dict[float, set[float]] = {}
    for piece in design.assembly:
        points = list(piece.cells[0].points())
        low = min(z for _, _, z in points)
        x = sum(p[0] for p in points) / len(points)
        y = sum(p[1] for p in points) / len(points)
        turn = math.degrees(math.atan2(y, x)) % 45
        starts.setdefault(low, set()).add(round(turn, 3) % 45)
    first, second, *_ = (starts[low] for low in sorted(starts))
    assert first == {0.0}
    assert second == {22.5}


def test_segments_repeat_their_species_round_the_ring() -> None:
    design = ring(**RING, segments=12, species="walnut, maple, cherry")
    assert [(part.species, part.quantity) for part in design.parts] == [
        ("walnut", 4),
        ("cherry", 4),
        ("maple", 4),
    ]
    around = [piece.cells[0].species for piece in design.assembly]
    assert around[:3] * 4 == around


def test_a_pattern_that_does_not_come_round_is_told() -> None:
    told = ring(**RING, segments=10, species="walnut, maple, cherry").warnings
    assert any("does not come round" in one for one in told)


def test_a_short_segment_is_never_trapped_at_its_stop() -> None:
    cut = set_up(ring(**RING), "cut-ring-1")
    assert cut.fence is None
    assert cut.stop == size(ring(**RING), "segment_outer_edge")
    assert "swing the stop away" in cut.cuts
    assert {"mitre-gauge.trapped-offcut", "crosscut-sled.short-piece"} <= {
        *cut.cautions
    }


def test_beyond_the_gauge_a_sled_with_a_fixed_fence_cuts_the_segments() -> None:
    small = replace(Shop(), most_gauge=Angle.of(15))
    cut = set_up(ring(small, **RING, segments=8), "cut-ring-1")
    assert cut.machine == "crosscut sled"
    assert "67.5°" in cut.cuts


@pytest.mark.parametrize(("segments", "halves"), [(12, True), (9, False)])
def test_half_rings_are_trued_where_there_are_halves(
    segments: int, halves: bool
) -> None:
    design = ring(**RING, segments=segments)
    keys = [step.key for step in design.steps]
    assert ("true-halves" in keys) is halves
    assert any("no two equal halves" in one for one in design.warnings) is not halves


def test_the_blank_is_checked_before_it_turns_and_every_cut_carries_it() -> None:
    steps = ring(**STACK, bottom="solid").steps
    keys = [step.key for step in steps]
    (mount,) = (step for step in steps if step.key == "mount")
    assert sum(wait.minutes for wait in mount.waits) >= 24 * 60
    assert "PVA wood glue" in {supply.name for supply in mount.supplies}
    assert keys.index("mount") < keys.index("check-blank")
    for key in ("turn-outside", "turn-inside"):
        assert keys.index("check-blank") < keys.index(key)
    lathe = {"lathe.thrown-work", "lathe.glued-blank", "lathe.check-the-joints"}
    turned = [step for step in steps if step.tool == "lathe"]
    assert len(turned) >= 5
    assert all(lathe <= {*step.cautions} for step in turned)
    outside = next(step for step in steps if step.key == "turn-outside")
    assert "Lowest speed first" in outside.detail
    assert "line of the blank" in outside.detail


def test_a_glued_ring_never_goes_through_the_thickness_planer() -> None:
    steps = ring(**RING).steps
    flatten = next(step for step in steps if step.key == "flatten-rings")
    assert flatten.tool == "hand plane"
    after = steps[steps.index(flatten) :]
    assert not any(step.tool == "thickness planer" for step in after)


def test_spares_are_cut_and_ripped_along() -> None:
    plain, spared = ring(**RING, species="ash"), ring(**RING, species="ash", spares=2)
    (_, spare) = spared.parts
    assert (spare.key, spare.quantity) == ("ring_1_segment_a-spare", 2)
    longer = spared.glue_ups[0].panel.length - plain.glue_ups[0].panel.length
    outer, inner = size(plain, "segment_outer_edge"), size(plain, "segment_inner_edge")
    assert longer.nm > (outer + inner).nm
    assert "2 spare" in set_up(spared, "cut-ring-1").cuts


def test_an_allowance_of_its_own_goes_to_the_strips() -> None:
    design = ring(**RING, over_size="segment: length 1 in, thickness 1/4 in")
    (strip, *_) = design.glue_ups
    assert strip.panel.thickness == inches("1")
    plain = ring(**RING).glue_ups[0].panel.length
    assert strip.panel.length - plain == inches("1/2")


def test_long_strips_are_shared_out() -> None:
    design = ring(outside_diameter="900 mm", inside_diameter="850 mm", species="ash")
    (strip,) = design.glue_ups
    assert strip.quantity == 3
    assert strip.panel.length < mm(1220)


def test_what_is_left_of_a_plain_ring_is_its_annulus() -> None:
    """π/4 (D² - d²) t, any handbook; 200 and 160 mm, 20 mm thick."""
    design = ring(**RING, thickness="20 mm")
    left = next(one.value for one in design.sizes if one.key == "turned_volume")
    assert isinstance(left, int)
    assert left / 1e18 == pytest.approx(math.pi / 4 * (200**2 - 160**2) * 20)
    faces = math.pi * (200 + 160) * 20 + math.pi / 2 * (200**2 - 160**2)
    assert design.finish_area / 1e12 == pytest.approx(faces)


@given(
    st.lists(st.tuples(st.integers(1, 60), st.integers(60, 400)), max_size=5),
    st.integers(60, 400),
    st.integers(0, 100),
    st.integers(1, 100),
)
@settings(max_examples=60, deadline=None)
def test_no_height_of_a_span_is_wider_than_it_says(
    rises: list[tuple[int, int]], foot: int, low: int, long: int
) -> None:
    levels, height = [(Length(0), mm(foot))], 0
    for rise, wide in [*rises, (1, foot)]:
        height += rise
        levels.append((mm(height), mm(wide)))
    profile = Profile(tuple(levels), mm(20))
    widest, narrowest = profile.over(mm(low), mm(low + long))
    for at in range(low, low + long + 1):
        across = profile.outside_at(mm(at))
        assert narrowest + mm(20).nm <= across <= widest


@pytest.mark.parametrize(
    ("typed", "key", "told"),
    [
        (RING | {"inside_diameter": "210 mm"}, "inside_diameter", "nothing is left"),
        (RING | {"segments": "3"} | {"outside_diameter": "900 mm"}, "segments", "sled"),
        ({"outside_diameter": "50 mm", "inside_diameter": "30 mm", "segments": "24"},
         "segments", "too short to hold"),
        (STACK | {"thickness": "4 mm"}, "thickness", "24 are the most"),
        (STACK | {"wall": "70 mm"}, "wall", "meet in the middle"),
        ({"profile": "0: 100 mm; 20 mm"}, "profile", "no level"),
        (STACK | {"inside_diameter": "9 mm"}, "inside_diameter", "Leave this empty"),
    ],
)  # fmt: skip
def test_what_cannot_be_glued_or_turned_says_why(
    typed: dict[str, str], key: str, told: str
) -> None:
    with pytest.raises(WorkshopError, match=told) as refusal:
        ring(**typed)
    assert refusal.value.input == key
    if refusal.value.nearest:
        ring(**(typed | {key: refusal.value.nearest}))


def test_a_stack_of_every_ring_is_worked_out_at_once() -> None:
    typed = {"profile": "0: 300 mm; 480 mm: 500 mm", "thickness": "20 mm"}
    typed |= {"segments": "24", "wall": "20 mm", "species": "ash, oak, cherry"}
    times = []
    for spares in ("0", "1", "2"):
        start = time.perf_counter()
        ring(**typed, spares=spares)
        times.append(time.perf_counter() - start)
    assert min(times) < 0.1


def test_a_half_gathers_the_error_of_all_its_ends() -> None:
    """Six segments of 30° + 2 × 0.1° make 181.2°, worked by hand."""
    found = {one.key: one.value for one in ring(**RING, segments=12).sizes}
    assert found["half_off_at_0_1_degree"] == Angle(Fraction(6, 5))
    odd = {one.key for one in ring(**RING, segments=9).sizes}
    assert "half_off_at_0_1_degree" not in odd


def test_the_weight_is_the_blanks_and_what_the_lathe_leaves_is_told_beside_it() -> None:
    """Left: the annulus's share of the eight-sided ring, plane geometry."""
    design = ring(**RING, thickness="20 mm")
    found = {one.key: one for one in design.sizes}
    assert found["weight"].label == ("Weight of the glued blank, before it is turned")
    blank, left = found["weight"].value, found["turned_weight"].value
    assert isinstance(blank, Fraction)
    assert isinstance(left, Fraction)
    sawn = sum(part.volume * part.quantity for part in design.parts)
    turned = math.pi / 4 * (200**2 - 160**2) * 20 * 1e18
    assert float(left) / float(blank) == pytest.approx(turned / sawn)


def test_the_working_of_the_lathes_sizes_comes_to_them() -> None:
    made = ring(METRIC, **RING, segments=8, turning_allowance="3")
    found = {one.key: one for one in made.sizes}
    assert found["swing"].values == "206 mm / cos(180°/8)"
    assert found["turned_volume"].values.count(" - ") == 1


def test_all_strips_are_ripped_before_the_gauge_is_set() -> None:
    design = ring(**STACK)
    keys = [step.key for step in design.steps]
    cuts = [key for key in keys if key.startswith("cut-ring")]
    rips = [key for key in keys if key.startswith("rip-ring")]
    assert keys.index(rips[-1]) < keys.index(cuts[0])
    assert [one.key for one in design.set_ups][: len(rips + cuts)] == rips + cuts


def test_thin_stock_is_planed_on_a_carrier() -> None:
    """Thinner than about 1/4 in: common practice, no source."""
    (thin,) = (
        one for one in ring(**RING, thickness="1/8 in").steps if "plane-st" in one.key
    )
    (thick,) = (one for one in ring(**RING).steps if "plane-st" in one.key)
    assert "thickness-planer.thin-stock" in thin.cautions
    assert "carrier board" in thin.detail
    assert "thickness-planer.thin-stock" not in thick.cautions


def test_strips_wider_than_most_boards_are_told() -> None:
    wide = ring(outside_diameter="900 mm", inside_diameter="300 mm", segments=24)
    assert any("need boards as wide" in one for one in wide.warnings)
    assert not any("need boards as wide" in one for one in ring(**RING).warnings)


def test_short_strips_are_ripped_while_their_wood_is_long() -> None:
    """Under 12 in, the shop's shortest for the jointer: common practice, no source."""
    short = ring(outside_diameter="3 in", inside_diameter="2 in", segments=6)
    assert "crosscut after" in set_up(short, "rip-ring-1").cuts
    long = ring(outside_diameter="12 in", inside_diameter="10 in", segments=6)
    assert "crosscut after" not in set_up(long, "rip-ring-1").cuts
