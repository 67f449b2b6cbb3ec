"""The workspace's settings: the shop, the display, the zone."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields
from fractions import Fraction
from zoneinfo import ZoneInfo, available_timezones

from sqlalchemy.orm import Session

from app.core.angle import Angle
from app.core.climate import Climate, figure, read_humidity, read_temperature
from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit, show
from app.core.shop import CELSIUS, HUMIDITY, Shop, numbers, with_numbers
from app.store.edits import check_version
from app.store.schema import Settings
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class SettingsView:
    """The settings as values."""

    version: int
    shop: Shop
    zone: str
    disclosure: str


def load(workspace: Workspace) -> SettingsView:
    """The settings; defaults until the first save."""
    with workspace.read() as work:
        return within(work)


def within(work: Session) -> SettingsView:
    """The settings, inside a transaction that is open already."""
    row = work.get(Settings, 1)
    if row is None:
        return SettingsView(0, Shop(), "UTC", "")
    unit = Unit(row.unit)
    display = Display(unit, row.denominator, row.decimal, row.both_systems)
    shop = Shop(unit=unit, display=display, currency=row.currency)
    return SettingsView(
        row.version, with_numbers(shop, row.shop), row.zone, row.disclosure
    )


DENOMINATORS = (8, 16, 32, 64)
LONGEST_SEARCH = 120  # seconds
STEEPEST = {"most_tilt": 60, "most_gauge": 75}


def typed(settings: SettingsView) -> dict[str, str]:
    """The settings as they would be typed, by field."""
    shop, display = settings.shop, settings.shop.display
    return {
        "unit": shop.unit.value,
        "denominator": str(display.denominator),
        "decimal": "yes" if display.decimal else "",
        "both": "yes" if display.both else "",
        "currency": shop.currency,
        "zone": settings.zone,
        "disclosure": settings.disclosure,
        **{name: _as_typed(getattr(shop, name), shop.unit) for name in _numbers()},
        **_airs_typed(shop),
        "plan_seconds": str(shop.plan_seconds),
    }


AIRS = ("air_now", "air_dry", "air_damp")


def _numbers() -> tuple[str, ...]:
    shop = Shop()
    return tuple(
        item.name
        for item in fields(Shop)
        if isinstance(getattr(shop, item.name), Length | Angle)
    )


def _airs_typed(shop: Shop) -> dict[str, str]:
    found: dict[str, str] = {}
    for name in AIRS:
        air: Climate = getattr(shop, name)
        found[name + HUMIDITY] = f"{figure(air.humidity)} %"
        found[name + CELSIUS] = air.degrees(shop.unit)
    return found


def _as_typed(value: Length | Angle, unit: Unit) -> str:
    """Exactly, with its unit.

    A field shown and saved again must not drift by a rounding, nor turn from inches
    into millimetres where the unit is changed in the same form.
    """
    if isinstance(value, Angle):
        return f"{float(value.degrees):g}"
    other = Unit.MILLIMETRE if unit is Unit.INCH else Unit.INCH
    for tried in (Display(unit, 64), Display(unit, decimal=True), Display(other, 64)):
        shown = show(value, tried)
        if not shown.hidden:
            return shown.text
    return f"{float(value.millimetres):.6f} mm"


def save(workspace: Workspace, form: Mapping[str, str], version: int) -> None:
    """Keep the settings as typed.

    Raises WorkshopError naming the field at fault, StaleEdit after another save.
    """
    unit = _unit(form)
    settled = {name: _number(name, form, unit) for name in _numbers()}
    values = {
        "unit": unit.value,
        "denominator": _denominator(form),
        "decimal": bool(form.get("decimal")),
        "both_systems": bool(form.get("both")),
        "currency": _currency(form.get("currency", "")),
        "zone": _zone(form.get("zone", "")),
        "shop": settled | _airs(form) | {"plan_seconds": _seconds(form)},
        "disclosure": form.get("disclosure", "").strip(),
    }
    with workspace.write() as work:
        now = within(work)
        row = work.get(Settings, 1)
        if row is None:
            row = Settings(id=1, version=0)
            work.add(row)
        check_version(row, version, "The settings page", typed(now))
        for name, value in values.items():
            setattr(row, name, value)


def _airs(form: Mapping[str, str]) -> dict[str, int]:
    """The three climates to keep; a damp one drier than the dry one is a slip."""
    airs: dict[str, Climate] = {}
    for name in AIRS:
        humidity, celsius = name + HUMIDITY, name + CELSIUS
        airs[name] = Climate(
            read_humidity(form.get(humidity, ""), input=humidity),
            read_temperature(form.get(celsius, ""), input=celsius),
        )
    dry, damp = airs["air_dry"], airs["air_damp"]
    if damp.moisture < dry.moisture:
        raise WorkshopError(
            f"The dampest air brings wood to {figure(damp.moisture)} % and the driest "
            f"to {figure(dry.moisture)} %. Change them over, or type more humidity.",
            input="air_damp" + HUMIDITY,
            nearest=f"{figure(dry.humidity)} %",
        )
    return numbers(Shop(**airs), airs)  # type: ignore[arg-type]


def _unit(form: Mapping[str, str]) -> Unit:
    try:
        return Unit(form.get("unit", ""))
    except ValueError:
        raise WorkshopError(
            "The unit is either inches or millimetres.", input="unit"
        ) from None


def _number(name: str, form: Mapping[str, str], unit: Unit) -> int:
    text = form.get(name, "")
    if name in STEEPEST:
        return _millidegrees(name, text)
    length = Length.read(text, unit, input=name)
    if name == "kerf" and not Length(0) < length <= Length.read("1/2", Unit.INCH):
        raise WorkshopError(
            "A kerf is wider than nothing and no wider than 1/2 in (12.7 mm).",
            input=name,
            nearest="1/8 in",
        )
    return length.nm


def _millidegrees(name: str, text: str) -> int:
    most = STEEPEST[name]
    figures = text.strip().removesuffix("°").strip()
    # An exponent would be worked out in full: 1e99999999 has no end.
    plain = re.fullmatch(r"[0-9]{1,3}(\.[0-9]{1,6})?", figures)
    degrees = Fraction(figures) if plain else Fraction(-1)
    if not 0 < degrees <= most or (degrees * 1000).denominator != 1:
        raise WorkshopError(
            f"“{text[:20]}” is no angle this machine could reach. "
            f"Type degrees like 45 or 47.5, {most} at most.",
            input=name,
            nearest=str(most),
        )
    return int(degrees * 1000)


def _seconds(form: Mapping[str, str]) -> int:
    text = form.get("plan_seconds", "").strip()
    if not re.fullmatch(r"[0-9]{1,3}", text) or not 1 <= int(text) <= LONGEST_SEARCH:
        raise WorkshopError(
            "A plan is looked for during whole seconds, from 1 to "
            f"{LONGEST_SEARCH}; 10 do for most.",
            input="plan_seconds",
            nearest="10",
        )
    return int(text)


def _denominator(form: Mapping[str, str]) -> int:
    text = form.get("denominator", "")
    if text not in {str(number) for number in DENOMINATORS}:
        raise WorkshopError(
            "The finest fraction is one of 8ths, 16ths, 32nds and 64ths.",
            input="denominator",
        )
    return int(text)


def _currency(text: str) -> str:
    code = text.strip().upper()
    if not (len(code) == 3 and code.isascii() and code.isalpha()):
        raise WorkshopError(
            "A currency is its three letters, like USD, EUR or GBP.", input="currency"
        )
    return code


def _zone(text: str) -> str:
    name = text.strip()
    if name not in available_timezones():
        raise WorkshopError(
            f"“{name[:40]}” is no time zone known here. "
            "Choose one like America/Chicago or Europe/Berlin.",
            input="zone",
        )
    return ZoneInfo(name).key
