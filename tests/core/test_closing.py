"""How sure the last joint is, against chains of sides followed round by numbers."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.angle import Angle
from app.core.closing import fine, gap, sizes, spread_gap, table, tolerance
from app.core.length import Display, Length, Unit, inches, mm
from app.core.shop import Shop
from app.core.size import Group, Kind, Size

Vector = np.ndarray
rings = st.integers(3, 16)
sides_nm = st.integers(10_000_000, 2_000_000_000).map(Length)


def chained(lengths: list[float], turn: float) -> float:
    """A chain of sides laid one after another, each turned on: end to start."""
    at, heading = 0j, 0.0
    for length in lengths:
        at += length * complex(math.cos(heading), math.sin(heading))
        heading += turn
    return abs(at)


@pytest.mark.parametrize("sides", range(3, 17))
@pytest.mark.parametrize("off", ["0.05", "0.1", "0.2", "1"])
def test_a_chain_with_every_bevel_off_stands_open_by_the_gap(
    sides: int, off: str
) -> None:
    # Each joint joins two bevels: it turns by twice a bevel.
    turn = 2 * math.radians(180 / sides - float(off))
    opening = chained([100e6] * sides, turn)
    found = gap(mm(100), sides, Angle.of(Fraction(off)))
    assert found.nm == pytest.approx(opening, abs=1)


def test_a_hexagon_of_100_mm_a_tenth_off_gapes_by_two_millimetres() -> None:
    # 100 × sin(0.6°) / sin(29.9°), by the trigonometric tables: 0.010472 / 0.498488.
    assert gap(mm(100), 6, Angle.of(Fraction(1, 10))).nm == pytest.approx(
        2.1007e6, rel=1e-4
    )


def leaning(sides: int, slope: float, tall: float, bottom: float) -> dict[str, float]:
    """A splayed ring by its corner coordinates: longer edge, bevel of its joint."""
    low, turn = bottom / 2 / math.cos(math.pi / sides), 2 * math.pi / sides
    out = tall * math.tan(math.radians(slope)) / math.cos(math.pi / sides)

    def corner(i: int, radius: float, z: float) -> Vector:
        a = turn * (i - 0.5)
        return np.array([radius * math.cos(a), radius * math.sin(a), z])

    def normal(i: int) -> Vector:
        one, two = corner(i, low, 0), corner(i + 1, low, 0)
        up = corner(i, low + out, tall)
        square = np.cross(two - one, up - one)
        return square / np.linalg.norm(square)

    between = math.acos(float(np.dot(normal(0), normal(1))))
    long = float(
        np.linalg.norm(corner(1, low + out, tall) - corner(0, low + out, tall))
    )
    edge = corner(1, low + out, tall) - corner(1, low, 0)
    along = corner(0, low + out, tall) - corner(1, low + out, tall)
    cos = float(-np.dot(edge, along) / np.linalg.norm(edge) / np.linalg.norm(along))
    return {"side": long, "bevel": between / 2, "leans": math.acos(cos)}


def turned_about(axis: Vector, angle: float, point: Vector) -> Vector:
    axis = axis / np.linalg.norm(axis)
    cos, sin = math.cos(angle), math.sin(angle)
    along = axis * np.dot(axis, point) * (1 - cos)
    return point * cos + np.cross(axis, point) * sin + along


def folded(sides: int, ring: dict[str, float], off: float) -> float:
    """Faces folded up one after another out of the flat: last corner to first.

    The walls lie flat round the point where their edges meet; from the last one
    back each corner is folded by its dihedral turn.
    """
    psi = math.pi / 2 - ring["leans"]
    reach = ring["side"] / 2 / math.sin(psi)
    spokes = [
        reach * np.array([math.cos(2 * psi * i), math.sin(2 * psi * i), 0.0])
        for i in range(sides + 1)
    ]
    end = spokes[-1]
    for spoke in reversed(spokes[1:-1]):
        end = turned_about(spoke, 2 * (ring["bevel"] - off), end)
    return float(np.linalg.norm(end - spokes[0]))


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8, 12, 16])
@pytest.mark.parametrize("slope", [2.0, 10.0, 25.0])
def test_leaning_sides_folded_round_stand_open_by_the_gap(
    sides: int, slope: float
) -> None:
    ring = leaning(sides, slope, 150e6, 120e6)
    assert folded(sides, ring, 0) < 100
    for off in (0.05, 0.2):
        found = gap(
            Length(round(ring["side"])),
            sides,
            Angle.of(off),
            Angle.from_radians(ring["bevel"]),
        )
        assert found.nm == pytest.approx(
            folded(sides, ring, math.radians(off)), rel=1e-5
        )


@given(rings, sides_nm)
def test_a_leaning_ring_that_stands_upright_is_the_plain_one(
    sides: int, side: Length
) -> None:
    off, square = Angle.of(Fraction(1, 10)), Angle(Fraction(180, sides))
    assert gap(side, sides, off, square).nm == pytest.approx(
        gap(side, sides, off).nm, rel=1e-6, abs=1
    )


@given(sides_nm, sides_nm, st.sampled_from([0.05, 0.1, 0.2]))
def test_a_rectangle_is_followed_round_and_may_be_turned(
    long: Length, wide: Length, off: float
) -> None:
    around = [long, wide, long, wide]
    error = Angle.of(off)
    found = gap(long, 4, error, lengths=around)
    turn = 2 * math.radians(45 - off)
    assert found.nm == pytest.approx(chained([one.nm for one in around], turn), abs=2)
    turned = gap(wide, 4, error, lengths=[wide, long, wide, long])
    assert turned.nm == pytest.approx(found.nm, abs=2)


@pytest.mark.parametrize("sides", range(3, 13))
def test_no_mix_of_long_and_short_sides_gapes_wider_than_the_spread_says(
    sides: int,
) -> None:
    # The reach of a sum is convex, so its most lies where each is 0 or 1.
    turns = np.exp(2j * np.pi * np.arange(sides) / sides)
    mixes = np.array(list(product((0, 1), repeat=sides)))
    worst = float(np.abs(mixes @ turns).max())
    assert spread_gap(sides, mm(1)).nm == pytest.approx(worst * 1e6, abs=1)


@given(rings, sides_nm, st.integers(1_000, 5_000_000).map(Length))
def test_the_tolerance_is_the_error_that_makes_the_gap(
    sides: int, side: Length, widest: Length
) -> None:
    off = tolerance(side, sides, widest)
    assert off.degrees > 0
    if widest < gap(side, sides, Angle(Fraction(90, sides))):
        assert gap(side, sides, off).nm == pytest.approx(widest.nm, abs=1)


@given(rings, sides_nm)
def test_twice_the_error_opens_more(sides: int, side: Length) -> None:
    once, twice = (gap(side, sides, Angle.of(off)) for off in (0.1, 0.2))
    assert once < twice


@pytest.mark.parametrize(
    ("nm", "display", "text"),
    [
        (304_800, Display(), "0.012 in"),
        (310_000, Display(Unit.MILLIMETRE), "0.31 mm"),
        (304_800, Display(both=True), "0.012 in (0.30 mm)"),
        (1_000, Display(), "under 0.001 in"),
        (0, Display(), "0.000 in"),
    ],
)
def test_a_small_gap_reads_as_a_feeler_gauge_does(
    nm: int, display: Display, text: str
) -> None:
    assert fine(Length(nm), display) == text


def test_the_sizes_carry_the_keys_that_every_ring_has() -> None:
    found = sizes(inches("4"), 6, mm("0.1"), mm("0.1"), Shop())
    assert [size.key for size in found] == [
        "closing_gap_at_0_05_degree",
        "closing_gap_at_0_1_degree",
        "closing_gap_at_0_2_degree",
        "closing_gap_from_spread",
        "angle_tolerance",
    ]
    assert all(size.values and size.formula for size in found)


def test_the_table_shows_a_tolerance_too_fine_for_hundredths() -> None:
    found = table(mm(1000), 16, Shop(), widest_gap=mm("0.1"))
    assert len(found.rows) == 4
    each, together, opens = found.rows[0]
    assert each == "0.00007°"
    assert together == "0.0022°"
    assert opens == "0.004 in"


@pytest.mark.parametrize(
    ("nm", "group", "text"),
    [
        (304_800, Group.SURE, "0.012 in"),
        (1_587_500, Group.SURE, "1/16 in"),
        (304_800, Group.BUILD, "0 in (true size 0.012 more)"),
    ],
)
def test_a_gap_between_two_marks_of_the_tape_is_told_in_thousandths(
    nm: int, group: Group, text: str
) -> None:
    size = Size("gap", "Gap", Kind.LENGTH, Length(nm), "", group=group)
    assert size.text() == text
