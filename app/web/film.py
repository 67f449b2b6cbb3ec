"""The film: its length, its captions, its chapters."""

from __future__ import annotations

from io import BytesIO

from flask import Blueprint, request, send_file
from werkzeug.wrappers import Response

from app.core.captions import LARGEST, not_captions
from app.services import chapters, film
from app.services.episodes import EpisodeView
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode
from app.web.security import takes_up_to

bp = Blueprint("film", __name__)
EPISODE = "/series/<slug>/<int:number>"


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the film section."""
    return {"film": film.show(here.workspace(), episode.id)}


@bp.post(f"{EPISODE}/film")
@mends("episodes.show")
def save_length(slug: str, number: int) -> Response:
    """Say how long the film is."""
    length = request.form.get("length", "")
    film.save_length(here.workspace(), slug, number, sent_version(), length)
    return to_episode(slug, number, "film")


@bp.post(f"{EPISODE}/captions")
@mends("episodes.show")
@takes_up_to(2 * LARGEST)
def put_captions(slug: str, number: int) -> Response:
    """Keep the captions of the final cut."""
    sent = request.files.get("captions")
    if sent is None or not sent.filename:
        raise not_captions("No file was chosen. Choose the captions of the final cut.")
    data = sent.stream.read(LARGEST + 1)
    film.put_captions(here.workspace(), slug, number, sent.filename, data, here.now())
    return to_episode(slug, number, "captions")


@bp.post(f"{EPISODE}/captions/remove")
@mends("episodes.show")
def remove_captions(slug: str, number: int) -> Response:
    """Take the captions out."""
    film.remove_captions(here.workspace(), slug, number, sent_version())
    return to_episode(slug, number, "captions")


@bp.get(f"{EPISODE}/captions")
def captions(slug: str, number: int) -> Response:
    """The captions as they came."""
    data, name = film.captions_file(here.workspace(), slug, number)
    answer = send_file(
        BytesIO(data),
        mimetype="application/octet-stream",
        download_name=name,
        as_attachment=True,
    )
    answer.cache_control.private = True
    answer.headers["Content-Security-Policy"] = "sandbox"
    return answer


@bp.post(f"{EPISODE}/chapters")
@mends("episodes.show")
def add_chapter(slug: str, number: int) -> Response:
    """Add a chapter."""
    chapters.add(here.workspace(), slug, number, *_chapter())
    return to_episode(slug, number, "chapters")


@bp.post(f"{EPISODE}/chapters/take")
@mends("episodes.show")
def take_from_log(slug: str, number: int) -> Response:
    """Make chapters of what the log offers."""
    keys = request.form.getlist("take")
    chapters.take_from_log(here.workspace(), slug, number, keys)
    return to_episode(slug, number, "chapters")


@bp.post(f"{EPISODE}/chapters/<int:chapter_id>")
@mends("episodes.show")
def save_chapter(slug: str, number: int, chapter_id: int) -> Response:
    """Change a chapter."""
    version = sent_version()
    chapters.save(here.workspace(), slug, number, chapter_id, version, *_chapter())
    return to_episode(slug, number, "chapters")


@bp.post(f"{EPISODE}/chapters/<int:chapter_id>/remove")
@mends("episodes.show")
def remove_chapter(slug: str, number: int, chapter_id: int) -> Response:
    """Take a chapter out."""
    chapters.remove(here.workspace(), slug, number, chapter_id)
    return to_episode(slug, number, "chapters")


def _chapter() -> tuple[str, str]:
    return request.form.get("at", ""), request.form.get("title", "")
