"""Movement, moisture and weight against the handbook's own numbers."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.core.errors import WorkshopError
from app.core.figures import table
from app.core.length import inches, mm
from app.core.measure import BOARD_FOOT_NM3
from app.core.moisture import (
    MoistureOutOfRange,
    equilibrium,
    grams,
    wide_width_change,
    width_change,
)
from app.core.wood import Species, all_species, species

TEN = Fraction(10)


def test_white_fir_moves_as_the_handbooks_worked_example_says() -> None:
    """FPL-GTR-190 (2010), example after eq. 13-2: 9.15 in, 8 to 11 %, 0.067 in."""
    fir = species("white fir")
    change = width_change(
        inches("9.15"), fir.coefficient_tangential, Fraction(8), Fraction(11)
    )
    assert round(float(change.inches), 3) == 0.067
    assert round(float(change.millimetres), 1) == 1.7


def test_drying_is_negative_and_the_straight_line_keeps_to_its_span() -> None:
    coefficient = species("cherry").coefficient_radial
    assert width_change(mm(200), coefficient, TEN, Fraction(8)).nm < 0
    for content in (Fraction(5), Fraction(15)):
        with pytest.raises(MoistureOutOfRange, match="6 to 14"):
            width_change(mm(200), coefficient, content, TEN)


# The handbook gives these the coefficients of a group, or the two tables rest
# on different data; SOURCES: tables 13-5, 4-3 and 4-4 compared row by row.
GROUP_OR_OLDER = {
    *("northern-red-oak", "white-oak", "sweet-birch", "pignut-hickory"),
    *("shagbark-hickory", "honduras-mahogany", "african-mahogany", "teak"),
    "spanish-cedar",
}


@pytest.mark.parametrize("wood", all_species(), ids=lambda wood: wood.key)
def test_the_two_equations_agree_at_ten_percent(wood: Species) -> None:
    """Table 13-5's coefficients are equation 13-3 at 10 %, from tables 4-3 and 4-4."""
    pairs = [
        (wood.coefficient_radial, wood.shrinkage_radial),
        (wood.coefficient_tangential, wood.shrinkage_tangential),
    ]
    for coefficient, shrinkage in pairs:
        # A metre, so that a nanometre is far below the coefficient's last digit.
        change = wide_width_change(mm(1000), shrinkage, TEN, TEN + 1, wood.onset)
        derived = Fraction(change.nm, 10**9)
        agrees = abs(derived - coefficient) <= Fraction("0.0000151")
        assert agrees or wood.key in GROUP_OR_OLDER


def test_wood_shrinks_by_its_whole_shrinkage_from_green_to_dry() -> None:
    """Table 4-3's definition of shrinkage: percent of the green size."""
    walnut = species("black walnut")
    change = wide_width_change(
        mm(1000), walnut.shrinkage_tangential, Fraction(30), Fraction(0)
    )
    assert change == -mm(78)
    with pytest.raises(MoistureOutOfRange):
        wide_width_change(mm(100), walnut.shrinkage_radial, Fraction(31), TEN)


def test_the_sorption_equation_gives_the_printed_table() -> None:
    """FPL-GTR-190 (2010), table 4-2, all 342 entries to within 0.07 point."""
    rows = table("emc")
    assert len(rows) == 342
    apart = [
        abs(
            equilibrium(float(row["temperature_f"]), float(row["relative_humidity"]))
            - float(row["moisture_content"])
        )
        for row in rows
    ]
    assert max(apart) < 0.07
    assert sum(apart) / len(apart) < 0.03


def test_air_beyond_the_table_is_refused() -> None:
    for air in ((20, 50), (210, 50), (70, 96), (70, -1)):
        with pytest.raises(WorkshopError, match="30 to 200"):
            equilibrium(*air)


def test_wood_weighs_what_its_specific_gravity_says() -> None:
    """Computed from exact units: walnut 616 kg/m³; 1.45360 kg a board foot."""
    walnut = species("walnut")
    assert grams(10**27, walnut) == 616_000
    assert round(float(grams(BOARD_FOOT_NM3, walnut)), 2) == 1453.60
    slab = mm(25).nm * mm(1000).nm * mm(3000).nm
    assert grams(slab, species("white oak")) == 57_120
