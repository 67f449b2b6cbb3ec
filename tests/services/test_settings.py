"""Settings: typed as makers do, kept exactly, refused by field."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.angle import Angle
from app.core.climate import Climate, read_humidity, read_temperature
from app.core.errors import StaleEdit, WorkshopError
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop
from app.services import settings
from app.services.settings import SettingsView
from app.store.workspace import Workspace


def save(workspace: Workspace, **typed: str) -> None:
    stored = settings.load(workspace)
    settings.save(workspace, settings.typed(stored) | typed, stored.version)


def test_what_is_shown_can_be_saved_unchanged(workspace: Workspace) -> None:
    before = settings.load(workspace)
    save(workspace)
    after = settings.load(workspace)
    assert after.shop == before.shop
    assert after.version == 1


@given(st.integers(0, 10**9), st.sampled_from(list(Unit)))
def test_a_length_shown_in_its_field_reads_back_exactly(nm: int, unit: Unit) -> None:
    shop = Shop(unit=unit, end_trim=Length(nm))
    shown = settings.typed(SettingsView(1, shop, "UTC", ""))["end_trim"]
    assert Length.read(shown, unit) == Length(nm)


def test_a_metric_shop_types_bare_millimetres(workspace: Workspace) -> None:
    save(workspace, unit="mm", kerf="3.2", end_trim="1/2 in", most_tilt="47.5")
    shop = settings.load(workspace).shop
    assert (shop.kerf, shop.end_trim) == (mm("3.2"), inches("1/2"))
    assert shop.most_tilt == Angle.of(47.5)
    assert settings.typed(settings.load(workspace))["end_trim"] == "12.7 mm"


def test_another_unit_leaves_the_saw_as_it_is(workspace: Workspace) -> None:
    save(workspace, kerf="1/8", keep_length="8")
    before = settings.load(workspace).shop
    save(workspace, unit="mm")
    after = settings.load(workspace).shop
    assert (after.kerf, after.keep_length) == (inches("1/8"), inches("8"))
    assert after.end_trim == before.end_trim


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("kerf", "a bit", "is not a length"),
        ("kerf", "0", "wider than nothing"),
        ("kerf", "2", "no wider than"),
        ("kerf", "-1/8", "cannot be negative"),
        ("end_trim", "", "nothing is there"),
        ("most_tilt", "0", "no angle"),
        ("most_tilt", "61", "60 at most"),
        ("most_gauge", "steep", "no angle"),
        ("most_gauge", "45.00001", "no angle"),
        ("air_now_humidity", "wet", "no relative humidity"),
        ("air_dry_humidity", "95.1", "0 to 95 %"),
        ("air_dry_celsius", "21", "with its letter"),
        ("air_damp_celsius", "-40 F", "beyond it"),
        ("air_damp_humidity", "10 %", "Change them over"),
        ("unit", "cubit", "inches or millimetres"),
        ("denominator", "10", "8ths"),
        ("currency", "dollars", "three letters"),
        ("zone", "Mars/Base", "no time zone"),
        ("zone", "../../etc/passwd", "no time zone"),
    ],
)
def test_a_refusal_names_its_field_and_changes_nothing(
    workspace: Workspace, field: str, typed: str, words: str
) -> None:
    before = settings.load(workspace)
    with pytest.raises(WorkshopError, match=words) as refused:
        save(workspace, **{field: typed})
    assert refused.value.input == field
    assert settings.load(workspace) == before


def test_two_windows_on_the_settings(workspace: Workspace) -> None:
    first = settings.typed(settings.load(workspace)) | {"kerf": "3/32"}
    second = settings.typed(settings.load(workspace)) | {"kerf": "1/16"}
    settings.save(workspace, first, 0)
    with pytest.raises(StaleEdit) as stale:
        settings.save(workspace, second, 0)
    assert stale.value.stored["kerf"] == "3/32 in"
    settings.save(workspace, second, int(stale.value.stored["version"]))
    assert settings.load(workspace).shop.kerf == inches("1/16")


@given(
    st.integers(0, 950),
    st.integers(-10, 930),
    st.sampled_from(list(Unit)),
)
def test_a_climate_shown_in_its_fields_reads_back_exactly(
    humidity: int, celsius: int, unit: Unit
) -> None:
    air = Climate.of_numbers(humidity, celsius)
    shop = Shop(unit=unit, air_now=air)
    shown = settings.typed(SettingsView(1, shop, "UTC", ""))
    assert read_humidity(shown["air_now_humidity"], input="") == air.humidity
    assert read_temperature(shown["air_now_celsius"], input="") == air.celsius


def test_air_is_typed_in_either_degree_and_kept_to_a_tenth(
    workspace: Workspace,
) -> None:
    save(workspace, air_damp_humidity="70", air_damp_celsius="77 F")
    save(workspace, unit="mm", air_dry_humidity="28.5%", air_dry_celsius="18.5 °c")
    shop = settings.load(workspace).shop
    assert shop.air_damp == Climate(Fraction(70), Fraction(25))
    assert shop.air_dry == Climate(Fraction(57, 2), Fraction(37, 2))
    assert settings.typed(settings.load(workspace))["air_dry_celsius"] == "18.5 °C"
    assert shop.air_now == Shop().air_now


@pytest.mark.parametrize("field", ["air_now_humidity", "air_dry_celsius"])
def test_the_nearest_air_is_taken(workspace: Workspace, field: str) -> None:
    with pytest.raises(WorkshopError) as refused:
        save(workspace, **{field: "400"})
    save(workspace, **{field: refused.value.nearest})
