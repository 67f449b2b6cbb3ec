"""The vessel held against solids built from the cut instructions alone.

Each wall is a slab whose two ends are sawn by half-spaces: the outside length
and the tilt are all that is taken from the form. A general solid-geometry
library stands them round and adds them up.
"""

from __future__ import annotations

import csv
import math

import manifold3d
import numpy as np
import pytest

from app.core import geometry, registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.length import Length, mm
from app.core.shop import Shop
from app.core.size import Size
from tests.conftest import shared

RELATIVE = 1e-9
SIDES = range(3, 17)
# Outside side, wall and height in mm: slim, stout and tall, none of them round.
GRID = [("100", "6", "40"), ("101.6", "12.7", "152.4"), ("333.33", "21.7", "701.3")]


def vessel(**typed: object) -> Design:
    plain = {"base": "none"} | {key: str(value) for key, value in typed.items()}
    return registry.work_out("straight_vessel", plain, Shop())


def sizes(design: Design) -> dict[str, Size]:
    return {size.key: size for size in design.sizes}


def length(design: Design, key: str) -> float:
    value = sizes(design)[key].value
    assert isinstance(value, Length)
    return value.nm / 1e6


def angle(design: Design, key: str) -> float:
    value = sizes(design)[key].value
    assert isinstance(value, Angle)
    return float(value.degrees)


def sawn_wall(
    side: float, wall: float, height: float, tilt: float
) -> manifold3d.Manifold:
    """A slab, outside face on y = 0, both ends sawn from the outer corners in."""
    slab = manifold3d.Manifold.cube((2 * side, wall, height)).translate((-side, 0, 0))
    turn = math.radians(tilt)
    right = (-math.cos(turn), -math.sin(turn), 0.0)
    left = (math.cos(turn), -math.sin(turn), 0.0)
    kept = -side / 2 * math.cos(turn)
    return slab.trim_by_plane(right, kept).trim_by_plane(left, kept)


def stood_round(piece: manifold3d.Manifold, sides: int, out: float) -> list[object]:
    placed = piece.translate((0, -out, 0))
    return [placed.rotate((0, 0, 360 * i / sides)) for i in range(sides)]


def prism(sides: int, inscribed: float, height: float) -> manifold3d.Manifold:
    """A regular prism from its corner coordinates, one flat towards -y."""
    radius = inscribed / 2 / math.cos(math.pi / sides)
    turns = [-math.pi / 2 + math.pi * (2 * i + 1) / sides for i in range(sides)]
    points = np.array([(radius * math.cos(a), radius * math.sin(a)) for a in turns])
    section = manifold3d.CrossSection([points])
    return manifold3d.Manifold.extrude(section, height)


@pytest.mark.parametrize("sides", SIDES)
@pytest.mark.parametrize(("side", "wall", "height"), GRID)
def test_walls_cut_as_told_close_into_the_ring(
    sides: int, side: str, wall: str, height: str
) -> None:
    design = vessel(
        sides=sides,
        outside_side=f"{side} mm",
        wall=f"{wall} mm",
        height=f"{height} mm",
        strip_rows=2,
    )
    outside, thick, high = length(design, "outside_side"), float(wall), float(height)
    tilt = angle(design, "edge_bevel")
    across = outside / math.tan(math.pi / sides)
    one = sawn_wall(outside, thick, high, tilt)
    walls = stood_round(one, sides, across / 2)
    whole = manifold3d.Manifold.batch_boolean(walls, manifold3d.OpType.Add)
    area = sides / 4 * math.tan(math.pi / sides)
    ring = area * (across**2 - (across - 2 * thick) ** 2) * high
    assert whole.volume() == pytest.approx(ring, rel=RELATIVE)
    # No overlap: alone and together they take the same room.
    assert sides * one.volume() == pytest.approx(whole.volume(), rel=RELATIVE)
    part = next(part for part in design.parts if part.key == "wall")
    assert part.volume * part.quantity / 1e18 == pytest.approx(ring, rel=RELATIVE)


