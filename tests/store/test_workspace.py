"""The data folder and its database."""

from __future__ import annotations

import errno
import sqlite3
import stat
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import text
from sqlalchemy.exc import IntegrityError

from app.core.errors import WorkshopError, WorkspaceBusy
from app.store import schema
from app.store.base import Base
from app.store.workspace import (
    DATABASE,
    Workspace,
    default_folder,
    hold_for_serving,
    open_workspace,
    secret_key,
)


def titles(workspace: Workspace) -> list[str]:
    with workspace.read() as work:
        return sorted(row.title for row in work.query(schema.Series))


def add(workspace: Workspace, title: str) -> None:
    with workspace.write() as work:
        work.add(schema.Series(slug=title.lower(), title=title))


def write_then_raise(workspace: Workspace, error: Exception) -> None:
    with workspace.write() as work:
        work.add(schema.Series(slug="bowls", title="Bowls"))
        work.flush()
        raise error


def add_much(workspace: Workspace) -> None:
    """More than any page that is there already has room for."""
    with workspace.write() as work:
        for number in range(200):
            summary = "so much to say " * 100
            work.add(schema.Series(slug=f"s{number}", title="Long", summary=summary))


@contextmanager
def held_by_another(folder: Path) -> Iterator[None]:
    """Another program in the middle of a write."""
    other = sqlite3.connect(folder / DATABASE, isolation_level=None)
    try:
        other.execute("BEGIN IMMEDIATE")
        yield
    finally:
        other.close()


def test_migrations_and_tables_agree(workspace: Workspace) -> None:
    with workspace.engine.connect() as connection:
        context = MigrationContext.configure(connection)
        assert compare_metadata(context, Base.metadata) == []


def test_every_connection_is_durable_and_keeps_foreign_keys(
    workspace: Workspace,
) -> None:
    with workspace.read() as work:
        settings = {
            name: work.scalar(text(f"PRAGMA {name}"))
            for name in ("foreign_keys", "journal_mode", "synchronous", "busy_timeout")
        }
    # synchronous 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
    assert settings == {
        "foreign_keys": 1,
        "journal_mode": "delete",
        "synchronous": 2,
        "busy_timeout": 5000,
    }


def test_a_row_that_names_a_missing_one_is_refused(workspace: Workspace) -> None:
    with pytest.raises(IntegrityError, match="FOREIGN KEY"), workspace.write() as work:
        work.add(schema.Episode(series_id=99, number=1, slug="x", title="X"))


def test_a_write_that_fails_midway_leaves_no_trace(workspace: Workspace) -> None:
    add(workspace, "Trays")
    with pytest.raises(ZeroDivisionError):
        write_then_raise(workspace, ZeroDivisionError())
    assert titles(workspace) == ["Trays"]


def test_the_data_folder_is_private(workspace: Workspace) -> None:
    assert stat.S_IMODE(workspace.folder.stat().st_mode) == 0o700


def test_the_default_folder_is_the_platforms_own() -> None:
    assert default_folder().name == "stockthread"


def test_the_signing_key_is_random_private_and_stays(tmp_path: Path) -> None:
    first, second = tmp_path / "a", tmp_path / "b"
    first.mkdir()
    second.mkdir()
    key = secret_key(first)
    assert len(bytes.fromhex(key)) == 32
    assert secret_key(first) == key != secret_key(second)
    assert [item.name for item in first.iterdir()] == ["signing.key"]
    assert stat.S_IMODE((first / "signing.key").stat().st_mode) == 0o600


def test_two_writers_at_once_both_save_all_they_have(workspace: Workspace) -> None:
    start = threading.Barrier(2)

    def write(name: str) -> None:
        start.wait()
        for number in range(10):
            add(workspace, f"{name}{number}")

    writers = [threading.Thread(target=write, args=(name,)) for name in ("a", "b")]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert len(titles(workspace)) == 20


def test_a_writer_that_read_first_does_not_lose_what_it_read(
    workspace: Workspace,
) -> None:
    """Both add one to a number; without the lock on reading one would be lost."""
    add(workspace, "Trays")
    start = threading.Barrier(2)

    def count_up() -> None:
        start.wait()
        for _ in range(10):
            with workspace.write() as work:
                row = work.query(schema.Series).one()
                row.version += 1

    counters = [threading.Thread(target=count_up) for _ in range(2)]
    for counter in counters:
        counter.start()
    for counter in counters:
        counter.join()
    with workspace.read() as work:
        assert work.query(schema.Series).one().version == 21


def test_a_second_program_that_writes_is_waited_for_and_then_named(
    workspace: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("app.store.workspace.BUSY_MS", 50)
    impatient = open_workspace(workspace.folder)
    with (
        held_by_another(workspace.folder),
        pytest.raises(WorkspaceBusy, match="Another program is writing"),
    ):
        add(impatient, "Trays")
    impatient.close()
    assert titles(workspace) == []
    add(workspace, "Trays")


def test_reading_goes_on_beside_a_writer(workspace: Workspace) -> None:
    add(workspace, "Trays")
    with held_by_another(workspace.folder):
        assert titles(workspace) == ["Trays"]


def test_a_second_server_of_one_folder_is_refused_by_name(tmp_path: Path) -> None:
    with (
        hold_for_serving(tmp_path),
        pytest.raises(WorkspaceBusy) as refused,
        hold_for_serving(tmp_path),
    ):
        pass
    assert str(tmp_path) in str(refused.value)
    with hold_for_serving(tmp_path):
        pass  # the first has let go


def test_a_full_disk_changes_nothing_and_says_so(workspace: Workspace) -> None:
    """The database may not grow by a page, as on a disk without room."""
    add(workspace, "Trays")
    with workspace.engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
        connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(WorkshopError, match=r"is full\. Nothing was saved"):
        add_much(workspace)
    assert titles(workspace) == ["Trays"]


@pytest.mark.parametrize(
    ("code", "says"),
    [
        (errno.ENOSPC, "is full. Nothing was saved"),
        (errno.EROFS, "cannot be written to"),
    ],
)
def test_a_file_that_finds_no_room_takes_its_row_with_it(
    workspace: Workspace, code: int, says: str
) -> None:
    with pytest.raises(WorkshopError, match=says):
        write_then_raise(workspace, OSError(code, "as the system says it"))
    assert titles(workspace) == []


def test_a_file_that_is_no_database_is_left_as_it_is(tmp_path: Path) -> None:
    place = tmp_path / DATABASE
    place.write_text("Shopping: glue, sandpaper, more clamps. " * 40)
    before = place.read_bytes()
    with pytest.raises(WorkshopError, match="is not a Stockthread workspace"):
        open_workspace(tmp_path)
    assert place.read_bytes() == before


def test_another_programs_database_is_left_as_it_is(tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / DATABASE) as other:
        other.execute("CREATE TABLE recipe (name TEXT)")
    other.close()
    with pytest.raises(WorkshopError, match="made by another program"):
        open_workspace(tmp_path)


def test_a_newer_workspace_is_left_as_it_is(workspace: Workspace) -> None:
    workspace.close()
    with sqlite3.connect(workspace.folder / DATABASE) as newer:
        newer.execute("UPDATE alembic_version SET version_num = '9999'")
    newer.close()
    with pytest.raises(WorkshopError, match="newer Stockthread"):
        open_workspace(workspace.folder)


def test_a_file_in_the_folders_place_is_refused(tmp_path: Path) -> None:
    place = tmp_path / "data"
    place.write_text("not a folder")
    with pytest.raises(WorkshopError, match="is not a folder"):
        open_workspace(place)
