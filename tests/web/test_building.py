"""Building on the episode's page, as a browser without a screen sees it."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from app.services import building
from app.store.workspace import Workspace
from tests.services.ring import cut_strips, ring
from tests.web.reading import words

PAGE = "/series/porch/1"


@pytest.fixture
def episode_id(workspace: Workspace) -> int:
    """A designed ring with its strips cut."""
    found = ring(workspace, "walnut", "walnut", quantity="1")
    cut_strips(workspace, found)
    return found


def test_the_margin_says_the_next_thing_to_do(
    client: FlaskClient, episode_id: int
) -> None:
    page = words(client.get(PAGE).text)
    assert "1 × Wall panel to glue up. Record the glue-up" in page
    assert "Not ready to build. 1 × Wall panel is not glued up yet." in page
    assert client.post(f"{PAGE}/glue/wall_panel", data={}).status_code == 303
    page = words(client.get(PAGE).text)
    assert "1 of 1 glued up" in page
    assert "Everything is there. Record the build" in page
    assert client.post(f"{PAGE}/built", data={}).status_code == 303
    page = words(client.get(PAGE).text)
    assert "Built 6 × Wall" in page
    assert "to glue up" not in page


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ({"quantity": "2"}, "2 are needed|2 walnut strips|4 walnut strips"),
        ({"quantity": "none"}, "“none” is not a whole number"),
        ({"width": "wide"}, "“wide” is not a length"),
        ({"width": "12"}, "too narrow for a panel 12 in"),
        ({"length": "99"}, "is more than that of its strips"),
        ({"on": "2026-04-01"}, "is still to come"),
    ],
)
def test_a_glue_up_that_cannot_be_is_refused_beside_what_was_typed(
    client: FlaskClient,
    workspace: Workspace,
    episode_id: int,
    data: dict[str, str],
    says: str,
) -> None:
    typed = {"form_key": "wall_panel", "thickness": "51/64"} | data
    answer = client.post(f"{PAGE}/glue/wall_panel", data=typed)
    assert answer.status_code == 422
    assert re.search(says, words(answer.text))
    assert 'value="51/64"' in answer.text
    view = building.show(workspace, episode_id)
    assert view is not None
    assert view.panels[0].made == 0


def test_building_too_soon_is_refused_with_what_is_missing(
    client: FlaskClient, episode_id: int
) -> None:
    answer = client.post(f"{PAGE}/built", data={})
    assert answer.status_code == 422
    assert "Wall panel is not glued up yet" in words(answer.text)


def test_a_record_is_taken_back_on_the_parts_own_page(
    client: FlaskClient, workspace: Workspace, episode_id: int
) -> None:
    client.post(f"{PAGE}/glue/wall_panel", data={})
    view = building.show(workspace, episode_id)
    assert view is not None
    cut, glued = view.records
    refused = client.post(f"{PAGE}/undo/{cut.id}", data={"form_key": str(cut.id)})
    assert refused.status_code == 422
    assert f"Record {glued.id} (glued up" in words(refused.text)
    assert '<details id="wood-records" open>' in refused.text
    assert client.post(f"{PAGE}/undo/{glued.id}", data={}).status_code == 303
    assert client.post(f"{PAGE}/undo/999", data={}).status_code == 404


def test_a_panel_the_design_no_longer_has_is_not_found(
    client: FlaskClient, episode_id: int
) -> None:
    assert client.post(f"{PAGE}/glue/lid_panel", data={}).status_code == 404
