"""The wood of a whole series on the series' page."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from app.services import series, series_wood, tasks
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.entry_series import PARTS, SELLS, entry


@pytest.fixture
def hallway(workspace: Workspace) -> str:
    return entry(workspace)


def text(client: FlaskClient, slug: str) -> str:
    """The page without its marks, spaces drawn together."""
    whole = client.get(f"/series/{slug}").get_data(as_text=True)
    return " ".join(re.sub(r"<[^>]*>", " ", whole).split())


def ask(client: FlaskClient, slug: str, sells: str, version: int = 0) -> str:
    """Ask for a plan and wait for it; gives where the page led to."""
    sent = {"dealer": sells, "version": str(version)}
    answer = client.post(f"/series/{slug}/wood", data=sent)
    assert answer.status_code == 303
    assert tasks.wait(answer.location.rpartition("/")[2], 60).over
    return str(client.get(answer.location).location)


def test_a_series_without_designs_says_nothing_of_wood(
    client: FlaskClient, workspace: Workspace
) -> None:
    slug = series.create(workspace, "Empty", "")
    assert "Wood for the whole series" not in text(client, slug)


def test_asking_for_the_plan_leads_back_to_the_wood(
    client: FlaskClient, hallway: str
) -> None:
    assert "not planned for all parts together yet" in text(client, hallway)
    assert ask(client, hallway, SELLS) == f"/series/{hallway}#wood"
    shown = text(client, hallway)
    for title, _ in PARTS:
        assert title in shown
    assert "What to buy now" in shown
    assert "Planned one part after the other" in shown
    assert re.search(r"(Proven: nothing costs less|from the best possible)\.", shown)
    assert re.search(r"Keep .*, for part \d", shown)


def test_a_refused_line_stays_as_typed_beside_its_reason(
    client: FlaskClient, hallway: str
) -> None:
    sent = {"dealer": "walnut, thick", "version": "0"}
    answer = client.post(f"/series/{hallway}/wood", data=sent)
    page = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert "walnut, thick</textarea>" in page
    assert "Line 1 of what the dealer sells" in page


def test_a_plan_made_elsewhere_meanwhile_is_not_written_over(
    client: FlaskClient, hallway: str, workspace: Workspace
) -> None:
    series_wood.make(workspace, hallway, 0, SELLS, NOON, 50_000)
    sent = {"dealer": "", "version": "0"}
    answer = client.post(f"/series/{hallway}/wood", data=sent)
    assert answer.status_code == 409
    assert series_wood.show(workspace, hallway).dealer == SELLS


def test_blanks_without_wood_are_named_with_the_reason(
    client: FlaskClient, hallway: str
) -> None:
    ask(client, hallway, "")
    shown = text(client, hallway)
    assert "Without a place" in shown
    assert "Nothing is proven: some parts found no place." in shown
