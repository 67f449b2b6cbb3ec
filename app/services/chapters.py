"""Chapters of the final cut: typed, or taken from the log's times."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.core.film_time import film_time, read_film_time
from app.core.plain_text import check_length, is_blank
from app.services import episodes
from app.store import log as store
from app.store.edits import check_version
from app.store.schema import Chapter, Note, StepRow
from app.store.workspace import Workspace

LONGEST_TITLE = 100  # characters; common practice, from memory


@dataclass(frozen=True, slots=True)
class ChapterView:
    """A named point in the final cut."""

    id: int
    version: int
    start_ms: int
    title: str

    @property
    def at(self) -> str:
        """Its start as typed."""
        return film_time(self.start_ms)


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A chapter that the log offers; ``key`` names it in the form."""

    key: str
    start_ms: int
    title: str


def within(work: Session, episode_id: int) -> tuple[ChapterView, ...]:
    """An episode's chapters in the order of the film."""
    return tuple(
        ChapterView(row.id, row.version, row.start_ms, row.title)
        for row in store.chapters(work, episode_id)
    )


def add(workspace: Workspace, slug: str, number: int, at: str, title: str) -> int:
    """Add a chapter; gives its id."""
    start_ms, title = _read_chapter(at, title)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        _refuse_taken(work, episode.id, start_ms)
        chapter = Chapter(episode_id=episode.id, start_ms=start_ms, title=title)
        work.add(chapter)
        work.flush()
        return chapter.id


def save(
    workspace: Workspace,
    slug: str,
    number: int,
    chapter_id: int,
    version: int,
    at: str,
    title: str,
) -> None:
    """Change a chapter's start or title."""
    start_ms, title = _read_chapter(at, title)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        row = store.own(work, Chapter, episode.id, chapter_id, "The chapter")
        stored = {"at": film_time(row.start_ms), "title": row.title}
        check_version(row, version, "The chapter", stored)
        _refuse_taken(work, episode.id, start_ms, besides=row.id)
        row.start_ms, row.title = start_ms, title


def remove(workspace: Workspace, slug: str, number: int, chapter_id: int) -> None:
    """Take a chapter out."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        work.delete(store.own(work, Chapter, episode.id, chapter_id, "The chapter"))


def take_from_log(workspace: Workspace, slug: str, number: int, keys: list[str]) -> int:
    """Make chapters of the suggestions chosen by ``key``; gives how many."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        starts = [row.start_ms for row in store.chapters(work, episode.id)]
        offered = suggestions(work, episode.id, starts)
        chosen = [item for item in offered if item.key in keys]
        if not chosen:
            raise WorkshopError("None is ticked. Tick what is to become a chapter.")
        for item in chosen:
            work.add(
                Chapter(episode_id=episode.id, start_ms=item.start_ms, title=item.title)
            )
        return len(chosen)


def suggestions(
    work: Session, episode_id: int, starts_ms: list[int]
) -> tuple[Suggestion, ...]:
    """What the log offers as chapters, at times where none is yet."""
    steps = {row.id: row for row in store.steps(work, episode_id)}
    timed = [row for row in store.notes(work, episode_id) if row.video_ms is not None]
    found: dict[int, Suggestion] = {}
    for note in sorted(timed, key=lambda row: (row.video_ms or 0, row.id)):
        at = (note.video_ms or 0) // 1000 * 1000
        title = _title(note, steps)
        found.setdefault(at, Suggestion(f"note-{note.id}", at, title))
    if found or starts_ms:
        # Players want a list that starts at the beginning.
        found.setdefault(0, Suggestion("opening", 0, "Opening"))
    there = {start // 1000 * 1000 for start in starts_ms}
    return tuple(found[at] for at in sorted(found) if at not in there)


def _title(note: Note, steps: dict[int, StepRow]) -> str:
    if note.step_id is not None:
        return _short(steps[note.step_id].name)
    words = note.text.strip().partition("\n")[0].strip("#>*-_` ")
    return _short(words.partition(". ")[0].rstrip(".")) or "Note"


def _short(words: str) -> str:
    line = " ".join(words.split())
    return line if len(line) <= 60 else line[:60].rpartition(" ")[0] + "…"


def _read_chapter(at: str, title: str) -> tuple[int, str]:
    start_ms = read_film_time(at, input="at")
    title = " ".join(title.split())
    if start_ms is None:
        raise WorkshopError("The chapter has no time. Type it like 2:30.", input="at")
    if is_blank(title):
        raise WorkshopError(
            "The chapter has no title. Say in a few words what is shown.",
            input="title",
        )
    check_length(title, LONGEST_TITLE, "The title", input="title")
    return start_ms, title


def _refuse_taken(
    work: Session, episode_id: int, start_ms: int, besides: int = 0
) -> None:
    query = select(Chapter).where(
        Chapter.episode_id == episode_id, Chapter.start_ms == start_ms
    )
    there = work.scalar(query)
    if there is not None and there.id != besides:
        raise WorkshopError(
            f"There is a chapter at {film_time(start_ms)} already, “{there.title}”. "
            "Give this one another time, or change that one.",
            input="at",
        )
