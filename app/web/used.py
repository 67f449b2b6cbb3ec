"""Supplies and tools of an episode: in the out section's 'what was used'."""

from __future__ import annotations

from flask import Blueprint, request
from werkzeug.wrappers import Response

from app.services import episodes, used
from app.services.used import UsedTyped
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode

bp = Blueprint("used", __name__)
ITEMS = "/series/<slug>/<int:number>/used"


@bp.post(ITEMS)
@mends("episodes.show")
def add(slug: str, number: int) -> Response:
    """Note a supply or a tool."""
    episode = episodes.find(here.workspace(), slug, number)
    used.add(here.workspace(), episode.id, _typed())
    return to_episode(slug, number, "used")


@bp.post(f"{ITEMS}/<int:item_id>")
@mends("episodes.show")
def edit(slug: str, number: int, item_id: int) -> Response:
    """Change one."""
    episode = episodes.find(here.workspace(), slug, number)
    used.edit(here.workspace(), episode.id, item_id, _typed(), sent_version())
    return to_episode(slug, number, "used")


@bp.post(f"{ITEMS}/<int:item_id>/remove")
@mends("episodes.show")
def remove(slug: str, number: int, item_id: int) -> Response:
    """Take one off the list."""
    episode = episodes.find(here.workspace(), slug, number)
    used.remove(here.workspace(), episode.id, item_id, sent_version())
    return to_episode(slug, number, "used")


def _typed() -> UsedTyped:
    form = request.form
    return UsedTyped(
        kind=form.get("kind", ""),
        name=form.get("name", ""),
        quantity=form.get("quantity", ""),
        url=form.get("url", ""),
        given=bool(form.get("given")),
        cost=form.get("cost", ""),
    )
