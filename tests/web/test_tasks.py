"""Watching long work on a page, with and without script."""

from __future__ import annotations

import threading

from flask.testing import FlaskClient

from app.core.errors import WorkshopError
from app.services import tasks
from app.services.tasks import Progress

HTMX = {"HX-Request": "true"}


def held() -> tuple[str, threading.Event]:
    """Work that has reported once and waits."""
    reported, go_on = threading.Event(), threading.Event()

    def work(report: Progress) -> str:
        report(3, 7, "Photo 3")
        reported.set()
        go_on.wait(5)
        report(7, 7, "Photo 7")
        return "/series/new"

    task = tasks.start("Bringing in the series", work)
    assert reported.wait(5)
    return task, go_on


def test_work_under_way_is_watched_with_and_without_script(
    client: FlaskClient,
) -> None:
    task, go_on = held()
    whole = client.get(f"/tasks/{task}").text
    assert 'http-equiv="refresh"' in whole
    assert '<progress aria-label="Bringing in the series" max="7" value="3">' in whole
    part = client.get(f"/tasks/{task}", headers=HTMX).text
    assert f'hx-get="/tasks/{task}"' in part
    assert "<h1>" not in part
    go_on.set()
    tasks.wait(task, 5)
    done = client.get(f"/tasks/{task}")
    assert (done.status_code, done.location) == (303, "/series/new")
    assert 'href="/series/new"' in client.get(f"/tasks/{task}", headers=HTMX).text


def test_work_can_be_stopped_from_its_page(client: FlaskClient) -> None:
    task, go_on = held()
    assert client.post(f"/tasks/{task}/stop").status_code == 303
    go_on.set()
    tasks.wait(task, 5)
    assert "Nothing was half done" in client.get(f"/tasks/{task}").text


def test_refused_work_says_why_and_is_not_asked_again(client: FlaskClient) -> None:
    def work(_report: Progress) -> str:
        raise WorkshopError("That zip is damaged.")

    task = tasks.start("Bringing in", work)
    tasks.wait(task, 5)
    page = client.get(f"/tasks/{task}").text
    assert "That zip is damaged." in page
    assert "hx-get" not in page
    assert "refresh" not in page


def test_unknown_work_is_a_page_in_words(client: FlaskClient) -> None:
    answer = client.get("/tasks/long-gone")
    assert answer.status_code == 404
    assert "started anew" in answer.text
