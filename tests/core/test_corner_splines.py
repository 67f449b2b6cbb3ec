"""Splines across corners, against the corner drawn and cut by a plane library."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

import manifold3d
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from app.core import geometry
from app.core.corner_splines import (
    Room,
    Splines,
    evenly,
    picked,
    rectangle_corners,
    regular_corners,
    strip_joints,
    strip_middles,
)
from app.core.length import Length, inches, mm
from app.core.solid import prism
from app.core.spline_solids import spline_pieces, without_slots

NONE = mm(0)


def splines(sides: int, depth: Length, *heights: Length) -> Splines:
    return Splines(sides, mm(12), depth, mm(3), heights, ("walnut",) * len(heights))


def ring(sides: int, inscribed: float) -> Polygon:
    radius = inscribed / 2 / math.cos(math.pi / sides)
    turns = [math.pi * (2 * i + 1) / sides - math.pi / 2 for i in range(sides)]
    return Polygon([(radius * math.cos(a), radius * math.sin(a)) for a in turns])


@pytest.mark.parametrize("sides", range(3, 17))
def test_a_corner_cut_off_square_to_its_middle_shows_what_is_said(sides: int) -> None:
    found = splines(sides, mm(7), mm(20))
    whole = ring(sides, 200)
    corner = np.array(whole.exterior.coords[0])
    inwards = -corner / np.linalg.norm(corner)
    along = np.array([-inwards[1], inwards[0]])
    floor = corner + inwards * 7
    cut = LineString([floor - along * 500, floor + along * 500])
    chord = whole.intersection(cut)
    assert found.long.nm / 1e6 == pytest.approx(chord.length, abs=2e-6)
    shows = math.dist(chord.coords[0], corner)
    assert found.visible.nm / 1e6 == pytest.approx(shows, abs=2e-6)
    inner = ring(sides, 200 - 24)
    assert found.cheek.nm / 1e6 == pytest.approx(inner.distance(cut), abs=2e-6)
    triangle = Polygon([corner, *chord.coords])
    assert float(found.volume) / 1e18 == pytest.approx(triangle.area * 3, rel=1e-7)


def test_a_hexagon_of_half_inch_walls_has_the_depths_of_the_trade() -> None:
    # The figures of the vessel's contract: share · wall / cos 30°, depth / sin 30°.
    wall = inches("1/2")
    depth = Length.nearest(wall.nm / math.cos(math.pi / 6) / 2)
    found = Splines(6, wall, depth, inches("1/8"), (inches("3"),), ("maple",))
    assert found.depth.nm == pytest.approx(7_332_348, abs=1)
    assert found.visible.nm == pytest.approx(2 * 7_332_348, abs=2)


@given(st.integers(1, 20), st.integers(0, 10**8), st.integers(10**6, 10**9))
def test_even_heights_leave_the_same_distance_everywhere(
    count: int, low: int, high: int
) -> None:
    room = Room(Length(low), Length(low + high))
    places = [low, *(one.nm for one in evenly(count, room)), low + high]
    steps = [after - before for before, after in pairwise(places)]
    assert max(steps) - min(steps) <= 2


def test_a_groove_between_is_stepped_over() -> None:
    room = Room(mm(0), mm(40), ((mm(10), mm(20)),))
    assert evenly(2, room) == (mm(10), mm(30))
    assert not room.holds(mm(12), mm(3))
    assert not room.holds(mm(8), mm(3))
    assert room.holds(mm(7), mm(3))


WIDTHS = (mm(30), mm(20), mm(30))


def test_strips_have_middles_and_joints_where_a_tape_finds_them() -> None:
    assert strip_middles(WIDTHS) == (mm(15), mm(40), mm(65))
    assert strip_joints(WIDTHS) == (mm(30), mm(50))


def test_places_too_near_the_base_or_the_rim_are_left_out() -> None:
    room = Room(mm(14), mm(80))
    assert picked(2, strip_middles(WIDTHS), room, mm(3)) == (mm(40), mm(65))
    assert picked(3, strip_middles(WIDTHS), room, mm(3)) == (mm(40), mm(65))


@given(st.integers(1, 12), st.integers(1, 12))
def test_places_are_picked_once_and_from_low_to_high(count: int, strips: int) -> None:
    places = strip_middles([mm(20)] * strips)
    found = picked(count, places, Room(NONE, mm(20 * strips)), mm(3))
    assert len(found) == min(count, strips)
    assert sorted(set(found)) == list(found)
    assert set(found) <= set(places)


def test_the_stop_puts_the_blades_near_face_on_the_slots_lower_cheek() -> None:
    found = splines(6, mm(5), mm(20))
    assert found.stops(mm(3)) == ((mm("18.5"), mm("18.5")),)
    assert found.stops(mm("1.8")) == ((mm("18.5"), mm("19.7")),)
    # A blade wider than the spline cuts once.
    assert found.stops(mm(4)) == ((mm("18.5"), mm("18.5")),)


def as_manifold(cells: object) -> manifold3d.Manifold:
    made = []
    for cell in cells:  # type: ignore[attr-defined]
        points = np.array(list(cell.points())) / 1e6
        made.append(manifold3d.Manifold.hull_points(points))
    return manifold3d.Manifold.batch_boolean(made, manifold3d.OpType.Add)


@pytest.mark.parametrize("sides", [3, 4, 6, 9, 16])
def test_splines_fill_the_slots_they_lie_in_and_nothing_else(sides: int) -> None:
    found = splines(sides, mm(6) if sides < 9 else mm(2), mm(15), mm(30))
    side = geometry.side_of_inscribed(mm(160), sides)
    corners = regular_corners(sides, side)
    outer, inner = (
        list(ring(sides, across).exterior.coords)[:-1] for across in (160, 136)
    )
    walls = [
        prism(
            [
                (x * 1e6, y * 1e6)
                for x, y in (
                    outer[i],
                    outer[(i + 1) % sides],
                    inner[(i + 1) % sides],
                    inner[i],
                )
            ],
            0,
            45e6,
        )
        for i in range(sides)
    ]
    slotted = without_slots(walls, found, corners)
    pieces = spline_pieces(found, corners, lambda row: "spline")
    assert len(pieces) == found.count
    for piece in pieces:
        assert piece.volume == pytest.approx(float(found.volume), rel=1e-9)
    left = sum(cell.volume for cell in slotted)
    gone = sum(cell.volume for cell in walls) - left
    assert gone == pytest.approx(sum(piece.volume for piece in pieces), rel=1e-6)
    wood, let_in = as_manifold(slotted), as_manifold([p.cells[0] for p in pieces])
    assert (wood ^ let_in).volume() == pytest.approx(0, abs=1e-3)
    assert (wood + let_in).volume() == pytest.approx(
        as_manifold(walls).volume(), rel=1e-7
    )


def test_a_rectangles_corners_face_its_inside() -> None:
    found = rectangle_corners(mm(200), mm(100))
    assert (found[0].x, found[0].y) == (100e6, -50e6)
    for corner in found:
        assert corner.x * corner.inwards[0] + corner.y * corner.inwards[1] < 0
        assert math.hypot(*corner.inwards) == pytest.approx(1)


def test_both_cheeks_of_a_spline_are_glued() -> None:
    found = splines(4, mm(6), mm(15))
    # A right-angled triangle 6 deep is 12 long: 36 mm² a cheek.
    assert found.glue_area == Fraction(72) * 10**12
