"""Forms that give back what was typed when the request is refused.

A posting view is decorated with ``@mends("episodes.show")``: when the service
refuses, the view of that name (the page with the form) is called with those of
the posting view's arguments that it takes, and answers 422 (409 for a stale
edit, 503 while another program writes), with what was typed still there and the
refusal beside its field.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from inspect import signature
from typing import Any

from flask import Response, current_app, g, make_response, redirect, request
from markupsafe import escape
from werkzeug.datastructures import MultiDict
from werkzeug.exceptions import HTTPException

from app.core.errors import NotFound, StaleEdit, WorkshopError, WorkspaceBusy
from app.core.plain_text import check_text
from app.web import once

# Fields of the form itself, which nobody types.
OWN_FIELDS = frozenset({"csrf_token", "form_key", "version", "once", "facts"})

View = Callable[..., Any]


@dataclass(frozen=True)
class FormState:
    """What one form on a page shows: typed before stored, and the refusal.

    ``key`` tells equal forms on one page apart (say, one for each step).
    """

    endpoint: str
    key: str
    typed: MultiDict[str, str] | None = None
    refusal: WorkshopError | None = None

    def value(self, name: str, default: object = "") -> str:
        """What the field shows."""
        if self.typed is not None:
            return self.typed.get(name, "")
        return "" if default is None else str(default)

    def error(self, name: str) -> str:
        """The sentence beside the field, if it is the one at fault."""
        faults: dict[str, str] = getattr(self.refusal, "faults", {})
        if name in faults:
            return faults[name]
        if self.refusal is None or self.refusal.input != name:
            return ""
        return str(self.refusal)

    def version(self, current: object) -> str:
        """The version to send: after a conflict the stored one, to save over."""
        if isinstance(self.refusal, StaleEdit):
            return self.refusal.stored.get("version", str(current))
        return self.value("version", current)

    def stored(self, name: str) -> str | None:
        """What is saved now, after a conflict, where it differs from what is typed."""
        if not isinstance(self.refusal, StaleEdit):
            return None
        saved = self.refusal.stored.get(name)
        return None if saved is None or saved == self.value(name) else saved


def typed_words() -> tuple[str, ...]:
    """What was typed into a form that no page can show again, to be copied."""
    try:
        sent = request.form
    except HTTPException:  # too large to be read at all
        return ()
    texts = (text for name, text in sent.items(multi=True) if name not in OWN_FIELDS)
    return tuple(text for text in texts if text.strip())


def form_state(endpoint: str, key: object = "") -> FormState:
    """The state of the form that posts to ``endpoint``; for templates."""
    refused = g.get("refused")
    if refused and refused.endpoint == endpoint and refused.key == str(key):
        return refused  # type: ignore[no-any-return]
    return FormState(endpoint, str(key))


def sent_version() -> int:
    """The version of the row that the form was opened on.

    Raises WorkshopError where the form carries none.
    """
    sent = request.form.get("version", "")
    if not (sent.isdecimal() and sent.isascii() and len(sent) < 10):
        raise WorkshopError(
            "The form does not say which version of the page it was filled in on. "
            "Open the page again and send it from there."
        )
    return int(sent)


def mends(endpoint: str) -> Callable[[View], View]:
    """Show the page with the form again, as typed, when the view is refused."""

    def decorate(view: View) -> View:
        @wraps(view)
        def posting(**arguments: Any) -> Any:
            try:
                check_typed()
                return _carried_out_once(view, arguments)
            except NotFound:
                raise
            except WorkshopError as error:
                return shown_again(endpoint, arguments, error)

        posting.mended_by = endpoint  # type: ignore[attr-defined]
        return posting

    return decorate


def _carried_out_once(view: View, arguments: dict[str, Any]) -> Any:
    """The view's answer; for a form that was carried out already, where it led."""
    sent = once.posting()
    with sent.turn:
        if sent.led_to:
            return redirect(sent.led_to, 303)
        answer = view(**arguments)
        if answer.status_code == 303:
            sent.led_to = answer.location
        return answer


def check_typed() -> None:
    """Refuse marks that no field takes. Raises WorkshopError naming the field."""
    for name, text in request.form.items(multi=True):
        check_text(text, input=name)


def status_of(error: WorkshopError) -> int:
    """The HTTP status that a refusal answers with."""
    if isinstance(error, NotFound):
        return 404
    if isinstance(error, StaleEdit):
        return 409
    return 503 if isinstance(error, WorkspaceBusy) else 422


def shown_again(
    endpoint: str, arguments: dict[str, Any], error: WorkshopError
) -> Response:
    """The page ``endpoint`` with its refused form as typed; 422, or 409 if stale."""
    key = request.form.get("form_key", "")
    g.refused = FormState(str(request.endpoint), key, request.form.copy(), error)
    answer = _page_again(endpoint, arguments)
    if not _says(answer, error):
        # The form has no such field on this page: the sentence goes above it.
        error.input = ""
        answer = _page_again(endpoint, arguments)
    if not _says(answer, error):
        # The form itself is gone; the refusal's own page shows what was typed.
        raise error
    answer.status_code = status_of(error)
    return answer


def _page_again(endpoint: str, arguments: dict[str, Any]) -> Response:
    show = current_app.view_functions[endpoint]
    taken = signature(show).parameters
    return make_response(
        show(**{name: value for name, value in arguments.items() if name in taken})
    )


def _says(answer: Response, error: WorkshopError) -> bool:
    return str(escape(str(error))) in answer.get_data(as_text=True)
