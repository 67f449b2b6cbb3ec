"""A workspace: one data folder with its database and its files."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from sqlalchemy import Engine, create_engine, event
from sqlalchemy.orm import Session, sessionmaker

DATABASE = "stockthread.sqlite3"


@dataclass(frozen=True, slots=True)
class Workspace:
    """An open data folder."""

    folder: Path
    engine: Engine
    sessions: sessionmaker[Session]

    @contextmanager
    def write(self) -> Iterator[Session]:
        """One transaction: commits whole, or leaves no trace."""
        with self.sessions.begin() as work:
            yield work

    @contextmanager
    def read(self) -> Iterator[Session]:
        """A look that changes nothing."""
        with self.sessions() as work:
            yield work
            work.rollback()

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


def open_workspace(folder: Path) -> Workspace:
    """Open a data folder, making or upgrading its database."""
    folder.mkdir(parents=True, exist_ok=True)
    engine = create_engine(f"sqlite:///{folder / DATABASE}")
    event.listen(engine, "connect", _set_up_connection)
    event.listen(engine, "begin", _begin)
    _migrate(engine)
    return Workspace(folder, engine, sessionmaker(engine, expire_on_commit=False))


def _set_up_connection(connection: Any, _record: Any) -> None:
    # The driver must not open transactions of its own: `_begin` does.
    connection.isolation_level = None
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = ON")
    # Not WAL: the SQLite versions that Python ships have a corruption fault in it.
    cursor.execute("PRAGMA journal_mode = DELETE")
    cursor.execute("PRAGMA synchronous = FULL")
    cursor.execute("PRAGMA busy_timeout = 5000")
    cursor.close()


def _begin(connection: Any) -> None:
    connection.exec_driver_sql("BEGIN")


def _migrate(engine: Engine) -> None:
    config = Config()
    config.set_main_option("script_location", "app.store:migrations")
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
