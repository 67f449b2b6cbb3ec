"""The tapered vessel held against solids sawn as its set-ups say, and nothing else.

A board lies on the saw's table, outer face down. Fence and tilt make its long edges,
tilt, gauge and the length at the table its ends: each a half-space of a general
solid library (manifold3d), which stands the walls round and adds them up.
"""

from __future__ import annotations

import csv
import math
from fractions import Fraction
from itertools import pairwise

import manifold3d
import numpy as np
import pytest

from app.core import compound, registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.length import Length
from app.core.part import Part
from app.core.setup import SetUp
from app.core.shop import Shop
from tests.conftest import shared
from tests.core.forms.grid_tapered_vessel import GRID

# A micrometre, in the millimetres that the library reckons in; what is rounded to a
# nanometre stays within a hundredth of it.
THIN = 1e-3
Solid = manifold3d.Manifold


def vessel(**typed: object) -> Design:
    given = {key: str(value) for key, value in typed.items()}
    return registry.work_out("tapered_vessel", given, Shop())


def degrees(design: Design, key: str) -> float:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Angle)
    return float(value.degrees)


def mm(design: Design, key: str) -> float:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Length)
    return value.nm / 1e6


def set_ups(design: Design) -> dict[str, SetUp]:
    return {one.key: one for one in design.set_ups}


def walls(design: Design) -> list[Part]:
    return [p for p in design.parts if p.key.startswith("wall") and not p.spare]


def angles(design: Design) -> tuple[float, float]:
    """Tilt and gauge off the set-ups; out of a jig, the rest of a right angle."""
    known = set_ups(design)
    one = known.get("second-mitres") or known["mitres"]
    if one.machine in ("mitre gauge", "crosscut sled"):
        assert one.tilt is not None
        assert one.gauge is not None
        return float(one.tilt.degrees), float(one.gauge.degrees)
    if one.machine == "table saw":
        assert one.tilt is not None
        return 90 - float(one.tilt.degrees), degrees(design, "gauge_angle")
    return degrees(design, "blade_tilt"), degrees(design, "gauge_angle")


def long_edge(design: Design) -> float:
    """The longer edge of the outer face: the stop, or the longest of the outline."""
    known = set_ups(design)
    one = known.get("second-mitres") or known["mitres"]
    part = walls(design)[0]
    ends = [x.nm for x, _ in part.outline]
    if one.stop is not None:
        assert abs(one.stop.nm - (max(ends) - min(ends))) <= 1
    return (max(ends) - min(ends)) / 1e6


def edges(design: Design) -> tuple[float, float]:
    """A face's width and the bevel of the long edges."""
    one = set_ups(design).get("edges")
    if one is not None and one.fence is not None:
        return one.fence.nm / 1e6, float((one.tilt or Angle.of(0)).degrees)
    if one is not None and one.machine == "hand plane":
        return mm(design, "slant_height"), degrees(design, "rim_bevel")
    return walls(design)[0].finished.width.nm / 1e6, 0.0


def sawn_wall(design: Design) -> Solid:
    """On the table: x along, the longer edge on y = 0, the outer face on z = 0."""
    wide, bevel = edges(design)
    tilt, gauge = (math.radians(one) for one in angles(design))
    long, thick = long_edge(design), walls(design)[0].finished.thickness.nm / 1e6
    lean = math.radians(bevel)
    reach = wide + thick * math.tan(lean) + 1
    slab = Solid.cube((long + 2, reach + 1, thick)).translate((-long / 2 - 1, -1, 0))
    cos, sin = math.cos(lean), math.sin(lean)
    slab = slab.trim_by_plane((0, cos, -sin), 0)
    slab = slab.trim_by_plane((0, -cos, sin), -wide * cos)
    for way in (1, -1):
        out = (
            way * math.cos(tilt) * math.cos(gauge),
            math.cos(tilt) * math.sin(gauge),
            math.sin(tilt),
        )
        tip = (way * long / 2, 0.0, 0.0)
        offset = sum(a * b for a, b in zip(out, tip, strict=True))
        slab = slab.trim_by_plane(tuple(-one for one in out), -offset)
    return slab


