"""Parts that are glued up from strips because no board is wide enough, or cheaper."""

from __future__ import annotations

from flask import Blueprint, request
from werkzeug.wrappers import Response

from app.services import glued_parts
from app.services.episodes import EpisodeView
from app.services.rack_work import Clock
from app.web import here
from app.web.forms import mends
from app.web.pages import to_episode

bp = Blueprint("glued_parts", __name__, url_prefix="/series/<slug>/<int:number>")


def section(episode: EpisodeView) -> dict[str, object]:
    """The parts whose strips are cut."""
    return {"glued_parts": glued_parts.show(here.workspace(), episode.id)}


@bp.post("/glue-part/<key>")
@mends("episodes.show")
def glue_up(slug: str, number: int, key: str) -> Response:
    """Record that strips were glued up into their part."""
    clock = Clock(here.today(), here.now())
    glued_parts.glue_up(here.workspace(), slug, number, key, request.form, clock)
    return to_episode(slug, number, "building")
