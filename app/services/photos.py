"""Photos of the build log: taken in whole, shown without place or serial number."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.errors import NotFound, WorkshopError
from app.core.plain_text import check_length
from app.publish.pictures import CONTENT_TYPES, SUFFIXES, Picture, read_picture
from app.services import episodes, log
from app.store import files
from app.store import log as store
from app.store.edits import check_version, get
from app.store.schema import Photo
from app.store.workspace import Workspace

LONGEST_WORDS = 2_000  # characters of a caption or of the words for the blind
WEB, THUMB, ORIGINAL = "web", "thumb", "original"


@dataclass(frozen=True, slots=True)
class PhotoFile:
    """A file to send: its bytes, our own content type, a name, and its hash."""

    data: bytes
    content_type: str
    name: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of photos that were sent: how many are kept, what was not."""

    kept: int
    refusals: tuple[str, ...]


def take(
    workspace: Workspace,
    slug: str,
    number: int,
    sent: Iterable[tuple[str, bytes]],
    step: str,
    now: datetime,
) -> Taken:
    """Take photos in, each whole or not at all; ``sent`` gives name and bytes.

    One bad file does not keep the others out: its sentence is in ``refusals``.
    """
    episode_id = episodes.find(workspace, slug, number).id
    kept, refusals = 0, []
    for name, data in sent:
        try:
            add(workspace, episode_id, name, data, step, now)
            kept += 1
        except NotFound:
            raise
        except WorkshopError as refusal:
            refusals.append(str(refusal))
    return Taken(kept, tuple(refusals))


def add(
    workspace: Workspace,
    episode_id: int,
    name: str,
    data: bytes,
    step: str,
    now: datetime,
) -> int:
    """Add one photo to a log; gives its id. The same content is refused twice."""
    name = shown_name(name)
    digest = files.digest(data)
    with workspace.read() as work:
        _refuse_twice(work, episode_id, digest, name)
        log.read_step(work, episode_id, step)
    picture = read_picture(data, name)  # takes its time: no transaction is open
    for content in (data, picture.web, picture.thumb):
        files.put(workspace.folder, content)
    with workspace.write() as work:
        _refuse_twice(work, episode_id, digest, name)
        row = _row(picture, episode_id, name, digest)
        row.step_id = log.read_step(work, episode_id, step)
        row.position = store.next_position(work, Photo, episode_id)
        row.added_at = now
        work.add(row)
        work.flush()
        return row.id


def save(
    workspace: Workspace,
    slug: str,
    number: int,
    photo_id: int,
    version: int,
    caption: str,
    alt: str,
    step: str,
) -> None:
    """Change a photo's caption, its words for those who cannot see it, its step."""
    caption, alt = caption.strip(), " ".join(alt.split())
    for field, text in (("caption", caption), ("alt", alt)):
        hint = "A note has room for more."
        check_length(text, LONGEST_WORDS, "That", input=field, hint=hint)
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        row = store.own(work, Photo, episode.id, photo_id, "The photo")
        stored = {
            "caption": row.caption,
            "alt": row.alt,
            "step": "" if row.step_id is None else str(row.step_id),
        }
        check_version(row, version, "The photo", stored)
        row.caption, row.alt = caption, alt
        row.step_id = log.read_step(work, episode.id, step)


def choose_cover(workspace: Workspace, slug: str, number: int, photo_id: int) -> None:
    """Make this photo the episode's cover, in place of any other."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        store.own(work, Photo, episode.id, photo_id, "The photo")
        for row in store.photos(work, episode.id):
            row.cover = row.id == photo_id


def remove(workspace: Workspace, slug: str, number: int, photo_id: int) -> None:
    """Take a photo out of the log; what was published with it keeps its copy."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        work.delete(store.own(work, Photo, episode.id, photo_id, "The photo"))


def file(workspace: Workspace, photo_id: int, size: str) -> PhotoFile:
    """The file of a photo: ``thumb``, ``web``, or ``original`` as it came."""
    with workspace.read() as work:
        row = get(work, Photo, photo_id, "Photo")
        if size == ORIGINAL:
            digest, kind = row.sha256, row.format
        elif size in (WEB, THUMB):
            digest, kind = (row.web_sha256 if size == WEB else row.thumb_sha256), "JPEG"
        else:
            raise NotFound("A photo has the sizes thumb, web and original.")
        stem = row.name.rpartition(".")[0] or row.name or "photo"
    data = files.read(workspace.folder, digest)
    return PhotoFile(data, CONTENT_TYPES[kind], stem + SUFFIXES[kind], digest)


def _row(picture: Picture, episode_id: int, name: str, digest: str) -> Photo:
    return Photo(
        episode_id=episode_id,
        sha256=digest,
        web_sha256=files.digest(picture.web),
        thumb_sha256=files.digest(picture.thumb),
        name=name,
        format=picture.format,
        width=picture.width,
        height=picture.height,
        taken_at=picture.taken_at,
        taken_offset=picture.taken_offset,
    )


def _refuse_twice(work: Session, episode_id: int, digest: str, name: str) -> None:
    query = select(Photo.name).where(
        Photo.episode_id == episode_id, Photo.sha256 == digest
    )
    if (there := work.scalar(query)) is not None:
        raise WorkshopError(
            f"“{name}” is in this log already, as “{there}”, so it was not kept twice.",
            input="photos",
        )


def shown_name(name: str) -> str:
    """The file's own name without folders; for showing, never for opening."""
    last = name.replace("\\", "/").rpartition("/")[2]
    clean = "".join(letter for letter in last if letter.isprintable()).strip()
    return clean[-200:] or "photo"