def stood(design: Design, wall: Solid) -> Solid:
    """Leaned by the slope, its outer lower edge as far out as the bottom is wide."""
    wide, _ = edges(design)
    out = across(design, "top") >= across(design, "bottom")
    lean = math.radians(degrees(design, "slope_from_vertical")) * (1 if out else -1)
    sin, cos = math.sin(lean), math.cos(lean)
    way = -1 if out else 1  # up the face from where y runs
    start = wide if out else 0.0
    radius = across(design, "bottom") / 2
    # World y is minus the distance from the axis.
    matrix = np.array(
        [
            [-way, 0, 0, 0],
            [0, -way * sin, cos, -radius - start * sin],
            [0, way * cos, sin, start * cos],
        ]
    )
    placed = wall.transform(matrix)
    return placed.translate((0, 0, -placed.bounding_box()[2]))


def across(design: Design, end: str) -> float:
    """Across the flats at one end, as typed."""
    text = design.inputs[f"{end}_inscribed"]
    return Length.read(text, Shop().unit).nm / 1e6


def ring(design: Design, piece: Solid) -> list[Solid]:
    count = int(design.inputs["sides"])
    return [piece.rotate((0, 0, 360 * i / count)) for i in range(count)]


def together(pieces: list[Solid]) -> Solid:
    return Solid.batch_boolean(pieces, manifold3d.OpType.Add)


def frustum(sides: int, below: float, above: float, high: float) -> float:
    """Between two level polygons: the prismatoid formula."""
    areas = [sides * math.tan(math.pi / sides) * d * d / 4 for d in (below, above)]
    return high / 3 * (sum(areas) + math.sqrt(areas[0] * areas[1]))


def closed_form(design: Design) -> float:
    """All walls from what was typed alone, and the slope: frustums and a ring."""
    sides = int(design.inputs["sides"])
    top, bottom = across(design, "top"), across(design, "bottom")
    high, wall = (
        Length.read(design.inputs[key], Shop().unit).nm / 1e6
        for key in ("height", "wall")
    )
    if design.inputs["edges"] == "level":
        slope = math.atan(abs(top - bottom) / 2 / high)
        less = 2 * wall / math.cos(slope)
        hollow = frustum(sides, bottom - less, top - less, high)
        return frustum(sides, bottom, top, high) - hollow
    slope = math.radians(degrees(design, "slope_from_vertical"))
    # The face goes out by half the difference while it and the wall stand so high.
    rise = high - wall * math.sin(slope)
    assert math.tan(slope) * rise == pytest.approx(abs(top - bottom) / 2, abs=1e-5)
    middle = (top + bottom) / 4 - wall * math.cos(slope) / 2
    section = wall * math.hypot(rise, (top - bottom) / 2)
    return 2 * sides * math.tan(math.pi / sides) * section * middle


def test_walls_sawn_as_told_close_into_the_vessel() -> None:
    assert len(GRID) >= 200
    for typed in GRID:
        design = vessel(**typed)
        one = stood(design, sawn_wall(design))
        pieces = ring(design, one)
        whole = together(pieces)
        room = THIN * sum(piece.surface_area() for piece in pieces)
        assert abs(whole.volume() - closed_form(design)) <= room / 100, typed
        # No overlap: alone and together they take the same room.
        assert abs(len(pieces) * one.volume() - whole.volume()) <= room, typed
        told = sum(part.volume * part.quantity for part in walls(design)) / 1e18
        assert abs(told - whole.volume()) <= room / 100, typed
        low, high = whole.bounding_box()[2], whole.bounding_box()[5]
        stands = Length.read(design.inputs["height"], Shop().unit).nm / 1e6
        assert high - low == pytest.approx(stands, abs=THIN), typed


