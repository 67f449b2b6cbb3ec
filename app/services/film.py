"""The final cut: its length, its captions, its chapters."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.captions import read_captions
from app.core.chapters import faults
from app.core.cue import Captions, Remark
from app.core.errors import NotFound, WorkshopError
from app.core.film_time import film_time, read_film_time
from app.services import episodes
from app.services.photos import shown_name
from app.store import files
from app.store import log as store
from app.store.edits import check_version
from app.store.schema import CaptionsRow, Chapter, Episode, Note, StepRow
from app.store.workspace import Workspace

LONGEST_TITLE = 100  # characters; common practice, from memory


@dataclass(frozen=True, slots=True)
class CaptionsView:
    """The captions and what was found on reading them; ``trouble``: why not."""

    version: int
    name: str
    cues: int
    added_at: datetime
    format: str
    first: str
    skipped: tuple[Remark, ...]
    warnings: tuple[Remark, ...]
    trouble: str = ""


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


@dataclass(frozen=True, slots=True)
class FilmView:
    """All about an episode's film. ``faults``: what players would not take."""

    version: int
    video_url: str
    length_ms: int | None
    captions: CaptionsView | None
    chapters: tuple[ChapterView, ...]
    faults: tuple[str, ...]
    suggestions: tuple[Suggestion, ...]

    @property
    def length(self) -> str:
        """The film's length as typed."""
        return "" if self.length_ms is None else film_time(self.length_ms)


def show(workspace: Workspace, episode_id: int) -> FilmView:
    """The film of an episode as its page shows it."""
    with workspace.read() as work:
        episode = work.get_one(Episode, episode_id)
        chapters = store.chapters(work, episode_id)
        row = store.captions(work, episode_id)
        starts = [chapter.start_ms for chapter in chapters]
        return FilmView(
            version=episode.version,
            video_url=episode.video_url,
            length_ms=episode.length_ms,
            captions=None if row is None else _captions(workspace, row),
            chapters=tuple(
                ChapterView(item.id, item.version, item.start_ms, item.title)
                for item in chapters
            ),
            faults=faults(starts, episode.length_ms),
            suggestions=_suggestions(work, episode_id, starts),
        )


def save_length(
    workspace: Workspace, slug: str, number: int, version: int, length: str
) -> None:
    """Say how long the film is, ``m:ss``; nothing typed: not known yet."""
    length_ms = read_film_time(length, input="length")
    if length_ms == 0:
        raise WorkshopError(
            "A film of 0:00 has nothing to show. Type its length like 14:05.",
            input="length",
        )
    with workspace.write() as work:
        row = episodes.within(work, slug, number)
        stored = "" if row.length_ms is None else film_time(row.length_ms)
        check_version(row, version, "The film", {"length": stored})
        row.length_ms = length_ms


def put_captions(
    workspace: Workspace, slug: str, number: int, name: str, data: bytes, now: datetime
) -> None:
    """Keep the captions in the format they came in, in place of any before."""
    found = read_captions(data, name)
    digest = files.put(workspace.folder, data)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        row = store.captions(work, episode.id)
        if row is None:
            row = CaptionsRow(episode_id=episode.id, version=0)
            work.add(row)
        row.sha256, row.name, row.cues = digest, shown_name(name), len(found.cues)
        row.added_at, row.version = now, row.version + 1


def remove_captions(workspace: Workspace, slug: str, number: int, version: int) -> None:
    """Take the captions out. StaleEdit where others were put in meanwhile."""
    with workspace.write() as work:
        row = _stored_captions(work, slug, number)
        check_version(row, version, "The captions", {"name": row.name})
        work.delete(row)


def captions_file(workspace: Workspace, slug: str, number: int) -> tuple[bytes, str]:
    """The captions as they came, and their name."""
    with workspace.read() as work:
        row = _stored_captions(work, slug, number)
        return files.read(workspace.folder, row.sha256), row.name


def add_chapter(
    workspace: Workspace, slug: str, number: int, at: str, title: str
) -> int:
    """Add a chapter; gives its id."""
    start_ms, title = _read_chapter(at, title)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        _refuse_taken(work, episode.id, start_ms)
        chapter = Chapter(episode_id=episode.id, start_ms=start_ms, title=title)
        work.add(chapter)
        work.flush()
        return chapter.id


def save_chapter(
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


def remove_chapter(
    workspace: Workspace, slug: str, number: int, chapter_id: int
) -> None:
    """Take a chapter out."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        work.delete(store.own(work, Chapter, episode.id, chapter_id, "The chapter"))


def take_from_log(workspace: Workspace, slug: str, number: int, keys: list[str]) -> int:
    """Make chapters of the suggestions chosen by ``key``; gives how many."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        starts = [row.start_ms for row in store.chapters(work, episode.id)]
        offered = _suggestions(work, episode.id, starts)
        chosen = [item for item in offered if item.key in keys]
        if not chosen:
            raise WorkshopError("None is ticked. Tick what is to become a chapter.")
        for item in chosen:
            work.add(
                Chapter(episode_id=episode.id, start_ms=item.start_ms, title=item.title)
            )
        return len(chosen)


def _captions(workspace: Workspace, row: CaptionsRow) -> CaptionsView:
    trouble, found = "", Captions("", ())
    try:
        found = read_captions(files.read(workspace.folder, row.sha256), row.name)
    except (NotFound, WorkshopError) as error:
        # The rest of the page does not depend on this file.
        trouble = str(error)
    return CaptionsView(
        version=row.version,
        name=row.name,
        cues=row.cues,
        added_at=row.added_at,
        format=found.format,
        first=" ".join(found.cues[0].text.split()) if found.cues else "",
        skipped=found.skipped,
        warnings=found.warnings,
        trouble=trouble,
    )


def _stored_captions(work: Session, slug: str, number: int) -> CaptionsRow:
    row = store.captions(work, episodes.within(work, slug, number).id)
    if row is None:
        raise NotFound("This part has no captions.")
    return row


def _suggestions(
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
    if not title:
        raise WorkshopError(
            "The chapter has no title. Say in a few words what is shown.",
            input="title",
        )
    if len(title) > LONGEST_TITLE:
        raise WorkshopError(
            f"The title has {len(title)} characters; {LONGEST_TITLE} is the most.",
            input="title",
        )
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
