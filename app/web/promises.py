"""Promises to viewers: in the out section, and all of a series on one page."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from app.core.errors import WorkshopError
from app.services import episodes, promises
from app.services.episodes import EpisodeView
from app.services.promises import PromiseTyped
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode

bp = Blueprint("promises", __name__)
OF_EPISODE = "/series/<slug>/<int:number>/promises"
OF_SERIES = "/series/<slug>/promises"


def section(episode: EpisodeView) -> dict[str, object]:
    """What this episode promised, keeps and could keep."""
    told = promises.of_episode(here.workspace(), episode.id, here.today())
    return {"promises": told}


@bp.get(OF_SERIES)
def show(slug: str) -> str:
    """Every promise of a series, the open ones first."""
    told = promises.of_series(here.workspace(), slug, here.today())
    return render_template("promises.html", promises=told)


@bp.post(OF_EPISODE)
@mends("episodes.show")
def record(slug: str, number: int) -> Response:
    """Note what viewers were told."""
    episode = episodes.find(here.workspace(), slug, number)
    promises.record(here.workspace(), episode.id, _typed())
    return to_episode(slug, number, "promises")


@bp.post(f"{OF_EPISODE}/<int:promise_id>/kept-here")
@mends("episodes.show")
def keep_here(slug: str, number: int, promise_id: int) -> Response:
    """This episode keeps what another promised."""
    episode = episodes.find(here.workspace(), slug, number)
    promises.check_told(here.workspace(), slug, promise_id)
    how = request.form.get("how", "")
    promises.keep(here.workspace(), promise_id, episode.id, how, sent_version())
    return to_episode(slug, number, "promises")


@bp.post(f"{OF_SERIES}/<int:promise_id>")
@mends("promises.show")
def edit(slug: str, promise_id: int) -> Response:
    """Change its words, time or date."""
    promises.check_told(here.workspace(), slug, promise_id)
    promises.edit(here.workspace(), promise_id, _typed(), sent_version())
    return _to_series(slug)


@bp.post(f"{OF_SERIES}/<int:promise_id>/keep")
@mends("promises.show")
def keep(slug: str, promise_id: int) -> Response:
    """Say which episode keeps it."""
    promises.check_told(here.workspace(), slug, promise_id)
    form = request.form
    chosen = form.get("in_episode", "")
    if not (chosen.isdecimal() and chosen.isascii() and len(chosen) < 10):
        raise WorkshopError("Choose the part that keeps it.", input="in_episode")
    how = form.get("how", "")
    promises.keep(here.workspace(), promise_id, int(chosen), how, sent_version())
    return _to_series(slug)


@bp.post(f"{OF_SERIES}/<int:promise_id>/reopen")
@mends("promises.show")
def reopen(slug: str, promise_id: int) -> Response:
    """It is not kept after all."""
    promises.check_told(here.workspace(), slug, promise_id)
    promises.reopen(here.workspace(), promise_id, sent_version())
    return _to_series(slug)


@bp.post(f"{OF_SERIES}/<int:promise_id>/remove")
@mends("promises.show")
def remove(slug: str, promise_id: int) -> Response:
    """It was never said."""
    promises.check_told(here.workspace(), slug, promise_id)
    promises.remove(here.workspace(), promise_id, sent_version())
    return _to_series(slug)


def _typed() -> PromiseTyped:
    form = request.form
    return PromiseTyped(form.get("text", ""), form.get("at", ""), form.get("due", ""))


def _to_series(slug: str) -> Response:
    return redirect(url_for("promises.show", slug=slug), 303)
