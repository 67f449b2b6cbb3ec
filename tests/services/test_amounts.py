"""Amounts on their way from a design to the bench, the materials and the plan."""

from __future__ import annotations

import pytest

from app.core.length import Unit
from app.publish.exporters import materials_csv, materials_markdown
from app.publish.sheet import Sheet
from app.services import designs, gathering, settings
from app.store import schema
from app.store.workspace import Workspace

BOX = {"length": "8 in", "width": "5 in", "height": "3 1/4 in", "coats": "2"}
BOX |= {"base_material": "solid"}


@pytest.fixture
def shop(workspace: Workspace) -> Workspace:
    with workspace.write() as work:
        series = schema.Series(slug="desk", title="Desk pieces")
        series.episodes.append(schema.Episode(number=1, slug="box", title="Box"))
        work.add(series)
    return workspace


def sheet(workspace: Workspace) -> Sheet:
    with workspace.read() as work:
        return gathering.sheet(work, 1, None)


def test_the_materials_say_how_much_and_what_to_buy(shop: Workspace) -> None:
    designs.save(shop, 1, "box", BOX, 0)
    supplies = {line.name: line.quantity for line in sheet(shop).supplies}
    assert supplies["oil varnish"].endswith("in all: one half-pint can")
    assert "fl oz (" in supplies["PVA wood glue"]
    assert supplies["P180 abrasive"] == "1 disc"
    listed = materials_markdown.render(sheet(shop)).decode()
    assert f"oil varnish, {supplies['oil varnish']}" in listed
    assert supplies["PVA wood glue"] in materials_csv.render(sheet(shop)).decode()


def test_a_metric_shop_buys_metric_bottles(shop: Workspace) -> None:
    stored = settings.load(shop)
    typed = settings.typed(stored) | {"unit": Unit.MILLIMETRE.value}
    settings.save(shop, typed, stored.version)
    designs.save(shop, 1, "box", BOX | {"finish": "wax"}, 0)
    supplies = {line.name: line.quantity for line in sheet(shop).supplies}
    assert supplies["wax"].endswith("in all: one 250 ml can")
    assert "oil varnish" not in supplies


def test_viewers_read_weights_and_areas_in_their_own_system(shop: Workspace) -> None:
    designs.save(shop, 1, "box", BOX, 0)
    sizes = {line.key: line for line in sheet(shop).sizes}
    for key, inch, metric in (
        ("weight", "lb", "g"),
        ("finish_area", "ft²", "m²"),
        ("finish", "fl oz", "ml"),
    ):
        line = sizes[key]
        assert (line.inch.endswith(inch), line.mm.endswith(metric)) == (True, True)
        assert line.inch != line.mm


def test_viewers_read_every_table_in_both_systems(shop: Workspace) -> None:
    designs.save(shop, 1, "box", BOX, 0)
    tables = {line.key: line for line in sheet(shop).tables}
    (wood,) = tables["wood_by_species"].rows
    assert "board feet (" in wood[1]
    assert wood[1].endswith("litres)")
    assert wood[3].endswith(" g)")
    assert any("ml)" in row[1] for row in tables["supplies"].rows)
    moves = tables["wood_moves"]
    assert "°F (20" in moves.headings[1]
    assert all("mm)" in row[1] for row in moves.rows)


def test_a_page_gives_the_other_system_beside_each_amount(shop: Workspace) -> None:
    designs.save(shop, 1, "box", BOX, 0)
    now = settings.load(shop).shop
    view = designs.show(shop, 1, now)
    assert view
    shown = {one.size.key: one.other for group in view.groups for one in group.sizes}
    assert shown["weight"].endswith(" g")
    assert shown["finish"].endswith(" ml")
    assert shown["finished_board_feet"] == ""