def test_walls_cut_head_to_tail_lie_a_kerf_apart_on_the_length_told() -> None:
    """A board rolled over for every cut: each second wall turned about its length."""
    seen = 0
    for typed in GRID:
        design = vessel(**typed)
        if design.inputs["cut_from"] != "head to tail":
            continue
        seen += 1
        wall = sawn_wall(design)
        box = wall.bounding_box()
        # About the middle of its section, which a turn over puts onto itself.
        wall = wall.translate((0, -(box[1] + box[4]) / 2, -(box[2] + box[5]) / 2))
        count = int(design.inputs["sides"]) + int(design.inputs["spares"])
        long, kerf = long_edge(design), _kerf(design)
        step = (mm(design, "board_length") - long) / (count - 1)
        lie = [
            wall.rotate((180 * (i % 2), 0, 0)).translate((i * step, 0, 0))
            for i in range(count)
        ]
        thin = walls(design)[0].finished.thickness.nm / 1e6 < 2 * kerf
        for one, other in pairwise(lie):
            gap = one.min_gap(other, 3 * kerf)
            # Across a slanted cut thin ends do not face each other.
            assert gap >= kerf - THIN, typed
            assert thin or gap == pytest.approx(kerf, abs=THIN), typed
        left, right = lie[0].bounding_box()[0], lie[-1].bounding_box()[3]
        assert right - left <= mm(design, "board_length") + THIN, typed
    assert seen >= 30


def _kerf(design: Design) -> float:
    return Length.read(design.inputs["kerf"], Shop().unit).nm / 1e6


def sawn_base(design: Design) -> Solid:
    """Sides walked by the mark and the gauge, then bevelled from the larger face."""
    one = set_ups(design)["base"]
    sides = int(design.inputs["sides"])
    if one.gauge is None or one.stop is None:  # too long for the sled: to a line
        gauge, mark = degrees(design, "base_gauge_angle"), mm(design, "base_side")
    else:
        gauge, mark = float(one.gauge.degrees), one.stop.nm / 1e6
    # A square is cut with a square gauge; beyond it the gauge turns the other way.
    turn = math.radians(90 + gauge if sides < 4 else 90 - gauge)
    corners, x, y, heading = [], 0.0, 0.0, 0.0
    for _ in range(sides):
        corners.append((x, y))
        x, y = x + mark * math.cos(heading), y + mark * math.sin(heading)
        heading += turn
    assert math.hypot(x, y) <= 1e-6 * sides * mark  # the last side meets the first
    points = np.array(corners) - np.mean(corners, axis=0)
    part = next(part for part in design.parts if part.key == "base")
    thick = part.finished.thickness.nm / 1e6
    solid = Solid.extrude(manifold3d.CrossSection([points]), thick)
    bevel = math.radians(degrees(design, "base_edge_bevel"))
    for i in range(sides):
        (ax, ay), (bx, by) = points[i], points[(i + 1) % sides]
        nx, ny = (by - ay) / mark, (ax - bx) / mark  # outwards
        normal = (nx * math.cos(bevel), ny * math.cos(bevel), math.sin(bevel))
        offset = normal[0] * ax + normal[1] * ay
        solid = solid.trim_by_plane(tuple(-one for one in normal), -offset)
    return solid


def test_a_base_sawn_as_told_fits_between_the_walls_with_its_room() -> None:
    seen = 0
    for typed in GRID[::2]:
        design = vessel(**typed)
        if design.inputs["base"] not in ("loose", "glued"):
            continue
        seen += 1
        base = sawn_base(design)
        part = next(part for part in design.parts if part.key == "base")
        room = THIN * base.surface_area()
        assert abs(base.volume() - part.volume / 1e18) <= room / 100, typed
        thick = part.finished.thickness.nm / 1e6
        if across(design, "top") > across(design, "bottom"):
            base = base.rotate((180, 0, 0)).translate((0, 0, thick))
        up = Length.read(design.inputs["base_up"], Shop().unit).nm / 1e6
        turned = base.rotate((0, 0, _turn(base, int(design.inputs["sides"]))))
        placed = turned.translate((0, 0, up))
        around = together(ring(design, stood(design, sawn_wall(design))))
        assert (placed ^ around).volume() <= room, typed
        assert _gap(placed, around) == pytest.approx(_room(design), abs=0.02), typed
    assert seen >= 50


