"""The bench: steps to tick off, notes, photos."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO

from flask import Blueprint, g, jsonify, request, send_file
from werkzeug.wrappers import Response

from app.core.errors import WorkshopError
from app.publish.pictures import LARGEST
from app.services import episodes, log, notes, photos
from app.services.episodes import EpisodeView
from app.services.log_view import LogView, StepView
from app.services.notes import NoteTyped
from app.web import here
from app.web.forms import FormState, mends, sent_version
from app.web.pages import page, to_episode, wants_partial
from app.web.security import takes_up_to

bp = Blueprint("log", __name__)
EPISODE = "/series/<slug>/<int:number>"
# Without the script all photos come in one request; each is held to its own limit.
MOST_AT_ONCE = 10 * LARGEST


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the bench section."""
    bench = log.show(here.workspace(), episode.id)
    return {"bench": bench, "bench_open": _open(bench)}


def _open(bench: LogView) -> set[int]:
    """Ids of the steps that stand open: the one in hand, and what was refused."""
    found = {bench.now.id} if bench.now else set()
    refused: FormState | None = g.get("refused")
    if refused and refused.endpoint.startswith("log."):
        found |= {
            step.id for step in bench.steps if refused.key in _keys(step, refused)
        }
    return found


def _keys(step: StepView, refused: FormState) -> set[str]:
    """Keys under which a step holds forms of the refused kind."""
    of_notes = refused.endpoint in ("log.save_note", "log.remove_note")
    of_photos = refused.endpoint in (
        "log.save_photo",
        "log.choose_cover",
        "log.remove_photo",
    )
    if of_notes:
        return {str(note.id) for note in step.notes}
    if of_photos:
        return {str(photo.id) for photo in step.photos}
    return {str(step.id)}


@bp.post(f"{EPISODE}/steps/<int:step_id>/tick")
@mends("episodes.show")
def tick(slug: str, number: int, step_id: int) -> Response:
    """Tick a step off, or undo it; where htmx asks only what changed is swapped."""
    done = request.form.get("done") == "yes"
    log.tick(here.workspace(), slug, number, step_id, done, here.now())
    episode = episodes.find(here.workspace(), slug, number)
    bench = log.show(here.workspace(), episode.id)
    ticked = bench.step(step_id)
    moved = bench.moved_by(ticked)
    if not wants_partial():
        return to_episode(
            slug, number, f"step-{moved.id if done and moved else step_id}"
        )
    return page(
        "_bench_ticked.html",
        partial="_bench_ticked.html",
        episode=episode,
        bench=bench,
        bench_open=_open(bench),
        ticked=ticked,
        moved=moved,
    )


@bp.post(f"{EPISODE}/steps")
@mends("episodes.show")
def add_step(slug: str, number: int) -> Response:
    """Add a step of the maker's own."""
    form = request.form
    typed = (form.get("name", ""), form.get("tool", ""), form.get("detail", ""))
    step_id = log.add_step(here.workspace(), slug, number, *typed)
    return to_episode(slug, number, f"step-{step_id}")


@bp.post(f"{EPISODE}/steps/<int:step_id>/remove")
@mends("episodes.show")
def remove_step(slug: str, number: int, step_id: int) -> Response:
    """Take out a step of the maker's own."""
    log.remove_step(here.workspace(), slug, number, step_id)
    return to_episode(slug, number, "bench")


@bp.post(f"{EPISODE}/notes")
@mends("episodes.show")
def add_note(slug: str, number: int) -> Response:
    """Write a note."""
    note_id = notes.add(here.workspace(), slug, number, _note(), here.now())
    return to_episode(slug, number, f"note-{note_id}")


@bp.post(f"{EPISODE}/notes/<int:note_id>")
@mends("episodes.show")
def save_note(slug: str, number: int, note_id: int) -> Response:
    """Change a note."""
    notes.save(here.workspace(), slug, number, note_id, sent_version(), _note())
    return to_episode(slug, number, f"note-{note_id}")


@bp.post(f"{EPISODE}/notes/<int:note_id>/remove")
@mends("episodes.show")
def remove_note(slug: str, number: int, note_id: int) -> Response:
    """Take a note out."""
    notes.remove(here.workspace(), slug, number, note_id, sent_version())
    return to_episode(slug, number, "bench")


@bp.post(f"{EPISODE}/photos")
@mends("episodes.show")
@takes_up_to(MOST_AT_ONCE)
def add_photos(slug: str, number: int) -> Response:
    """Take photos in: all at once from the form, one by one from the script."""
    step = request.form.get("step", "")
    taken = photos.take(here.workspace(), slug, number, _sent(), step, here.now())
    if request.accept_mimetypes.best == "application/json":
        return jsonify(kept=taken.kept, refusals=taken.refusals)
    if taken.refusals:
        kept = f"{taken.kept} kept. " if taken.kept else ""
        raise WorkshopError(kept + " ".join(taken.refusals), input="photos")
    if not taken.kept:
        raise WorkshopError("No photo was chosen. Choose one or more.", input="photos")
    # Inside the step, so that the browser itself opens it.
    return to_episode(slug, number, f"in-step-{step}" if step else "photos")


@bp.post(f"{EPISODE}/photos/<int:photo_id>")
@mends("episodes.show")
def save_photo(slug: str, number: int, photo_id: int) -> Response:
    """Change a photo's words and its step."""
    form = request.form
    photos.save(
        here.workspace(),
        slug,
        number,
        photo_id,
        sent_version(),
        form.get("caption", ""),
        form.get("alt", ""),
        form.get("step", ""),
    )
    return to_episode(slug, number, f"photo-{photo_id}")


@bp.post(f"{EPISODE}/photos/<int:photo_id>/cover")
@mends("episodes.show")
def choose_cover(slug: str, number: int, photo_id: int) -> Response:
    """Make a photo the episode's cover."""
    photos.choose_cover(here.workspace(), slug, number, photo_id)
    return to_episode(slug, number, f"photo-{photo_id}")


@bp.post(f"{EPISODE}/photos/<int:photo_id>/remove")
@mends("episodes.show")
def remove_photo(slug: str, number: int, photo_id: int) -> Response:
    """Take a photo out."""
    photos.remove(here.workspace(), slug, number, photo_id)
    return to_episode(slug, number, "photos")


@bp.get("/photos/<int:photo_id>/<size>")
def photo(photo_id: int, size: str) -> Response:
    """A photo's file. The original, which knows its place, only to be saved."""
    found = photos.file(here.workspace(), photo_id, size)
    answer = send_file(
        BytesIO(found.data),
        mimetype=found.content_type,
        download_name=found.name,
        as_attachment=size == photos.ORIGINAL,
        etag=found.sha256,
    )
    # Ids are given again after a removal: ask each time whether it is the same.
    answer.cache_control.private = True
    answer.cache_control.no_cache = True
    if size == photos.ORIGINAL:
        answer.headers["Content-Security-Policy"] = "sandbox"
    return answer


def _note() -> NoteTyped:
    form = request.form
    return NoteTyped(form.get("text", ""), form.get("step", ""), form.get("at", ""))


def _sent() -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each photo; no more of one than shows it is too large."""
    for sent in request.files.getlist("photos"):
        if sent.filename:
            yield sent.filename, sent.stream.read(LARGEST + 1)
