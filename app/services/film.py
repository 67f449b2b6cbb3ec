"""The final cut: its length and its captions, with its chapters beside them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from app.core.captions import read_captions
from app.core.chapters import faults
from app.core.cue import Captions, Remark
from app.core.errors import NotFound, WorkshopError
from app.core.film_time import film_time, read_film_time
from app.services import chapters, episodes
from app.services.chapters import ChapterView, Suggestion
from app.services.photos import shown_name
from app.store import files
from app.store import log as store
from app.store.edits import check_version
from app.store.schema import CaptionsRow, Episode
from app.store.workspace import Workspace


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
        found = chapters.within(work, episode_id)
        row = store.captions(work, episode_id)
        starts = [chapter.start_ms for chapter in found]
        return FilmView(
            version=episode.version,
            video_url=episode.video_url,
            length_ms=episode.length_ms,
            captions=None if row is None else _captions(workspace, row),
            chapters=found,
            faults=faults(starts, episode.length_ms),
            suggestions=chapters.suggestions(work, episode_id, starts),
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
