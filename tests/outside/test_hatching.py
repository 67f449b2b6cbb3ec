"""Hatch strokes held against a general geometry library."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from app.publish.hatching import strokes

TURNS = [math.pi * i / 3 for i in range(6)]
SHAPES = {
    "strip": [(5, 5), (105, 5), (105, 17), (5, 17)],
    "hexagon": [(40 + 30 * math.cos(a), 40 + 30 * math.sin(a)) for a in TURNS],
    # Not convex: a groove, whose strokes part in two.
    "grooved": [
        *((0, 0), (60, 0), (60, 40), (40, 40)),
        *((40, 20), (20, 20), (20, 40), (0, 40)),
    ],
}


@pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)
@given(st.integers(0, 179), st.sampled_from([1.2, 2.0, 3.8]))
def test_strokes_fill_the_outline_and_never_leave_it(
    shape: list[tuple[float, float]], degrees: int, apart: float
) -> None:
    found = [LineString(one) for one in strokes(shape, degrees, apart)]
    outline = Polygon(shape)
    assert all(outline.buffer(1e-6).covers(one) for one in found)
    # Parallel strokes so far apart cover the area, but for what ends add or leave.
    room = apart * (outline.length / 2 + apart)
    assert abs(sum(one.length for one in found) * apart - outline.area) <= room


def test_strokes_go_on_in_the_neighbour() -> None:
    left, right = (
        [(x, 0.0), (x + 10, 0.0), (x + 10, 10.0), (x, 10.0)] for x in (0.0, 10.0)
    )
    ends = {(round(x, 6), round(y, 6)) for _, (x, y) in strokes(left, 30, 2)}
    starts = {(round(x, 6), round(y, 6)) for (x, y), _ in strokes(right, 30, 2)}
    on_edge = {one for one in ends if one[0] == 10}
    assert on_edge
    assert on_edge <= starts
