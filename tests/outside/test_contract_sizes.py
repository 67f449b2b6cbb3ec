"""Every size of the table of forms, worked out again from the table's words alone.

The formulas are the table's, or plain geometry where it gives a meaning and no
formula; none is taken from the program. Where the words leave two readings, the one
that is taken is named beside the check.
"""

from __future__ import annotations

import math
from itertools import product

import pytest

from tests.outside.promised import KERF, Document, document, hold, sizes

SIDES = range(3, 17)
# What each alternative sizing of the straight vessel gives, as (mm, mm).
ACROSS = {
    "outside_side": (101.6, 157.77),
    "outside_inscribed": (203.2, 311.13),
    "outside_circumscribed": (287.9, 333.33),
    "inside_inscribed": (187.31, 250.0),
}
VESSEL = {"height": 123.4, "wall": 11.3, "base_thickness": 6.1, "groove_depth": 5.2}
VESSEL |= {"groove_up": 7.3, "base_clearance": 1.1, "strip_rows": 3, "kerf": 2.7}
SPLINES = {"splines_per_corner": 2, "spline_thickness": 3, "spline_depth_share": 0.4}
WALL, HEIGHT = 11.3, 123.4


def vessel(sides: int, how: str, across: float, **more: object) -> Document:
    typed = {"sides": sides, how: across, **VESSEL, "species": "walnut,maple", **more}
    return document("straight_vessel", **typed)


# Odd counts by the rounder size, even ones by the other.
VESSELS = [
    (sides, how, across[sides % 2])
    for sides, (how, across) in product(SIDES, ACROSS.items())
]


def circles(sides: int, how: str, across: float) -> tuple[float, float, float]:
    """Side, inscribed and circumscribed outside, from whichever is given."""
    turn = math.pi / sides
    inscribed = {
        "outside_side": across / math.tan(turn),
        "outside_inscribed": across,
        "outside_circumscribed": across * math.cos(turn),
        "inside_inscribed": across + 2 * WALL,
    }[how]
    return inscribed * math.tan(turn), inscribed, inscribed / math.cos(turn)


@pytest.mark.parametrize("sides", SIDES)
def test_a_vessel_is_what_any_of_its_sizes_across_makes_it(sides: int) -> None:
    for _, how, across in (one for one in VESSELS if one[0] == sides):
        side, inscribed, circumscribed = circles(sides, how, across)
        hold(
            vessel(sides, how, across),
            edge_bevel=180 / sides,
            interior_angle=180 - 360 / sides,
            outside_side=side,
            outside_inscribed=inscribed,
            outside_circumscribed=circumscribed,
            inside_inscribed=inscribed - 2 * WALL,
            corner_thickness=WALL / math.cos(math.pi / sides),
            strip_width=HEIGHT / 3,
        )


@pytest.mark.parametrize("sides", SIDES)
def test_a_vessels_inside_base_and_panel_follow_from_its_sizes(sides: int) -> None:
    """From the sizes as they are printed, as the table says them."""
    flat = math.tan(math.pi / sides)
    for _, how, across in (one for one in VESSELS if one[0] == sides):
        found = vessel(sides, how, across)
        size = sizes(found)
        base = size["inside_inscribed"] + 2 * (5.2 - 1.1)
        hold(
            found,
            inside_side=size["inside_inscribed"] * flat,
            base_inscribed=base,
            base_side=base * flat,
            base_mark=base * flat,
            base_gauge_angle=abs(90 - 360 / sides),
            panel_length=sides * size["outside_side"] + (sides - 1) * 2.7,
        )
        assert size["base_blank"] >= 1.25 * size["base_inscribed"]
        # Base seated: the room above its upper face.
        room = sides * flat * (size["inside_inscribed"] / 2) ** 2
        seated = room * (HEIGHT - 7.3 - 6.1)
        assert size["inside_volume"] == pytest.approx(seated * 1e18, rel=1e-12)


