"""Series in and out of the workspace as open files."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

from app.publish import archive
from app.services.files_in import Incoming, Progress
from app.services.files_out import Outgoing
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class Imported:
    """What was brought in."""

    slug: str
    title: str
    episodes: int


def _quiet(_done: int, _total: int, _words: str) -> None:
    return None


def look(workspace: Workspace, source: Path | bytes, slug: str = "") -> str:
    """The title of the series in a folder or zip, before it is brought in.

    Raises WorkshopError where it is plain already that it cannot come in.
    """
    with archive.reading(source) as opened:
        return Incoming(workspace, opened, _quiet, slug).look()


def import_series(
    workspace: Workspace,
    source: Path | bytes,
    progress: Progress = _quiet,
    slug: str = "",
) -> Imported:
    """Bring in a series folder or its zip, whole or not at all.

    ``slug`` gives it another address than its own. ``progress`` hears how many
    of how many photos are done. Raises WorkshopError naming the file and the
    place in it; then nothing is changed.
    """
    with archive.reading(source) as opened:
        return Imported(*Incoming(workspace, opened, progress, slug).run())


def export_series(
    workspace: Workspace, slug: str, to: Path, *, originals: bool = False
) -> Path:
    """Write a series to a new folder, or a new zip where ``to`` ends in ``.zip``.

    Photos are cleaned of place and serial numbers unless ``originals``. What
    was exported, brought in and exported again has the same bytes. Raises
    NotFound, and WorkshopError where something stands at ``to``.
    """
    with workspace.read() as work, archive.writing(to) as target:
        Outgoing(work, workspace.folder, target, originals).write(slug)
    return to


def zipped_series(workspace: Workspace, slug: str, *, originals: bool = False) -> bytes:
    """A series as the bytes of a zip, to send to a browser."""
    with tempfile.TemporaryDirectory() as scratch:
        to = export_series(
            workspace, slug, Path(scratch) / "series.zip", originals=originals
        )
        return to.read_bytes()
