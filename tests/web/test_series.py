"""The pages of series and parts."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from app.services import episodes, series
from app.store.workspace import Workspace


@pytest.fixture
def trays(workspace: Workspace) -> str:
    name = series.create(workspace, "Four trays", "")
    for title in ("One", "Two", "Three"):
        episodes.add(workspace, name, title, "", "")
    return name


def test_an_empty_notebook_offers_the_first_step(client: FlaskClient) -> None:
    page = client.get("/").text
    assert 'href="/series/new"' in page
    assert "Where to begin" in page


def test_the_first_page_leads_to_every_series(
    client: FlaskClient, workspace: Workspace, trays: str
) -> None:
    series.create(workspace, "Kitchen boards", "")
    page = client.get("/").text
    assert 'href="/series/four-trays"' in page
    assert 'href="/series/kitchen-boards"' in page
    assert "No part planned yet" in page


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        ("/series/new", {"title": "", "summary": "kept words"}),
        ("/series/four-trays/add", {"title": " ", "introduces": "kept words"}),
        ("/series/four-trays/add", {"title": "kept words", "due_on": "tomorrow"}),
        (
            "/series/four-trays/2/planned",
            {"title": "", "introduces": "kept words", "version": "1", "form_key": "2"},
        ),
        ("/series/four-trays/2/move", {"to": "kept words", "form_key": "2"}),
        (
            "/series/four-trays/2/head",
            {"title": "kept words", "video_url": "nowhere", "version": "1"},
        ),
        ("/series/four-trays/2/head", {"title": "kept words"}),
        ("/series/four-trays", {"title": "kept words", "version": "-1"}),
    ],
)
def test_a_refusal_keeps_what_was_typed_and_saves_nothing(
    client: FlaskClient,
    workspace: Workspace,
    trays: str,
    path: str,
    typed: dict[str, str],
) -> None:
    before = series.listing(workspace)
    answer = client.post(path, data=typed)
    assert answer.status_code == 422
    assert "kept words" in answer.text
    assert 'role="alert"' in answer.text
    assert series.listing(workspace) == before


def test_the_second_window_shows_both_versions(
    client: FlaskClient, workspace: Workspace, trays: str
) -> None:
    typed = {"title": "First", "introduces": "", "version": "1", "form_key": "1"}
    assert client.post("/series/four-trays/1/planned", data=typed).status_code == 303
    answer = client.post(
        "/series/four-trays/1/planned", data=typed | {"title": "Second"}
    )
    assert answer.status_code == 409
    assert "Saved now: First" in answer.text
    assert 'value="Second"' in answer.text
    assert 'name="version" value="2"' in answer.text
    assert episodes.find(workspace, trays, 1).title == "First"


@pytest.mark.parametrize(
    "path", ["/series/nowhere", "/series/four-trays/9", "/series/nowhere/1"]
)
def test_what_is_not_there_has_a_page(
    client: FlaskClient, trays: str, path: str
) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert "<h1>" in answer.text


def test_titles_are_text_not_html(client: FlaskClient, workspace: Workspace) -> None:
    name = series.create(workspace, "<script>alert(1)</script>", "<b>x</b>")
    episodes.add(workspace, name, '"><img src=x>', "<i>", "")
    for path in ("/", f"/series/{name}", f"/series/{name}/1"):
        page = client.get(path).text
        assert "<script>alert" not in page
        assert "<img src=x" not in page


def test_a_series_with_an_address_in_another_script(
    client: FlaskClient, workspace: Workspace
) -> None:
    name = series.create(workspace, "木の箱", "")
    assert client.get(f"/series/{name}").status_code == 200
    moved = client.post(f"/series/{name}/add", data={"title": "一"})
    assert client.get(moved.location).status_code == 200