@pytest.mark.parametrize("sides", SIDES)
def test_a_vessels_last_joint_gapes_by_the_error_of_all_bevels(sides: int) -> None:
    off, bevel = math.radians(0.1), math.pi / sides
    for _, how, across in (one for one in VESSELS if one[0] == sides):
        found = vessel(sides, how, across)
        side = sizes(found)["outside_side"]
        gap = side * math.sin(sides * off) / math.sin(bevel - off)
        hold(found, closing_gap_at_0_1_degree=gap)


@pytest.mark.parametrize("share", ["0.3", "0.4", "0.5"])
@pytest.mark.parametrize("sides", SIDES)
def test_a_spline_reaches_its_share_along_the_bisector(sides: int, share: str) -> None:
    more = SPLINES | {"spline_depth_share": share}
    found = vessel(sides, "outside_side", 157.77, **more)
    corner = sizes(found)["corner_thickness"]
    hold(found, spline_slot_depth=float(share) * corner)
    depth = sizes(found)["spline_slot_depth"]
    hold(found, spline_visible_length=depth / math.sin(math.pi / sides))


@pytest.mark.parametrize(
    ("base", "inscribed", "stands"),
    [
        # A rebate is as deep as the groove would be, and lies at the lower edge.
        ("rebate", 187.31 + 2 * (5.2 - 1.1), 6.1),
        # Under the walls nothing is let in: flush with the outside, all room inside.
        ("under", 187.31 + 2 * WALL, 0.0),
        ("none", None, 0.0),
    ],
)
def test_a_base_elsewhere_than_in_a_groove(
    base: str, inscribed: float | None, stands: float
) -> None:
    found = vessel(7, "inside_inscribed", 187.31, base=base)
    room = 7 * math.tan(math.pi / 7) * (187.31 / 2) ** 2 * (HEIGHT - stands)
    assert sizes(found)["inside_volume"] == pytest.approx(room * 1e18, rel=1e-12)
    if inscribed is None:
        assert "base_inscribed" not in sizes(found)
    else:
        hold(found, base_inscribed=inscribed)


TAPERED = [(200, 150, 120), (150, 200, 133.3), (321.1, 320.9, 99.9), (200, 200, 100)]


@pytest.mark.parametrize("sides", SIDES)
@pytest.mark.parametrize(("top", "bottom", "height"), TAPERED)
def test_a_tapered_vessel_by_solid_geometry(
    sides: int, top: float, bottom: float, height: float
) -> None:
    """Tilt and gauge by the normals of two neighbouring faces, not by a formula."""
    found = document(
        "tapered_vessel",
        sides=sides,
        top_inscribed=top,
        bottom_inscribed=bottom,
        height=height,
        wall=10,
    )
    turn, lean = math.pi / sides, math.atan2(abs(top - bottom) / 2, height)
    # The joint's plane holds the axis; seen from the face it stands off its normal.
    slope = (math.cos(lean), math.sin(lean))
    joint = (-math.sin(turn), math.cos(turn))
    tilt = math.degrees(math.asin(abs(slope[0] * joint[0])))
    gauge = math.degrees(math.atan2(abs(slope[1] * joint[0]), joint[1]))
    hold(
        found,
        slope_from_vertical=math.degrees(lean),
        blade_tilt=tilt,
        gauge_angle=gauge,
        face_top=top * math.tan(turn),
        face_bottom=bottom * math.tan(turn),
        slant_height=math.hypot(height, (top - bottom) / 2),
    )


RAILS = [(20, 40, 6, 8), (33.3, 30.1, 5.5, 7.7)]


def tray(rail: tuple[float, float, float, float], **more: object) -> Document:
    keys = ("rail_width", "rail_height", "panel_thickness", "groove_depth")
    return document("mitred_tray", **dict(zip(keys, rail, strict=True)), **more)