@pytest.mark.parametrize("sides", SIDES)
def test_a_wall_with_its_groove_is_the_slab_less_the_base_grown_by_its_room(
    sides: int,
) -> None:
    design = vessel(
        sides=sides,
        outside_side="120 mm",
        wall="14 mm",
        height="90 mm",
        base="groove",
        base_thickness="6 mm",
        groove_depth="7 mm",
        groove_up="5 mm",
        base_clearance="1.5 mm",
    )
    outside = 120 / math.tan(math.pi / sides)
    one = sawn_wall(120, 14, 90, angle(design, "edge_bevel"))
    stood = one.translate((0, -outside / 2, 0))
    cutter = prism(sides, outside - 2 * (14 - 7), 6)
    grooved = stood - cutter.translate((0, 0, 5))
    part, base = design.parts
    assert part.volume / 1e18 == pytest.approx(grooved.volume(), rel=RELATIVE)
    bottom = prism(sides, length(design, "base_inscribed"), 6)
    assert base.volume / 1e18 == pytest.approx(bottom.volume(), rel=RELATIVE)
    assert (grooved ^ bottom.translate((0, 0, 5))).volume() == pytest.approx(
        0, abs=1e-9
    )
    room = prism(sides, length(design, "inside_inscribed"), 90 - 5 - 6)
    inside = sizes(design)["inside_volume"].value
    assert isinstance(inside, int)
    assert inside / 1e18 == pytest.approx(room.volume(), rel=RELATIVE)


@pytest.mark.parametrize("sides", SIDES)
def test_splines_take_out_of_the_walls_what_they_fill(sides: int) -> None:
    asked = {"sides": sides, "outside_side": "300 mm", "wall": "20 mm", "strip_rows": 2}
    plain = vessel(**asked, height="200 mm")
    splined = vessel(
        **asked, height="200 mm", splines_per_corner=3, spline_thickness="4 mm"
    )
    walls = plain.parts[0].volume - splined.parts[0].volume
    spline = next(part for part in splined.parts if part.key == "spline")
    assert abs(walls * sides - spline.volume * spline.quantity) <= 3 * sides
    # The slot's section, cut from the corner by a general polygon library.
    depth = length(splined, "spline_slot_depth")
    shown = length(splined, "spline_visible_length")
    half = math.radians(90 - 180 / sides)
    assert depth == pytest.approx(20 / math.cos(math.pi / sides) / 2, abs=2e-6)
    assert shown * math.cos(half) == pytest.approx(depth, abs=2e-6)


def gap_by_walking(sides: int, side: float, bevel: float) -> float:
    """Walls laid round with joints of twice ``bevel``: how far the end misses."""
    x, y, heading = 0.0, 0.0, 0.0
    for _ in range(sides):
        x += side * math.cos(heading)
        y += side * math.sin(heading)
        heading += math.radians(2 * bevel)
    return math.hypot(x, y)


@pytest.mark.parametrize("sides", SIDES)
def test_the_closing_gap_is_what_walking_round_the_joints_misses(sides: int) -> None:
    design = vessel(sides=sides, outside_side="250 mm", wall="10 mm")
    missed = gap_by_walking(sides, 250, 180 / sides - 0.1)
    assert length(design, "closing_gap_at_0_1_degree") == pytest.approx(
        missed, abs=1e-5
    )


def reference() -> list[dict[str, str]]:
    path = shared("reference/geometry_checks.csv")
    with path.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["kind"] == "polygon"]


def test_polygons_agree_with_the_table_worked_out_to_fifty_digits() -> None:
    """Source: reference/geometry_checks.csv, from corner coordinates, 50 digits."""
    side = mm(1000)
    rows = [row for row in reference() if 3 <= int(row["n_sides"]) <= 16]
    assert len(rows) >= 14 * 5
    for row in rows:
        sides, expected = int(row["n_sides"]), float(row["value"])
        assert measured(row["quantity"], sides, side) == pytest.approx(
            expected, rel=2e-9
        ), row["check_id"]


def measured(quantity: str, sides: int, side: Length) -> float:
    inscribed = geometry.inscribed(side, sides)
    around = geometry.circumscribed(side, sides)
    points = geometry.corners(sides, side)
    wide, high = geometry.extent(points)
    found = {
        "edge_bevel": lambda: float(geometry.edge_bevel(sides).degrees),
        "interior_angle": lambda: float(geometry.interior_angle(sides).degrees),
        "apothem_over_side": lambda: inscribed.nm / 2 / side.nm,
        "circumradius_over_side": lambda: around.nm / 2 / side.nm,
        "across_flats_over_side": lambda: high.nm / side.nm,
        "across_corners_over_side": lambda: (
            max(math.dist(a, b) for a in points for b in points) / side.nm
        ),
        "area_over_side_squared": lambda: float(
            geometry.area_of_inscribed(inscribed, sides) / side.nm**2
        ),
    }
    assert wide.nm > 0
    return found[quantity]()
