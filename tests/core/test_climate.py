"""Air and what wood comes to in it, against the handbook's printed table."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.core.climate import Climate, read_humidity, read_temperature
from app.core.errors import WorkshopError
from app.core.length import Unit
from app.core.shop import DESIGNED_BY, Shop, as_designed, changed, design_facts


# FPL-GTR-190 (2010), table 4-2, printed to a tenth of a percent.
@pytest.mark.parametrize(
    ("humidity", "fahrenheit", "printed"),
    [
        ("30", "70 F", 6.2),
        ("65", "70 F", 12.0),
        ("80", "50 F", 16.4),
        ("5", "90 F", 1.2),
    ],
)
def test_wood_comes_to_the_printed_moisture(
    humidity: str, fahrenheit: str, printed: float
) -> None:
    air = Climate(
        read_humidity(humidity, input=""), read_temperature(fahrenheit, input="")
    )
    # The equation is within 0.07 of the table, so the last digit may differ by one.
    assert abs(float(air.moisture) - printed) < 0.11
    assert (air.moisture * 10).denominator == 1


def test_a_climate_reads_in_the_shops_own_degrees() -> None:
    air = Climate(Fraction(45), Fraction(20))
    assert air.text(Unit.INCH) == "45 % at 68 °F"
    assert air.text(Unit.MILLIMETRE) == "45 % at 20 °C"


@pytest.mark.parametrize(
    ("typed", "celsius"),
    [
        ("70F", "21.1"),
        ("21 C", "21"),
        ("-1 c", "-1"),
        ("32 °F", "0"),
        ("20.55C", "20.6"),
    ],
)
def test_a_temperature_is_read_with_its_letter(typed: str, celsius: str) -> None:
    found = read_temperature(typed, input="temperature")
    assert abs(found - Fraction(celsius)) <= Fraction(1, 10)


@pytest.mark.parametrize("typed", ["", "70", "warm", "1e3 C", "NaN C", "94 C", "20 F"])
def test_what_is_no_temperature_names_one_that_is(typed: str) -> None:
    with pytest.raises(WorkshopError) as refused:
        read_temperature(typed, input="temperature")
    assert refused.value.input == "temperature"
    read_temperature(refused.value.nearest, input="temperature")


@pytest.mark.parametrize("typed", ["", "-5", "96", "half", "1e2", "100 %"])
def test_what_is_no_humidity_names_one_that_is(typed: str) -> None:
    with pytest.raises(WorkshopError) as refused:
        read_humidity(typed, input="from_rh")
    read_humidity(refused.value.nearest, input="from_rh")


def test_a_design_keeps_the_air_it_was_worked_out_in() -> None:
    then = Shop(air_damp=Climate(Fraction(80), Fraction(10)))
    kept = design_facts(then)
    assert as_designed(Shop(), kept).air_damp == then.air_damp
    assert changed(then, Shop()) == ("dampest climate",)


def test_a_design_kept_before_there_were_climates_takes_the_shops() -> None:
    kept = {key: n for key, n in design_facts(Shop()).items() if "air" not in key}
    assert len(kept) == len(design_facts(Shop())) - 6
    assert {name for name in DESIGNED_BY if "air" in name} == {
        *("air_now", "air_dry", "air_damp")
    }
    shop = Shop(air_now=Climate(Fraction(50), Fraction(18)))
    assert as_designed(shop, kept).air_now == shop.air_now


@pytest.mark.parametrize("kept", [(5000, 200), (450, -500), (-1, 200)])
def test_air_that_cannot_be_is_not_taken_from_a_file(kept: tuple[int, int]) -> None:
    with pytest.raises(ValueError, match="no air"):
        Climate.of_numbers(*kept)
