"""An episode: one page, read downwards in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from importlib.util import find_spec
from types import ModuleType

from flask import Blueprint, render_template, request
from werkzeug.wrappers import Response

from app.services import episodes
from app.services.episodes import EpisodeView
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode

bp = Blueprint("episodes", __name__)

# In the order of the work; each module's section() gives facts for its partial.
SECTIONS = (
    *("designs", "plans", "bought_boards", "glued_parts", "building"),
    *("log", "film", "publishing", "promises"),
)


@bp.get("/series/<slug>/<int:number>")
def show(slug: str, number: int) -> str:
    """The whole episode."""
    episode = episodes.find(here.workspace(), slug, number)
    return render_template("episode.html", **facts(episode))


def facts(episode: EpisodeView, names: tuple[str, ...] = SECTIONS) -> dict[str, object]:
    """What the partials of these sections show."""
    found: dict[str, object] = {"episode": episode}
    for module in _sections(names):
        found |= module.section(episode)
    return found


def _sections(names: tuple[str, ...]) -> Iterator[ModuleType]:
    for name in names:
        if find_spec(f"app.web.{name}") is None:
            continue
        module = import_module(f"app.web.{name}")
        if hasattr(module, "section"):
            yield module


@bp.post("/series/<slug>/<int:number>/head")
@mends("episodes.show")
def save_head(slug: str, number: int) -> Response:
    """Change the head: title, opening, date, link."""
    form = request.form
    episodes.save_head(
        here.workspace(),
        slug,
        number,
        sent_version(),
        form.get("title", ""),
        form.get("opening", ""),
        form.get("due_on", ""),
        form.get("video_url", ""),
    )
    return to_episode(slug, number)
