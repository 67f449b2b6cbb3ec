"""A workspace: one data folder with its database and its files."""

from __future__ import annotations

import contextlib
import os
import secrets
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout
from platformdirs import user_data_path
from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.orm import Session, sessionmaker

from app.core.errors import WorkspaceBusy
from app.store import upgrade
from app.store.trouble import in_words

DATABASE = "stockthread.sqlite3"
SERVING = "serving.lock"
SIGNING_KEY = "signing.key"
BUSY_MS = 5000


@dataclass(frozen=True, slots=True)
class Workspace:
    """An open data folder."""

    folder: Path
    engine: Engine
    sessions: sessionmaker[Session]

    @contextmanager
    def write(self) -> Iterator[Session]:
        """One transaction: commits whole, or leaves no trace.

        The write lock is taken at once, so what is read inside still holds when
        it commits. Raises WorkspaceBusy where another writer keeps it, and
        WorkshopError where the disk is full or fails.
        """
        writing = self.engine.execution_options(writing=True)
        with in_words(self.folder), self.sessions(bind=writing) as work, work.begin():
            yield work

    @contextmanager
    def read(self) -> Iterator[Session]:
        """A look at one moment's state; it changes nothing."""
        with in_words(self.folder), self.sessions() as work:
            yield work
            work.rollback()

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


def default_folder() -> Path:
    """Where this computer keeps a person's program data."""
    return user_data_path("stockthread", appauthor=False)


def open_workspace(folder: Path) -> Workspace:
    """Open a data folder, making or upgrading its database.

    Raises WorkshopError where the folder cannot hold one, or holds something
    that this version cannot read.
    """
    engine = create_engine(
        f"sqlite:///{folder / DATABASE}",
        connect_args={"timeout": BUSY_MS / 1000},
        # What a maker wrote has no place in a log of errors.
        hide_parameters=True,
    )
    event.listen(engine, "connect", _set_up_connection)
    event.listen(engine, "begin", _begin)
    with in_words(folder):
        _make_private(folder)
        try:
            upgrade.to_newest(engine, folder / DATABASE)
        except BaseException:
            engine.dispose()
            raise
    return Workspace(folder, engine, sessionmaker(engine, expire_on_commit=False))


def _make_private(folder: Path) -> None:
    """Make the folder, and let nobody else look into a new one."""
    new = not (folder / DATABASE).exists()
    folder.mkdir(parents=True, exist_ok=True)
    if new:
        with contextlib.suppress(PermissionError):  # a shared or foreign disk
            folder.chmod(0o700)


def _set_up_connection(connection: Any, _record: Any) -> None:
    # The driver must not open transactions of its own: `_begin` does.
    connection.isolation_level = None
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = ON")
    # Not WAL: the SQLite versions that Python ships have a corruption fault in it.
    # `python -m tests.benchmarks.journal` shows what this durability costs.
    cursor.execute("PRAGMA journal_mode = DELETE")
    cursor.execute("PRAGMA synchronous = FULL")
    cursor.close()


def _begin(connection: Connection) -> None:
    # A writer locks first: two that both read and then both want to write would
    # otherwise wait for each other, and one would lose what it had read.
    writing = connection.get_execution_options().get("writing", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


def hold_for_serving(folder: Path) -> AbstractContextManager[object]:
    """Keep every other server out of a data folder while the answer is kept.

    Use it in a ``with``. The system lets go when the program ends, however it
    ends. Raises WorkspaceBusy, naming the folder, where a server runs already.
    """
    with in_words(folder):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        try:
            return FileLock(folder / SERVING, mode=0o600).acquire(timeout=0)
        except Timeout:
            raise WorkspaceBusy(
                f"Another Stockthread already serves {folder}. Use its window, stop "
                "it first, or serve another folder with --data."
            ) from None


def secret_key(folder: Path) -> str:
    """The key that signs this workspace's cookies: random, made once, private."""
    place = folder / SIGNING_KEY
    with in_words(folder):
        if not place.exists():
            _write_private(place, secrets.token_hex(32))
        return place.read_text("ascii").strip()


def _write_private(place: Path, text: str) -> None:
    """Write a file that only its owner reads; it appears whole or not at all."""
    draft = place.with_name(f"{place.name}.{secrets.token_hex(4)}")
    handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        draft.replace(place)
    finally:
        draft.unlink(missing_ok=True)
