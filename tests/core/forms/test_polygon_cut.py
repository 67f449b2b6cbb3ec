"""A polygon is cut from its blank one way round, each cut from the side before."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from app.core import geometry
from app.core.angle import Angle
from app.core.forms._polygon_cut import across, cut_polygon
from app.core.length import inches
from app.core.shop import Shop


@pytest.mark.parametrize("sides", range(3, 17))
def test_an_odd_count_is_measured_from_a_side_to_the_corner_across(sides: int) -> None:
    # The corners' own places, by the circle through them.
    flats = inches("10")
    corners = geometry.corners(sides, geometry.side_of_inscribed(flats, sides))
    heights = [y for _, y in corners]
    told = across("base", sides, flats, Shop())
    if sides % 2:
        far = geometry.flat_to_corner(flats, sides)
        assert math.isclose(far.nm, max(heights) - min(heights), abs_tol=2)
        assert "corner across" in told
    else:
        assert told == "The base is 10 in across every pair of flats."


def test_square_edges_leave_the_blank_its_first_side_and_bevels_take_it_last() -> None:
    flats, blank = inches("5"), inches("6 1/2")
    plain = cut_polygon("base", "base", 6, flats, blank, Shop())
    leaning = cut_polygon("base", "base", 6, flats, blank, Shop(), tilt=Angle.of(10))
    assert "6 sides, 5 cuts" in plain.cuts
    assert "meets the first corner" in plain.cuts
    assert "6 sides with the blade at 10°, leaning over it, 6 cuts" in leaning.cuts
    assert "bevels side 1" in leaning.cuts
    assert plain.gauge == leaning.gauge == Angle(Fraction(30))
    assert plain.fence is leaning.fence is None


def test_a_blank_too_wide_for_the_sled_is_drawn_and_cut_to_its_lines() -> None:
    made = cut_polygon("base", "base", 6, inches("22"), inches("27 1/2"), Shop())
    assert made.machine == "hand saw"
    assert "gauge's fence" not in made.cuts
    assert "Draw the base" in made.cuts
