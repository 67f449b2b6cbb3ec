"""An episode's build: glueing up, planing, finishing, taking records back."""

from __future__ import annotations

from flask import Blueprint, request
from werkzeug.wrappers import Response

from app.services import building
from app.services.episodes import EpisodeView
from app.services.rack_work import Clock
from app.web import here
from app.web.forms import mends
from app.web.pages import to_episode

bp = Blueprint("building", __name__, url_prefix="/series/<slug>/<int:number>")


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the building part of the wood section."""
    return {"building": building.show(here.workspace(), episode.id)}


def _clock() -> Clock:
    return Clock(here.today(), here.now())


@bp.post("/glue/<key>")
@mends("episodes.show")
def glue_up(slug: str, number: int, key: str) -> Response:
    """Glue up panels from the strips cut for them."""
    building.glue_up(here.workspace(), slug, number, key, request.form, _clock())
    return to_episode(slug, number, "building")


@bp.post("/plane/<label>")
@mends("episodes.show")
def plane(slug: str, number: int, label: str) -> Response:
    """Plane panels down."""
    building.plane(here.workspace(), slug, number, label, request.form, _clock())
    return to_episode(slug, number, "building")


@bp.post("/built")
@mends("episodes.show")
def finish(slug: str, number: int) -> Response:
    """Record that blanks and panels became the parts."""
    building.finish(here.workspace(), slug, number, request.form, _clock())
    return to_episode(slug, number, "building")


@bp.post("/undo/<int:movement_id>")
@mends("episodes.show")
def undo(slug: str, number: int, movement_id: int) -> Response:
    """Take back a record of this part that was a mistake."""
    reason = request.form.get("reason", "")
    building.undo(here.workspace(), slug, number, movement_id, reason, _clock())
    return to_episode(slug, number, "building")
