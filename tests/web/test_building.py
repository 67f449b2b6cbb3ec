"""Building on the episode's page, as a browser without a screen sees it."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from app.services import building
from app.store.workspace import Workspace
from tests.services.any_form import cut, glue_up
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


def test_a_strip_alone_is_ripped_and_not_glued(
    client: FlaskClient, workspace: Workspace
) -> None:
    """Segments are cut from one strip: nothing is glued edge to edge."""
    cut(workspace, "segmented_ring")
    page = words(client.get(PAGE).text)
    assert (
        "1 × Strip for segments, ring 1, walnut to rip to width. Record the ripping"
    ) in page
    assert "one strip of walnut" in page
    assert "0 of 1 ripped to width" in page
    assert "Strip for segments, ring 1, walnut is not ripped to width yet" in page
    assert "to glue up" not in page
    assert "of 1 glued up" not in page
    assert client.post(f"{PAGE}/glue/ring_1_strip_a", data={}).status_code == 303
    assert "1 of 1 ripped to width" in words(client.get(PAGE).text)


def test_the_maker_says_what_became_of_the_spares(
    client: FlaskClient, workspace: Workspace
) -> None:
    episode_id = cut(workspace, "segmented_ring", spares="2")
    glue_up(workspace, episode_id)
    page = words(client.get(PAGE).text)
    assert "Blanks and panels become 4 × Segment, ring 1, walnut, 4 × Segment" in page
    assert "Kept: offcuts on the rack" in page
    assert "2 × Spare segment, ring 1, walnut" in page
    refused = client.post(f"{PAGE}/built", data={"spares": "burnt"})
    assert refused.status_code == 422
    assert "burnt" in words(refused.text)
    assert client.post(f"{PAGE}/built", data={"spares": "keep"}).status_code == 303
    page = words(client.get(PAGE).text)
    assert "Built 4 × Segment" in page