@pytest.mark.parametrize("rail", RAILS)
@pytest.mark.parametrize("across", [(300, 200), (200, 300), (251.3, 251.3)])
def test_an_oblong_tray_holds_its_panel_to_the_grooves_bottom(
    rail: tuple[float, float, float, float], across: tuple[float, float]
) -> None:
    """The panel is a sheet where nothing else is said, and needs no room."""
    length, width = max(across), min(across)
    inner = 2 * rail[3] - 2 * rail[0]
    hold(
        tray(rail, sides=4, length=across[0], width=across[1]),
        gauge_angle=45,
        long_side=length,
        short_side=width,
        panel_length=length + inner,
        panel_width=width + inner,
    )


@pytest.mark.parametrize("rail", RAILS)
@pytest.mark.parametrize("sides", [3, *range(5, 13)])
def test_a_tray_of_other_sides_has_equal_sides_and_a_panel_like_it(
    sides: int, rail: tuple[float, float, float, float]
) -> None:
    """Panel length and width are its reach along and across the grain, a side
    along the grain: across the flats and through the corners, as the count has it.
    """
    found = tray(rail, sides=sides, inscribed=300)
    side = 300 * math.tan(math.pi / sides)
    hold(found, gauge_angle=180 / sides, long_side=side, short_side=side)
    round_it = 300 - 2 * rail[0] + 2 * rail[3]
    turns = [math.pi * (2 * k + 1) / sides for k in range(sides)]
    out = round_it / 2 / math.cos(math.pi / sides)
    across, along = [[out * f(turn) for turn in turns] for f in (math.cos, math.sin)]
    # The first side faces along x, so that the grain runs along y.
    size = sizes(found)
    assert size["panel_length"] == pytest.approx(max(along) - min(along), abs=2e-6)
    assert size["panel_width"] == pytest.approx(max(across) - min(across), abs=2e-6)


BOXES: list[tuple[float, ...]] = [
    (300, 200, 100, 12, 6, 6),
    (200, 300, 101, 9.7, 6.35, 4.1),
]
BOXES += [(333.3, 111.1, 77.7, 12.7, 12.7, 5), (150, 150, 63.5, 6.35, 6.35, 3)]


@pytest.mark.parametrize("joint", ["rebate", "mitre", "finger"])
@pytest.mark.parametrize("box", BOXES)
def test_a_boxes_base_reaches_to_the_bottom_of_its_grooves(
    box: tuple[float, ...], joint: str
) -> None:
    """A sheet where nothing else is said. Fingers: an odd count of equal ones, as
    many as are none of them narrower than the cutter.
    """
    keys = ("length", "width", "height", "wall", "cutter", "groove_depth")
    length, width, height, wall, cutter, deep = box
    found = document("box", joint=joint, **dict(zip(keys, box, strict=True)))
    inner = 2 * deep - 2 * wall
    hold(found, base_length=length + inner, base_width=width + inner)
    if joint == "finger":
        count = max(n for n in range(1, 99, 2) if n * cutter <= height + 1e-9)
        hold(found, finger_count=count, finger_width=height / count)


BOARDS = [(400, 250, 30, 40), (457.2, 304.8, 38.1, 38.1), (300, 200, 25, 23.7)]


@pytest.mark.parametrize("board", BOARDS)
@pytest.mark.parametrize("grain", ["edge", "end"])
def test_a_board_takes_the_strips_and_slices_that_fill_it(
    board: tuple[float, float, float, float], grain: str
) -> None:
    """A strip is at most as wide as asked; a slice shows as much as a strip does."""
    length, width, thickness, strip = board
    found = document(
        "laminated_board",
        length=length,
        width=width,
        thickness=thickness,
        grain=grain,
        strip_width=strip,
        species="maple,walnut",
    )
    strips, slices = math.ceil(width / strip), math.ceil(length / strip)
    hold(found, strip_count=strips, first_panel_width=width)
    if grain == "edge":
        hold(found, slice_count=0, first_panel_length=length)
        return
    # Slices are sawn with 1/16 in (1.5875 mm) for levelling, a kerf between two.
    off_the_saw = sizes(found)["slice_thickness"]
    assert off_the_saw == pytest.approx(thickness + 1.5875)
    long = slices * off_the_saw + (slices - 1) * KERF
    hold(found, slice_count=slices, first_panel_length=long)


