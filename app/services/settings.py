"""The workspace's settings: the shop, the display, the zone."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from sqlalchemy.orm import Session

from app.core.angle import Angle
from app.core.length import Display, Length, Unit
from app.core.shop import Shop
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
        row.version, _with_numbers(shop, row.shop), row.zone, row.disclosure
    )


def _with_numbers(shop: Shop, numbers: dict[str, int]) -> Shop:
    known = {item.name: getattr(shop, item.name) for item in fields(Shop)}
    changes: dict[str, Length | Angle] = {}
    for name, number in numbers.items():
        if isinstance(known.get(name), Length):
            changes[name] = Length(number)
        elif isinstance(known.get(name), Angle):
            changes[name] = Angle.of(number / 1000)
    return replace(shop, **changes)  # type: ignore[arg-type]
