"""What the disk and the database refuse, in words for a person."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from app.core.errors import WorkshopError, WorkspaceBusy

FULL = (errno.ENOSPC, errno.EDQUOT)
CLOSED = (errno.EACCES, errno.EPERM, errno.EROFS)


@contextmanager
def in_words(folder: Path) -> Iterator[None]:
    """Turn troubles of the disk under ``folder`` into sentences; others pass.

    By then the transaction is rolled back: nothing is half done.
    """
    try:
        yield
    except (DBAPIError, sqlite3.Error, OSError) as error:
        cause: BaseException | None = error
        if isinstance(error, DBAPIError):
            cause = error.orig
        if (sentence := _sentence(cause, folder)) is None:
            raise
        raise sentence from error


def _sentence(cause: BaseException | None, folder: Path) -> WorkshopError | None:
    if isinstance(cause, sqlite3.Error):
        return _from_database(cause, folder)
    if isinstance(cause, OSError):
        return _from_disk(cause, folder)
    return None


def _from_database(cause: sqlite3.Error, folder: Path) -> WorkshopError | None:
    # The codes are SQLite's primary result codes; extended ones hold them below.
    code = getattr(cause, "sqlite_errorcode", 0) & 0xFF
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return WorkspaceBusy(
            f"Another program is writing to {folder} at this moment. Nothing was "
            "saved. Wait until it is done and save again."
        )
    sentences = {
        sqlite3.SQLITE_FULL: f"The disk under {folder} is full. Nothing was saved and "
        "nothing is lost: make room and save again.",
        sqlite3.SQLITE_IOERR: f"The disk under {folder} failed while reading or "
        "writing. Nothing was saved. Check the disk and its free space.",
        sqlite3.SQLITE_READONLY: f"The workspace in {folder} cannot be written to. "
        "Nothing was saved. Allow writing to the folder and its files.",
        sqlite3.SQLITE_CANTOPEN: f"No workspace can be opened in {folder}. Check that "
        "the folder is there and may be read and written.",
        sqlite3.SQLITE_NOTADB: f"The database in {folder} is not a Stockthread "
        "workspace. Serve another folder, or restore a backup into a new one.",
        sqlite3.SQLITE_CORRUPT: f"The database in {folder} is damaged. Restore the "
        "latest backup into a new folder; leave this one as it is.",
    }
    return WorkshopError(sentences[code]) if code in sentences else None


def _from_disk(cause: OSError, folder: Path) -> WorkshopError | None:
    if cause.errno in FULL:
        return WorkshopError(
            f"The disk under {folder} is full. Nothing was saved and nothing is lost: "
            "make room and save again."
        )
    if cause.errno in CLOSED:
        return WorkshopError(
            f"{folder} cannot be written to. Nothing was saved. Allow writing to the "
            "folder and its files."
        )
    if cause.errno in (errno.EEXIST, errno.ENOTDIR):
        return WorkshopError(
            f"{folder} is not a folder, so no workspace can be in it. Name a folder."
        )
    return None
