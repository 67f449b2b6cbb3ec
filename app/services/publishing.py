"""Publishing: the pack of an episode, its frozen revisions, what changed since."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path

from sqlalchemy.orm import Session

from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.core.finding import Finding
from app.core.hosts import BEFORE_THE_FOLD
from app.publish import description, pack
from app.publish.description import Edit, Written, digest
from app.publish.difference import Changed, difference
from app.publish.sheet import Sheet, from_json, to_json
from app.services import episodes, gathering, used
from app.services.used import UsedView
from app.store import files
from app.store import publishing as store
from app.store.edits import check_version
from app.store.schema import EditedBlock, Publication
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class BlockView:
    """A block to copy or edit. ``version`` 0: no words of the maker's yet."""

    written: Written
    version: int
    facts: str


@dataclass(frozen=True, slots=True)
class FileView:
    """One file of the pack."""

    name: str
    title: str
    private: bool


@dataclass(frozen=True, slots=True)
class RevisionView:
    """One frozen revision."""

    number: int
    frozen_at: datetime
    zone: str


@dataclass(frozen=True, slots=True)
class OutView:
    """The out section. ``changes``: against the latest frozen revision."""

    sheet: Sheet
    blocks: tuple[BlockView, ...]
    missing: tuple[Finding, ...]
    fold: str
    files: tuple[FileView, ...]
    revisions: tuple[RevisionView, ...]
    changes: tuple[Changed, ...]
    used: tuple[UsedView, ...]

    @property
    def next_revision(self) -> int:
        """The number that freezing now would give."""
        return self.revisions[0].number + 1 if self.revisions else 1


def sheet(workspace: Workspace, episode_id: int, on: date | None) -> Sheet:
    """The present state as a sheet dated ``on``."""
    with workspace.read() as work:
        return gathering.sheet(work, episode_id, on)


def show(workspace: Workspace, episode_id: int, on: date) -> OutView:
    """Everything the out section shows."""
    with workspace.read() as work:
        gathered = gathering.gather(work, episode_id, on)
        now = gathered.sheet
        frozen = store.revisions(work, episode_id)
        latest = from_json(frozen[0].sheet) if frozen else None
        return OutView(
            sheet=now,
            blocks=_blocks(work, episode_id, now),
            missing=gathered.findings,
            fold=now.description[:BEFORE_THE_FOLD],
            files=_files(),
            revisions=tuple(
                RevisionView(row.revision, row.frozen_at, row.zone) for row in frozen
            ),
            changes=difference(latest, now) if latest else (),
            used=used.within(work, episode_id),
        )


def _blocks(work: Session, episode_id: int, now: Sheet) -> tuple[BlockView, ...]:
    rows = store.edited(work, episode_id)
    edits = {key: Edit(row.text, row.facts) for key, row in rows.items()}
    return tuple(
        BlockView(
            item,
            rows[item.key].version if item.key in rows else 0,
            digest(item.computed),
        )
        for item in description.written(now, edits)
    )


def _files() -> tuple[FileView, ...]:
    return tuple(
        FileView(name, module.TITLE, name.startswith("private/"))
        for name, module in pack.exporters().items()
    )


def edit_block(
    workspace: Workspace,
    episode_id: int,
    key: str,
    text: str,
    version: int,
    facts: str = "",
) -> None:
    """Keep a block in the maker's words.

    ``version`` is 0 where the maker saw the computed text; ``facts`` is the digest
    of the computed text that was on the page. Raises StaleEdit after another save.
    """
    words = text.replace("\r\n", "\n").strip()
    with workspace.write() as work:
        row = _block(work, episode_id, key, version)
        seen = facts or digest(_computed(work, episode_id, key))
        if row is None:
            row = EditedBlock(episode_id=episode_id, key=key)
            work.add(row)
        row.text, row.facts = words, seen