def _turn(base: Solid, sides: int) -> float:
    """How far to turn so that a flat looks to -y, degrees."""
    points = np.asarray(base.to_mesh().vert_properties)[:, :3]
    x, y = max(points, key=lambda p: math.hypot(p[0], p[1]))[:2]
    return -90 + 180 / sides - math.degrees(math.atan2(y, x))


def _room(design: Design) -> float:
    if design.inputs["base"] == "glued":
        return 0.0
    return Length.read(design.inputs["base_clearance"], Shop().unit).nm / 1e6


def _gap(base: Solid, around: Solid) -> float:
    """How far the base could be moved towards the front flat, by halving."""
    low, high = 0.0, 50.0
    touch = THIN * base.surface_area() / 1000
    for _ in range(18):
        middle = (low + high) / 2
        if (base.translate((0, -middle, 0)) ^ around).volume() <= touch:
            low = middle
        else:
            high = middle
    return low


def reference() -> list[dict[str, str]]:
    path = shared("reference/geometry_checks.csv")
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return [row for row in rows if row["kind"] == "compound_mitre"]


def test_compound_angles_agree_with_the_table_worked_out_to_fifty_digits() -> None:
    """Source: reference/geometry_checks.csv, rows compound_mitre, 50 digits."""
    rows = [row for row in reference() if 3 <= int(row["n_sides"]) <= 16]
    kinds = {
        "blade_tilt": compound.blade_tilt,
        "gauge_angle_from_square": compound.gauge_angle,
        "dihedral_angle": compound.dihedral,
    }
    assert {row["quantity"] for row in rows} == set(kinds)
    assert len(rows) >= 90
    for row in rows:
        slope = Angle.of(Fraction(row["slope_from_vertical_deg"]))
        found = kinds[row["quantity"]](int(row["n_sides"]), slope)
        assert abs(found.degrees - Fraction(row["value"])) < Fraction(1, 10**9), row


def test_a_vessel_of_a_tables_slope_shows_the_tables_angles() -> None:
    """Source as above; height and taper are the nearest ratio of whole nanometres."""
    keys = {
        "blade_tilt": "blade_tilt",
        "gauge_angle_from_square": "gauge_angle",
        "dihedral_angle": "dihedral_angle",
    }
    for row in reference():
        sides, slope = int(row["n_sides"]), float(row["slope_from_vertical_deg"])
        if not 3 <= sides <= 16 or not 0 < slope <= 60:
            continue
        ratio = Fraction(math.tan(math.radians(slope))).limit_denominator(200_000_000)
        times = max(200_000_000 // ratio.denominator, 1)
        out, high = ratio.numerator * times, ratio.denominator * times
        for wide, narrow in ((2 * out + 10**9, 10**9), (10**9, 2 * out + 10**9)):
            design = vessel(
                sides=sides,
                top_inscribed=f"{wide / 10**6:.6f} mm",
                bottom_inscribed=f"{narrow / 10**6:.6f} mm",
                height=f"{high / 10**6:.6f} mm",
                wall="1 mm",
                base="none",
                strip_rows=1,
                species="oak",
            )
            found = degrees(design, keys[row["quantity"]])
            assert found == pytest.approx(float(row["value"]), abs=1e-9), row


def test_the_capacity_is_the_hollow_of_the_walls() -> None:
    for typed in GRID[::9]:
        design = vessel(**typed)
        if design.inputs["edges"] != "level" or design.inputs["base"] != "none":
            continue
        sides, wall = int(design.inputs["sides"]), None
        top, bottom = across(design, "top"), across(design, "bottom")
        high, wall = (
            Length.read(design.inputs[key], Shop().unit).nm / 1e6
            for key in ("height", "wall")
        )
        slope = math.atan(abs(top - bottom) / 2 / high)
        less = 2 * wall / math.cos(slope)
        hollow = frustum(sides, bottom - less, top - less, high)
        found = next(s.value for s in design.sizes if s.key == "inside_volume")
        assert isinstance(found, int)
        assert found / 1e18 == pytest.approx(hollow, rel=1e-7)
