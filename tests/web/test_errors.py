"""Every refusal is a page in words; what broke stays in the log."""

from __future__ import annotations

import logging

import pytest
from flask import Flask, abort
from flask.testing import FlaskClient

from app.core.errors import NotFound, StaleEdit, WorkshopError, WorkspaceBusy
from app.main import create_app
from app.store.workspace import Workspace
from app.web.errors import OneLine

HTMX = {"HX-Request": "true"}
BOOSTED = HTMX | {"HX-Boosted": "true"}
REFUSALS = {
    "missing": NotFound("There is no board B-7."),
    "stale": StaleEdit("The note", {}),
    "refused": WorkshopError("The groove is deeper than the wall.", nearest="3/8 in"),
    "busy": WorkspaceBusy("Another program writes."),
}


def app_that_fails(workspace: Workspace, **config: object) -> Flask:
    """The program with addresses that fail in every way."""
    app = create_app(workspace, WTF_CSRF_ENABLED=False, **config)

    @app.get("/fail/<how>")
    def fail(how: str) -> str:
        raise REFUSALS[how]

    @app.get("/status/<int:status>")
    def answer(status: int) -> str:
        abort(status)

    @app.get("/break")
    def broken() -> str:
        raise RuntimeError("secret place 51.5\n2026-01-01 ERROR forged line")

    return app


@pytest.fixture
def browser(workspace: Workspace) -> FlaskClient:
    return app_that_fails(workspace).test_client()


@pytest.mark.parametrize(
    ("how", "status", "words"),
    [
        ("missing", 404, "There is no board B-7."),
        ("stale", 409, "was changed in another window"),
        ("refused", 422, "Closest that would do: 3/8 in."),
        ("busy", 503, "Another program writes."),
    ],
)
def test_a_refusal_says_what_is_wrong(
    browser: FlaskClient, how: str, status: int, words: str
) -> None:
    answer = browser.get(f"/fail/{how}")
    assert answer.status_code == status
    assert words in answer.text
    assert "<h1>" in answer.text


@pytest.mark.parametrize("status", [400, 403, 404, 405, 413, 415])
def test_what_http_refuses_has_a_page_too(browser: FlaskClient, status: int) -> None:
    answer = browser.get(f"/status/{status}")
    assert answer.status_code == status
    assert "<h1>" in answer.text
    assert "Werkzeug" not in answer.text


def test_an_address_that_only_takes_posts_says_so(browser: FlaskClient) -> None:
    answer = browser.get("/theme")
    assert answer.status_code == 405
    assert "POST" in answer.headers["Allow"]
    assert "use the form there" in answer.text


def test_a_piece_of_a_page_is_refused_in_its_own_place(browser: FlaskClient) -> None:
    answer = browser.get("/fail/refused", headers=HTMX)
    assert answer.headers["HX-Retarget"] == "#refusal"
    assert "<h1>" not in answer.text
    assert "The groove is deeper than the wall." in answer.text


def test_a_refused_form_does_not_change_the_address(browser: FlaskClient) -> None:
    answer = browser.get("/fail/refused", headers=BOOSTED)
    assert "<h1>" in answer.text
    assert answer.headers["HX-Push-Url"] == "false"


def test_the_programs_own_mistake_shows_a_number_and_nothing_else(
    browser: FlaskClient, caplog: pytest.LogCaptureFixture
) -> None:
    answer = browser.get("/break")
    assert answer.status_code == 500
    assert "secret place" not in answer.text
    assert "Traceback" not in answer.text
    [record] = [found for found in caplog.records if found.name == "stockthread"]
    number = record.getMessage().split()[1]
    assert number in answer.text
    assert record.exc_info
    written = OneLine().format(record)
    assert "secret place" in written
    assert all(line.startswith("    | ") for line in written.split("\n")[1:])


@pytest.mark.parametrize(
    "typed", ["a\nERROR forged", "a\r\x1b[2Jb", "a\u2028b", "\x00"]
)
def test_log_lines_spell_out_control_characters(typed: str) -> None:
    record = logging.LogRecord("x", logging.ERROR, "f", 1, "at %s", (typed,), None)
    assert OneLine().format(record).isprintable()


def test_every_own_error_has_a_status(browser: FlaskClient) -> None:
    assert {browser.get(f"/fail/{how}").status_code for how in REFUSALS} == {
        404,
        409,
        422,
        503,
    }
