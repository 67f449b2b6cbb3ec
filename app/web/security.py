"""Who may talk to the server, and what every answer carries.

The server listens on this computer only, yet any web page in the maker's
browser can reach it. So: the name that was asked for must be ours (a page
elsewhere can make its own name point here), whoever writes must be one of our
own pages, and what is no page is given to our own pages only.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any, TypeVar

from flask import Blueprint, Flask, Response, abort, current_app, request
from flask.blueprints import BlueprintSetupState
from werkzeug.datastructures import Headers

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

bp = Blueprint("security", __name__)

View = TypeVar("View", bound=Callable[..., Any])

WRITING = {"POST", "PUT", "PATCH", "DELETE"}
MOST_BYTES = 2 * 1024 * 1024
MOST_TEXT_BYTES = 500_000
MOST_PARTS = 200

CONTENT_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        # Of our own: the one font family that is shipped.
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "object-src 'none'",
    )
)
CARRIED = {
    "Content-Security-Policy": CONTENT_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


def takes_up_to(most_bytes: int) -> Callable[[View], View]:
    """Let an uploading view take more than the usual request.

    The limit has to hold before the form token is read, which is before the
    view runs; so it is written on the view. Put it next to the function, under
    the route and ``mends``.
    """

    def decorate(view: View) -> View:
        view.most_bytes = most_bytes  # type: ignore[attr-defined]
        return view

    return decorate


@bp.record_once
def install(state: BlueprintSetupState) -> None:
    """Set the limits and cookies, and stand in front of the program."""
    app = state.app
    assert isinstance(app, Flask)
    port = app.config.setdefault("PORT", 80)
    app.config.update(
        TRUSTED_HOSTS=["127.0.0.1", "localhost"],
        MAX_CONTENT_LENGTH=MOST_BYTES,
        MAX_FORM_MEMORY_SIZE=MOST_TEXT_BYTES,
        MAX_FORM_PARTS=MOST_PARTS,
        # Browsers share cookies between ports: each server needs its own name.
        SESSION_COOKIE_NAME=f"stockthread_{port}",
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Strict",
        SESSION_COOKIE_PATH="/",
        # A page may lie open through a day's glue-up; the origin check stands.
        WTF_CSRF_TIME_LIMIT=None,
        WTF_CSRF_SSL_STRICT=False,
    )
    # First of all, so that nothing is read from a stranger's request.
    app.before_request_funcs.setdefault(None, []).insert(0, _check)
    app.after_request_funcs.setdefault(None, []).append(_pages_only_for_others)
    app.wsgi_app = Gate(app.wsgi_app, port)  # type: ignore[method-assign]


class Gate:
    """In front of Flask: asks for our own name, and dresses every answer."""

    def __init__(self, inside: WSGIApplication, port: int) -> None:
        self.inside = inside
        self.names = own_hosts(port)

    def __call__(
        self, environ: WSGIEnvironment, start_response: StartResponse
    ) -> Iterable[bytes]:
        """Let the request in, or answer 400."""

        def dressed(status: str, sent: list[tuple[str, str]], *more: Any) -> Any:
            headers = Headers(sent)
            for name, value in CARRIED.items():
                headers.setdefault(name, value)
            if headers.get("Content-Type", "").startswith("text/html"):
                headers["Cache-Control"] = "no-store"
            return start_response(status, headers.to_wsgi_list(), *more)

        if environ.get("HTTP_HOST") in self.names:
            return self.inside(environ, dressed)
        text = (
            "This address is not the program's own. "
            f"Open http://{self.names[0]}/ in a browser on this computer.\n"
        ).encode()
        kind = ("Content-Type", "text/plain; charset=utf-8")
        dressed("400 Bad Request", [kind, ("Content-Length", str(len(text)))])
        return [text]


def own_hosts(port: int) -> tuple[str, ...]:
    """The names the server answers to; the usual port is not written."""
    names = ("127.0.0.1", "localhost")
    with_port = tuple(f"{name}:{port}" for name in names)
    return (*names, *with_port) if port == 80 else with_port


def _check() -> None:
    view = current_app.view_functions.get(request.endpoint or "")
    if (most := getattr(view, "most_bytes", None)) is not None:
        request.max_content_length = most
    if request.method in WRITING:
        _check_writer()
    elif _from_elsewhere() and not _is_visit():
        abort(403, "Other pages may link here, but not read from here.")


def _check_writer() -> None:
    """Only our own pages write; a page on another local port is not ours."""
    site = request.headers.get("Sec-Fetch-Site")
    own = request.headers.get("Origin") == f"http://{request.host}"
    if not (site == "same-origin" if site is not None else own):
        abort(403, "The request to change something came from another page.")


def _from_elsewhere() -> bool:
    return request.headers.get("Sec-Fetch-Site") in ("cross-site", "same-site")


def _is_visit() -> bool:
    sent = request.headers
    mode, place = sent.get("Sec-Fetch-Mode"), sent.get("Sec-Fetch-Dest")
    return mode == "navigate" and place == "document"


def _pages_only_for_others(answer: Response) -> Response:
    """A link from elsewhere may open a page, not a photo, an export or data."""
    page = answer.mimetype == "text/html"
    kept = "attachment" in answer.headers.get("Content-Disposition", "")
    if request.method in WRITING or not _from_elsewhere() or (page and not kept):
        return answer
    answer.close()
    refusal = "Open this from the program's own page."
    return Response(refusal + "\n", 403, mimetype="text/plain")
