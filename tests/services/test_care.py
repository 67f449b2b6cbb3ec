"""Backups that come back whole, and a check that sees what is broken."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import select

from app.core.errors import WorkshopError
from app.publish.zips import open_zip, zipped
from app.services import care
from app.store.schema import Episode, Series
from app.store.workspace import DATABASE, Workspace, open_workspace
from tests.services.two_series import fill

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


@pytest.fixture
def filled(workspace: Workspace) -> Workspace:
    fill(workspace)
    return workspace


@pytest.fixture
def saved(filled: Workspace, tmp_path: Path) -> Path:
    return care.backup(filled, tmp_path / "shop.zip", NOON).path


def files_of(folder: Path) -> dict[str, bytes]:
    inside = (folder / "files").rglob("*")
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in inside
        if path.is_file()
    }


def dump(folder: Path) -> list[str]:
    with closing(sqlite3.connect(folder / DATABASE)) as database:
        return list(database.iterdump())


def test_a_restored_backup_is_the_workspace_to_the_last_row_and_byte(
    filled: Workspace, saved: Path, tmp_path: Path
) -> None:
    count = care.restore(saved, tmp_path / "restored")
    assert count == len(files_of(filled.folder)) + 1
    assert files_of(tmp_path / "restored") == files_of(filled.folder)
    assert dump(tmp_path / "restored") == dump(filled.folder)


def test_a_backup_taken_while_someone_writes_holds_one_moment(
    filled: Workspace, tmp_path: Path
) -> None:
    with filled.write() as work:
        series = work.scalars(select(Series)).first()
        assert series
        work.add(Episode(series_id=series.id, number=9, slug="nine", title="Nine"))
        work.flush()
        care.backup(filled, tmp_path / "during.zip", NOON)
    care.restore(tmp_path / "during.zip", tmp_path / "restored")
    restored = open_workspace(tmp_path / "restored")
    with restored.read() as work:
        assert work.scalar(select(Episode).where(Episode.number == 9)) is None
    assert care.check(restored, deep=True).findings == ()
    restored.close()


def test_nothing_is_written_over_by_a_backup(filled: Workspace, saved: Path) -> None:
    before = saved.read_bytes()
    with pytest.raises(WorkshopError, match="there already"):
        care.backup(filled, saved, NOON)
    assert saved.read_bytes() == before


def test_a_missing_photo_stops_the_backup_and_leaves_no_file(
    filled: Workspace, tmp_path: Path
) -> None:
    lost = next(iter(files_of(filled.folder)))
    (filled.folder / lost).unlink()
    with pytest.raises(WorkshopError, match="missing"):
        care.backup(filled, tmp_path / "out" / "shop.zip", NOON)
    assert list((tmp_path / "out").iterdir()) == []


def test_a_full_disk_is_seen_before_writing(
    filled: Workspace, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(care, "SPARE", 1 << 60)
    with pytest.raises(WorkshopError, match="MB free"):
        care.backup(filled, tmp_path / "shop.zip", NOON)


def _repacked(saved: Path, change: Callable[[dict[str, bytes]], object]) -> None:
    with open_zip(saved) as archive:
        inside = {name: archive.read(name) for name in archive.namelist()}
    change(inside)
    saved.write_bytes(zipped(inside.items()))


def _photo(inside: dict[str, bytes]) -> str:
    return next(name for name in inside if name.startswith("files/"))


def _newer(inside: dict[str, bytes]) -> None:
    manifest = json.loads(inside["manifest.json"])
    inside["manifest.json"] = json.dumps(manifest | {"version": 2}).encode()


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (lambda inside: inside.update({_photo(inside): b"?"}), "is damaged"),
        (lambda inside: inside.pop(_photo(inside)), "does not name what is in it"),
        (lambda inside: inside.update(more=b"?"), "does not name what is in it"),
        (lambda inside: inside.pop("manifest.json"), "manifest.json|not a backup"),
        (_newer, "not a backup that this version"),
        (lambda inside: inside.update({"../out": b"?"}), "outside the archive"),
    ],
)
def test_a_changed_backup_is_refused_and_no_folder_is_made(
    saved: Path,
    tmp_path: Path,
    change: Callable[[dict[str, bytes]], object],
    sentence: str,
) -> None:
    _repacked(saved, change)
    with pytest.raises(WorkshopError, match=sentence):
        care.restore(saved, tmp_path / "restored")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["data", "shop.zip"]


def test_a_backup_is_never_restored_over_anything(saved: Path, tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "note.txt").write_text("mine")
    with pytest.raises(WorkshopError, match="holds something"):
        care.restore(saved, tmp_path / "full")
    assert [p.name for p in (tmp_path / "full").iterdir()] == ["note.txt"]


def test_a_sound_workspace_has_no_findings(filled: Workspace) -> None:
    checked = care.check(filled, deep=True)
    assert checked.findings == ()
    assert checked.files == len(files_of(filled.folder))


def test_check_names_a_missing_file_a_damaged_one_and_one_no_row_names(
    filled: Workspace,
) -> None:
    first, second, *_ = files_of(filled.folder)
    (filled.folder / first).unlink()
    (filled.folder / second).write_bytes(b"rust")
    (filled.folder / "files" / "stray").write_bytes(b"?")
    quick, deep = care.check(filled), care.check(filled, deep=True)
    assert [item.where for item in quick.findings] == [first]
    assert sorted(item.where for item in deep.findings) == sorted([first, second])
    assert quick.unnamed == ("files/stray",)


def test_check_sees_a_movement_that_does_not_balance(filled: Workspace) -> None:
    with closing(sqlite3.connect(filled.folder / DATABASE)) as database:
        database.execute("UPDATE movement SET kerf = '6' WHERE kerf = '5'")
        database.commit()
    (finding,) = care.check(filled).findings
    assert finding.where == "Movements"
    assert "must balance" in finding.what


def test_check_sees_a_row_that_names_one_that_is_not_there(filled: Workspace) -> None:
    with closing(sqlite3.connect(filled.folder / DATABASE)) as database:
        database.execute("UPDATE chapter SET episode_id = 99")
        database.commit()
    (finding,) = care.check(filled).findings
    assert "“chapter”" in finding.what
