"""Answering with a page or a part of one; the only place that knows htmx."""

from __future__ import annotations

import json

from flask import (
    Blueprint,
    Response,
    make_response,
    redirect,
    render_template,
    request,
    url_for,
)
from werkzeug.wrappers import Response as AnyResponse

bp = Blueprint("pages", __name__)


def page(
    whole: str, *, partial: str, into: str = "", stays: bool = False, **facts: object
) -> Response:
    """Answer an htmx swap with the partial, anything else with the whole page.

    ``into`` names the element to fill, when it is not the one that asked.
    ``stays``: htmx leaves the page as it is, even where it asked for a whole one.
    """
    parted = wants_partial() or (stays and "HX-Request" in request.headers)
    facts["parted"] = parted
    response = make_response(render_template(partial if parted else whole, **facts))
    response.vary.add("HX-Request")
    if into and parted:
        response.headers["HX-Retarget"] = into
        response.headers["HX-Reswap"] = "innerHTML show:window:top"
    return response


def wants_partial() -> bool:
    """Whether htmx asks for a piece to swap in."""
    # Boosted links and the back button speak htmx, yet need a whole page.
    sent = request.headers
    whole = "HX-Boosted" in sent or "HX-History-Restore-Request" in sent
    return "HX-Request" in sent and not whole


def to_episode(slug: str, number: int, place: str | None = None) -> AnyResponse:
    """Go on to an episode's page; ``place`` is the id of what was changed there."""
    shown = url_for("episodes.show", slug=slug, number=number, _anchor=place)
    return redirect(shown, 303)


@bp.after_app_request
def keep_the_place(answer: Response) -> Response:
    """Keep the address and the place on the page as without script."""
    if "HX-Request" not in request.headers:
        return answer
    if answer.status_code >= 400:
        # A refused form stays on its page: its own address only takes posts.
        answer.headers["HX-Push-Url"] = "false"
    if answer.status_code in (302, 303) and "#" in answer.location:
        return _to_place(answer)
    return answer


def _to_place(answer: Response) -> Response:
    # A browser drops the place after # when it follows a redirect for a script.
    there = {
        "path": answer.location,
        "target": "body",
        "swap": "innerHTML",
        "headers": {"HX-Boosted": "true"},
    }
    answer.headers["HX-Location"] = json.dumps(there)
    del answer.headers["Location"]
    answer.status_code = 204
    answer.data = b""
    return answer
