"""Notes: the dated entries of the build log."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.core.errors import WorkshopError
from app.core.film_time import film_time, read_film_time
from app.core.plain_text import check_length, is_blank
from app.services import episodes, log, settings
from app.store import log as store
from app.store.edits import check_version
from app.store.schema import Note
from app.store.workspace import Workspace

LONGEST = 20_000  # characters


@dataclass(frozen=True, slots=True)
class NoteTyped:
    """A note as typed: its text, the id of its step or nothing, the film's time."""

    text: str
    step: str = ""
    at: str = ""


def add(
    workspace: Workspace, slug: str, number: int, typed: NoteTyped, now: datetime
) -> int:
    """Write a note into the log; gives its id."""
    text, video_ms = _read(typed)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        note = Note(
            episode_id=episode.id,
            step_id=log.read_step(work, episode.id, typed.step),
            noted_at=now,
            zone=settings.within(work).zone,
            text=text,
            video_ms=video_ms,
        )
        work.add(note)
        work.flush()
        return note.id


def save(
    workspace: Workspace,
    slug: str,
    number: int,
    note_id: int,
    version: int,
    typed: NoteTyped,
) -> None:
    """Change a note. StaleEdit where it was changed since the page was opened."""
    text, video_ms = _read(typed)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        row = store.own(work, Note, episode.id, note_id, "The note")
        check_version(row, version, "The note", _as_typed(row))
        row.text, row.video_ms = text, video_ms
        row.step_id = log.read_step(work, episode.id, typed.step)


def remove(
    workspace: Workspace, slug: str, number: int, note_id: int, version: int
) -> None:
    """Take a note out of the log. StaleEdit where it says something new by now."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        row = store.own(work, Note, episode.id, note_id, "The note")
        check_version(row, version, "The note", _as_typed(row))
        work.delete(row)


def _read(typed: NoteTyped) -> tuple[str, int | None]:
    text = typed.text.replace("\r\n", "\n").strip()
    if is_blank(text):
        raise WorkshopError("The note is empty. Write what happened.", input="text")
    check_length(text, LONGEST, "The note", input="text", hint="Make two of it.")
    return text, read_film_time(typed.at, input="at")


def _as_typed(row: Note) -> dict[str, str]:
    return {
        "text": row.text,
        "step": "" if row.step_id is None else str(row.step_id),
        "at": "" if row.video_ms is None else film_time(row.video_ms),
    }
