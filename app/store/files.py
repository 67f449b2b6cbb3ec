"""Photos and captions in the data folder, each under the hash of its content.

A file is on disk and synced before the row that names it commits, so a row
never names what a power cut took away. The reverse, a file that no row names,
does no harm; ``sweep`` lists those.
"""

from __future__ import annotations

import os
import re
import tempfile
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from sqlalchemy import Text, cast, select
from sqlalchemy.orm import Session

from app.core.errors import NotFound
from app.store.schema import CaptionsRow, Photo, Publication
from app.store.trouble import in_words

FILES = "files"
DIGEST = re.compile(r"[0-9a-f]{64}")
UNFINISHED = ".unfinished-"


def put(folder: Path, data: bytes) -> str:
    """Keep ``data`` in the data folder; gives its SHA-256, in hex.

    Raises WorkshopError where the disk is full or refuses; nothing half-written
    stays behind.
    """
    name = digest(data)
    with in_words(folder):
        _put(path(folder, name), data)
    return name


def digest(data: bytes) -> str:
    """The name that ``data`` is kept under: its SHA-256, in hex."""
    return sha256(data).hexdigest()


def path(folder: Path, name: str) -> Path:
    """Where the content with this hash lies, whether or not it is there."""
    if not DIGEST.fullmatch(name):
        raise NotFound("There is no file of that name in this workspace.")
    return folder / FILES / name[:2] / name


def read(folder: Path, name: str) -> bytes:
    """The content with this hash; NotFound where it is missing or damaged."""
    try:
        data = path(folder, name).read_bytes()
    except OSError as error:
        raise NotFound(
            f"The file {name[:12]}… is missing from the data folder. "
            "Bring it back from a backup."
        ) from error
    if digest(data) != name:
        raise NotFound(
            f"The file {name[:12]}… in the data folder is damaged. "
            "Bring it back from a backup."
        )
    return data


def named(work: Session) -> frozenset[str]:
    """Every hash that a row names, frozen publications included."""
    columns = (
        Photo.sha256,
        Photo.web_sha256,
        Photo.thumb_sha256,
        CaptionsRow.sha256,
    )
    found: set[str] = set()
    for column in columns:
        found.update(work.scalars(select(column)))
    for sheet in work.scalars(select(cast(Publication.sheet, Text))):
        found.update(DIGEST.findall(sheet))
    return frozenset(found)


def sweep(work: Session, folder: Path) -> tuple[Path, ...]:
    """Files that no row names, and what an interrupted write left; in order.

    Deletes nothing: a photo that is being uploaded this moment is on disk
    before its row, so the caller decides how old is old enough.
    """
    known = named(work)
    lying = (item for item in (folder / FILES).rglob("*") if item.is_file())
    return tuple(sorted(item for item in lying if item.name not in known))


def _put(target: Path, data: bytes) -> None:
    if target.is_file() and target.read_bytes() == data:
        return
    _make_folder(target.parent)
    handle, name = tempfile.mkstemp(prefix=UNFINISHED, dir=target.parent)
    unfinished = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        unfinished.replace(target)
    except BaseException:
        with suppress(OSError):
            unfinished.unlink()
        raise
    _sync_folder(target.parent)


def _make_folder(folder: Path) -> None:
    if folder.is_dir():
        return
    _make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    _sync_folder(folder.parent)


def _sync_folder(folder: Path) -> None:
    # A rename lasts only once the folder that lists it is on disk too. Windows
    # cannot open a folder; there the rename is all that can be asked for.
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