RINGS = [(250, 200, 20, 3), (301.1, 203.3, 19, 0), (180, 100, 18, 4.4)]


@pytest.mark.parametrize("ring", RINGS)
@pytest.mark.parametrize("segments", range(3, 25))
def test_a_ring_touches_the_outside_circle_and_stands_on_the_inside_one(
    segments: int, ring: tuple[float, float, float, float]
) -> None:
    outside, inside, thickness, allowance = ring
    found = document(
        "segmented_ring",
        segments=segments,
        outside_diameter=outside,
        inside_diameter=inside,
        thickness=thickness,
        turning_allowance=allowance,
    )
    turn = math.pi / segments
    outer, inner = outside + 2 * allowance, inside - 2 * allowance
    hold(
        found,
        gauge_angle=180 / segments,
        segment_outer_edge=outer * math.tan(turn),
        segment_inner_edge=inner * math.sin(turn),
        segment_width=(outer - inner * math.cos(turn)) / 2,
    )
    # Turned end for end a pair is both edges long; a kerf runs slanting, and the
    # strip's two ends are as far out of square as one piece's.
    size = sizes(found)
    long, short = size["segment_outer_edge"], size["segment_inner_edge"]
    strip = segments * (long + short) / 2 + (long - short) / 2
    strip += (segments - 1) * KERF / math.cos(turn)
    assert size["strip_length"] == pytest.approx(strip, abs=13e-6)


@pytest.mark.parametrize("staves", range(3, 25))
@pytest.mark.parametrize(
    ("outside", "inside", "height"),
    [(250, 200, 200), (151.1, 133.3, 77), (120, 60, 300)],
)
def test_a_stave_is_just_thick_enough_for_both_circles(
    staves: int, outside: float, inside: float, height: float
) -> None:
    """By the circles as they are given: no allowance where none is asked for."""
    turn = math.pi / staves
    hold(
        document(
            "stave_cylinder",
            staves=staves,
            outside_diameter=outside,
            inside_diameter=inside,
            height=height,
        ),
        edge_bevel=180 / staves,
        stave_width=outside * math.tan(turn),
        least_thickness=(outside - inside * math.cos(turn)) / 2,
    )


# Modulus of elasticity at 12 % moisture, million psi: FPL-GTR-190 (2010), table 5-3b.
MODULUS = {"white oak": 1.78, "black walnut": 1.68, "sugar maple": 1.83}
CASES = [
    (600, 900, 280, 18, 2, 6, 6, 25),
    (777.7, 500, 250.3, 19.05, 1, 6.35, 6.35, 40),
]
CASES += [(1000, 1800, 300, 25, 4, 10, 9, 60)]


@pytest.mark.parametrize("species", MODULUS)
@pytest.mark.parametrize("case", CASES)
def test_a_shelf_sags_as_a_beam_on_two_supports(
    case: tuple[float, ...], species: str
) -> None:
    """5 w L⁴ / (384 E I): the span is the shelf's length, its width the depth less
    the back; the rebate that holds the back is as deep as the dadoes.
    """
    keys = "width height depth thickness shelves dado_depth back_thickness shelf_load"
    width, height, depth, thick, _, dado, back, load = case
    found = document(
        "carcass", species=species, **dict(zip(keys.split(), case, strict=True))
    )
    shelf = width - 2 * thick + 2 * dado
    modulus = MODULUS[species] * 1e6 * 6894.757293168361  # pascals in a psi
    moment = (depth - back) * thick**3 / 12  # mm⁴
    newtons = load * 9.80665
    sag = 5 * newtons * (shelf / 1e3) ** 4 / (384 * modulus * moment / 1e12) * 1e3
    hold(
        found,
        shelf_length=shelf,
        back_width=shelf,
        back_height=height - 2 * thick + 2 * dado,
        shelf_sag=sag,
    )
