"""When a request cannot be carried out: a page that says so and what would work."""

from __future__ import annotations

import logging
import secrets

from flask import Blueprint, Response, current_app, request
from flask.blueprints import BlueprintSetupState
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, SecurityError

from app.core.errors import NotFound, WorkshopError
from app.web.forms import shown_again, status_of, typed_words
from app.web.pages import page

bp = Blueprint("errors", __name__)
log = logging.getLogger("stockthread")

WORDS = {
    400: ("That request could not be read", "Go back, open the page again and retry."),
    403: (
        "That did not come from this notebook",
        "Only its own pages may change or read it. Open it in a fresh tab.",
    ),
    404: (
        "There is nothing here",
        "The address may have a slip, or the thing is gone.",
    ),
    405: (
        "That address only takes what a form sends",
        "Open the page it belongs to and use the form there.",
    ),
    413: (
        "That is more than this page takes",
        "Nothing was kept. Go back to what you typed and send less at once.",
    ),
    415: (
        "That kind of file is not known here",
        "Nothing was kept. The form says which kinds it takes.",
    ),
}
OLD_PAGE = (
    "This page was opened before the browser or the program was started anew, "
    "so nothing was saved. What you typed is still here: send it again."
)


@bp.record_once
def install(state: BlueprintSetupState) -> None:
    """Catch everything else too, but let a test see its own mistakes."""
    if not state.app.testing:
        state.app.register_error_handler(Exception, last_resort)


@bp.app_errorhandler(WorkshopError)
def refuse(error: WorkshopError) -> Response:
    """A refusal that no form has caught."""
    title = "There is nothing here" if isinstance(error, NotFound) else "Not done"
    return _answer(status_of(error), title, str(error), nearest=error.nearest)


@bp.app_errorhandler(CSRFError)
def old_page(_error: CSRFError) -> Response:
    """A form whose token no longer fits: shown again as typed, to be sent anew."""
    view = current_app.view_functions.get(request.endpoint or "")
    mended = getattr(view, "mended_by", None)
    if mended is None:
        return _answer(400, "That page was too old to send", OLD_PAGE)
    again = shown_again(mended, request.view_args or {}, WorkshopError(OLD_PAGE))
    again.status_code = 400
    return again


@bp.app_errorhandler(HTTPException)
def refuse_http(error: HTTPException) -> Response:
    """What HTTP itself refuses; redirects and ready answers pass."""
    status = error.code or 500
    if status < 400 or error.response is not None:
        return error.get_response()  # type: ignore[return-value]
    if isinstance(error, SecurityError):
        # No page can be built for a name that is not ours.
        return Response("This address is not the program's own.\n", status)
    title, words = WORDS.get(status, ("That could not be done", "Go back and retry."))
    answer = _answer(status, title, words)
    for name, value in error.get_headers():
        if name in ("Allow", "Retry-After"):
            answer.headers[name] = value
    return answer


def last_resort(error: Exception) -> Response:
    """The program's own fault: a number here, what happened only in the log."""
    number = secrets.token_hex(4)
    log.error("error %s at %s %s", number, request.method, request.path, exc_info=error)
    words = (
        "The program made a mistake, not you. Nothing was half saved. "
        f"What happened is in the program's log under error number {number}."
    )
    return _answer(500, "Something broke in here", words)


def _answer(status: int, title: str, help: str, nearest: str = "") -> Response:
    facts = {"title": title, "help": help, "nearest": nearest}
    answer = page(
        "refusal.html",
        partial="_refusal.html",
        into="#refusal",
        # A form that was sent stays on its page, with what was typed in it.
        stays=request.method == "POST",
        typed=typed_words(),
        **facts,
    )
    answer.status_code = status
    return answer


class OneLine(logging.Formatter):
    """Log lines in which nobody can write lines of their own."""

    def format(self, record: logging.LogRecord) -> str:
        """The record with control characters spelled out, the rest set in."""
        first, *rest = super().format(record).split("\n")
        return "\n".join([_spelled(first), *("    | " + _spelled(x) for x in rest)])

    def formatMessage(self, record: logging.LogRecord) -> str:  # noqa: N802
        """The message on one line, whatever was put into it."""
        return _spelled(super().formatMessage(record))


def _spelled(text: str) -> str:
    return "".join(
        mark if mark.isprintable() else mark.encode("unicode_escape").decode()
        for mark in text
    )
