"""Answering with a page or a part of one; the only place that knows htmx."""

from __future__ import annotations

from flask import Response, make_response, render_template, request


def page(whole: str, *, partial: str, into: str = "", **facts: object) -> Response:
    """Answer an htmx swap with the partial, anything else with the whole page.

    ``into`` names the element to fill, when it is not the one that asked.
    """
    template = partial if wants_partial() else whole
    response = make_response(render_template(template, **facts))
    response.vary.add("HX-Request")
    if into:
        response.headers["HX-Retarget"] = into
        response.headers["HX-Reswap"] = "innerHTML"
    return response


def wants_partial() -> bool:
    """Whether htmx asks for a piece to swap in."""
    # Boosted links and the back button speak htmx, yet need a whole page.
    sent = request.headers
    whole = "HX-Boosted" in sent or "HX-History-Restore-Request" in sent
    return "HX-Request" in sent and not whole
