"""Promises on the page of a part and on the page of the series."""

from __future__ import annotations

import html

from flask.testing import FlaskClient

from app.services import promises
from app.services.promises import PromiseTyped
from app.store.workspace import Workspace
from tests.services.shop import MONDAY, SLUG, porch

FIRST = f"/series/{SLUG}/1"
SECOND = f"/series/{SLUG}/2"
ALL = f"/series/{SLUG}/promises"


def test_a_promise_is_recorded_and_kept_from_the_parts_pages(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    form = {"text": "a planter", "at": "8:32", "due": "2026-04-01"}
    answer = client.post(f"{FIRST}/promises", data=form)
    assert answer.headers["Location"] == f"{FIRST}#promises"
    assert "Open, due 1 April 2026." in client.get(FIRST).text
    (told,) = promises.of_series(workspace, SLUG, MONDAY).open
    assert "Keep it in this part" in client.get(SECOND).text
    kept = client.post(
        f"{SECOND}/promises/{told.id}/kept-here", data={"version": "1", "how": ""}
    )
    assert kept.status_code == 303
    assert "part 2, Herb planter" in client.get(FIRST).text
    assert "part 1, Lantern stand" in client.get(SECOND).text


def test_a_refused_promise_keeps_what_was_typed(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    form = {"text": "a planter", "at": "half way", "due": ""}
    answer = client.post(f"{FIRST}/promises", data=form)
    assert answer.status_code == 422
    assert "is not a time in the film" in html.unescape(answer.text)
    assert "half way" in answer.text
    assert "a planter</textarea>" in answer.text


def test_the_page_of_the_series_shows_open_ones_first_and_mends_them(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, second, _ = porch(workspace)
    done = promises.record(workspace, first, PromiseTyped("already kept"))
    promises.keep(workspace, done, second, "", 1)
    late = promises.record(workspace, first, PromiseTyped("late", due="2026-02-01"))
    shown = client.get(ALL).text
    assert shown.index("“late”") < shown.index("“already kept”")
    assert "Overdue since 1 February 2026" in shown
    change = {"version": "1", "text": "a lid", "at": "", "due": ""}
    assert client.post(f"{ALL}/{late}", data=change).status_code == 303
    stale = client.post(f"{ALL}/{late}", data=change | {"form_key": str(late)})
    assert stale.status_code == 409
    kept = {"version": "2", "in_episode": str(second), "how": "In the base."}
    assert client.post(f"{ALL}/{late}/keep", data=kept).status_code == 303
    assert "In the base." in client.get(ALL).text
    reopened = client.post(f"{ALL}/{late}/reopen", data={"version": "3"})
    assert reopened.status_code == 303
    assert client.post(f"{ALL}/{late}/remove", data={"version": "4"}).status_code == 303
    assert promises.of_series(workspace, SLUG, MONDAY).open == ()


def test_keeping_it_nowhere_is_refused_beside_the_choice(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, *_ = porch(workspace)
    made = promises.record(workspace, first, PromiseTyped("a lid"))
    form = {"version": "1", "form_key": str(made), "in_episode": "", "how": ""}
    answer = client.post(f"{ALL}/{made}/keep", data=form)
    assert answer.status_code == 422
    assert "Choose the part that keeps it." in answer.text


def test_a_series_without_promises_says_where_they_come_from(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    assert "Nothing is promised that is not kept." in client.get(ALL).text
    assert client.get("/series/no-such/promises").status_code == 404
