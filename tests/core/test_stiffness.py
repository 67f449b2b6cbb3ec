"""How far shelves sag, against a handbook's table and the beam integrated anew."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.core.figures import table
from app.core.length import inches, mm
from app.core.stiffness import PASCALS_PER_PSI, sag, second_moment, stiffness
from app.core.wood import all_species


# Source: FPL-GTR-190 (2010), table 5-3a, megapascals at 12 percent as read there; it is
# rounded by itself, as is table 5-3b, which prints million psi.
@pytest.mark.parametrize(
    ("name", "megapascals"),
    [
        ("red pine", 11_200),
        ("ponderosa pine", 8_900),
        ("sugar pine", 8_200),
        ("western white pine", 10_100),
        ("old-growth redwood", 9_200),
        ("young-growth redwood", 7_600),
        # From memory:
        ("white ash", 12_000),
        ("sugar maple", 12_600),
        ("black walnut", 11_600),
    ],
)
def test_stiffness_is_the_handbooks_in_both_its_tables(
    name: str, megapascals: int
) -> None:
    found = stiffness(name)
    assert found is not None
    # Half of the last digit that each table prints: 100 MPa, and 0.01 million psi.
    assert abs(found.gigapascals * 1000 - megapascals) <= 50 + 35


def test_a_trade_name_finds_its_wood_and_an_unknown_one_nothing() -> None:
    assert stiffness("walnut") == stiffness("Juglans nigra")
    assert stiffness("Plywood") is not None
    assert stiffness("moonwood") is None


def test_every_wood_of_the_table_has_a_sourced_stiffness() -> None:
    rows = {row["key"]: row for row in table("stiffness")}
    assert {one.key for one in all_species()} <= set(rows)
    for row in rows.values():
        assert Fraction("0.5") <= Fraction(row["modulus"]) <= Fraction("2.5"), row
        assert row["source"]
        assert row["confidence"] in ("read", "memory")


def test_a_psi_is_what_the_metric_tables_say() -> None:
    # Source: NIST SP 811 (2008), appendix B.8: 6.894 757 E+03 Pa.
    assert float(PASCALS_PER_PSI) == pytest.approx(6894.757, abs=5e-4)


def test_a_plank_of_round_numbers_sags_as_worked_by_hand() -> None:
    # E = 10 GPa, 1 m long, 120 by 20 mm: I = 120 · 20³ / 12 = 80 000 mm⁴, so E I is
    # 800 N m². 5 · 100 N/m · (1 m)⁴ / (384 · 800) = 1.6276 mm.
    walnut = stiffness("black walnut")
    assert walnut is not None
    even = type(walnut)(Fraction(10**10), "worked by hand", "computed")
    load = 100 / Fraction("9.80665")
    moment = second_moment(mm(120), mm(20))
    found = sag(load, mm(1000), even, moment)
    assert float(found.millimetres) == pytest.approx(1.6276, abs=5e-5)


def integrated(load: float, span: float, stiff: float, steps: int = 2000) -> float:
    """Mid-span sag in metres: the moment over E I summed up twice, by trapezoids.

    Along the beam the slope is what the curvature adds up to, the sag what the slope
    adds up to; a straight line takes out what is left at the far end.
    """
    step = span / steps
    curve = [
        load * x * (span - x) / 2 / stiff for x in (i * step for i in range(steps + 1))
    ]
    slope, down = [0.0], [0.0]
    for i in range(steps):
        slope.append(slope[-1] + (curve[i] + curve[i + 1]) / 2 * step)
        down.append(down[-1] + (slope[i] + slope[i + 1]) / 2 * step)
    return down[-1] / 2 - down[steps // 2]


@pytest.mark.parametrize("wood", ["white oak", "eastern white pine", "mdf", "teak"])
@pytest.mark.parametrize(
    ("span", "width"), [("24", "10"), ("36", "11 1/4"), ("60", "12")]
)
def test_the_formula_agrees_with_the_beam_integrated_step_by_step(
    wood: str, span: str, width: str
) -> None:
    modulus = stiffness(wood)
    assert modulus is not None
    moment = second_moment(inches(width), inches("3/4"))
    found = sag(Fraction(35), inches(span), modulus, moment)
    stiff = float(modulus.pascals * moment / 10**36)
    long = float(inches(span).millimetres) / 1000
    assert found.nm / 1e9 == pytest.approx(
        integrated(35 * 9.80665, long, stiff), rel=1e-5
    )
