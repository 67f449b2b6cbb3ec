"""The air of the shop and of home: kept with designs, carried with a series."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from sqlalchemy import select

from app.core.climate import Climate
from app.core.shop import Shop
from app.services import designs, files, settings
from app.store import schema
from app.store.workspace import Workspace, open_workspace

DAMP = Climate(Fraction(80), Fraction(15))


@pytest.fixture
def shop(workspace: Workspace) -> Workspace:
    """A design in the usual air, and a shop that got damper since."""
    with workspace.write() as work:
        series = schema.Series(slug="desk", title="Desk pieces")
        series.episodes.append(schema.Episode(number=1, slug="box", title="Box"))
        work.add(series)
    stored = settings.load(workspace)
    settings.save(workspace, settings.typed(stored), stored.version)
    designs.save(workspace, 1, "straight_vessel", {"outside_side": "4"}, 0)
    stored = settings.load(workspace)
    wetter = {"air_damp_humidity": "80 %", "air_damp_celsius": "59 F"}
    settings.save(workspace, settings.typed(stored) | wetter, stored.version)
    return workspace


def swells(workspace: Workspace) -> str:
    view = designs.show(workspace, 1, settings.load(workspace).shop)
    assert view
    assert view.design
    (size,) = (one for one in view.design.sizes if one.key == "base_swells")
    return size.formula


def test_a_design_stands_in_the_air_it_was_saved_in(shop: Workspace) -> None:
    assert settings.load(shop).shop.air_damp == DAMP
    assert "to 65 % at 77 °F" in swells(shop)
    view = designs.show(shop, 1, settings.load(shop).shop)
    assert view
    assert view.changed.startswith("The shop’s dampest climate changed")


def test_a_design_saved_before_there_were_climates_takes_the_shops(
    shop: Workspace,
) -> None:
    with shop.write() as work:
        row = work.scalars(select(schema.DesignRow)).one()
        row.shop = {key: n for key, n in row.shop.items() if not key.startswith("air")}
    assert "to 80 % at 59 °F" in swells(shop)
    view = designs.show(shop, 1, settings.load(shop).shop)
    assert view
    assert view.changed == ""


def test_settings_saved_before_there_were_climates_have_the_usual(
    shop: Workspace,
) -> None:
    with shop.write() as work:
        row = work.scalars(select(schema.Settings)).one()
        row.shop = {key: n for key, n in row.shop.items() if not key.startswith("air")}
    assert settings.load(shop).shop.air_damp == Shop().air_damp


def test_a_series_carries_the_air_of_its_shop(shop: Workspace, tmp_path: Path) -> None:
    folder = files.export_series(shop, "desk", tmp_path / "out")
    second = open_workspace(tmp_path / "second")
    files.import_series(second, folder)
    assert settings.load(second).shop == settings.load(shop).shop
    assert "to 65 % at 77 °F" in swells(second)
    second.close()