def restore_block(
    workspace: Workspace, episode_id: int, key: str, version: int
) -> None:
    """Go back to the computed text."""
    with workspace.write() as work:
        row = _block(work, episode_id, key, version)
        if row is not None:
            work.delete(row)


def _block(
    work: Session, episode_id: int, key: str, version: int
) -> EditedBlock | None:
    if key not in description.TITLES:
        raise NotFound(f"A description has no block “{key}”.")
    row = store.edited(work, episode_id).get(key)
    if row is None:
        if version:
            stored = {"text": _computed(work, episode_id, key), "version": "0"}
            raise StaleEdit("This block", stored)
        return None
    check_version(row, version, "This block", {"text": row.text})
    return row


def _computed(work: Session, episode_id: int, key: str) -> str:
    return description.computed(key, gathering.sheet(work, episode_id, None))


def freeze(
    workspace: Workspace, episode_id: int, on: date, now: datetime, zone: str = "UTC"
) -> int:
    """Freeze the present state as the next revision; gives its number.

    Raises WorkshopError where nothing changed since the latest one.
    """
    with workspace.write() as work:
        rows = store.revisions(work, episode_id)
        made = gathering.sheet(work, episode_id, on)
        if rows and _same(from_json(rows[0].sheet), made):
            raise WorkshopError(
                f"Nothing has changed since revision {rows[0].revision} was frozen; "
                "it stands as it is."
            )
        number = rows[0].revision + 1 if rows else 1
        work.add(
            Publication(
                episode_id=episode_id,
                revision=number,
                frozen_at=now,
                zone=zone,
                sheet=to_json(replace(made, revision=number)),
            )
        )
        return number


def _same(before: Sheet, after: Sheet) -> bool:
    return replace(before, date="", revision=0) == replace(after, date="", revision=0)


def chosen(
    workspace: Workspace, episode_id: int, revision: int | None, on: date | None
) -> Sheet:
    """A frozen revision, or with None the present state."""
    with workspace.read() as work:
        if revision is None:
            return gathering.sheet(work, episode_id, on)
        for row in store.revisions(work, episode_id):
            if row.revision == revision:
                return from_json(row.sheet)
    raise NotFound(f"Revision {revision} was never frozen.")


def photo_bytes(workspace: Workspace, made: Sheet) -> dict[str, bytes]:
    """The cleaned photos that a sheet names, by file name."""
    return {
        line.file: files.read(workspace.folder, line.sha256) for line in made.photos
    }


def file_bytes(workspace: Workspace, made: Sheet, name: str) -> bytes:
    """One file of a sheet's pack; NotFound where it has none of that name."""
    for line in made.photos:
        if line.file == name:
            return files.read(workspace.folder, line.sha256)
    return pack.render(made, name)


def write_pack(
    workspace: Workspace,
    series_slug: str,
    number: int,
    to: Path,
    draft: bool = False,
    on: date | None = None,
) -> Sheet:
    """Write an episode's pack into a folder: whole, or not at all.

    The latest frozen revision, or with ``draft`` the present state, dated ``on``
    or else the day the episode must be out, so that the same data gives the same
    bytes. Gives the sheet it wrote. Raises WorkshopError where nothing is frozen
    yet, or the folder holds something else. Works beside a running server.
    """
    episode = episodes.find(workspace, series_slug, number)
    if draft:
        made = sheet(workspace, episode.id, on or episode.due_on)
    else:
        made = _latest(workspace, episode.id, number)
    pack.write(pack.files(made, photo_bytes(workspace, made)), to)
    return made


def _latest(workspace: Workspace, episode_id: int, number: int) -> Sheet:
    with workspace.read() as work:
        rows = store.revisions(work, episode_id)
        if not rows:
            raise WorkshopError(
                f"Part {number} has no frozen revision yet. Freeze one on its page, "
                "or write the present state as a draft (--draft).",
                input="episode",
            )
        return from_json(rows[0].sheet)
