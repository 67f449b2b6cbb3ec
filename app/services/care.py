"""Looking after a workspace: back it up, restore it, check it."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
import tempfile
import zipfile
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

from app.core.errors import WorkshopError
from app.core.finding import Finding
from app.publish.zips import BadArchive, Limits, add, open_zip, read_entry
from app.store import balance, files
from app.store.trouble import in_words
from app.store.workspace import DATABASE, Workspace, open_workspace

FORMAT = "stockthread backup"
VERSION = 1
MANIFEST = "manifest.json"
SPARE = 50 * 1024 * 1024  # bytes that stay free on the disk
# A workspace's own backup may be large: years of photos.
BACKUP = Limits(files=1_000_000, size=1 << 42, ratio=1100)
Progress = Callable[[int, int, str], None]


@dataclass(frozen=True, slots=True)
class BackedUp:
    """A backup that was read back after writing: where, files in it, bytes."""

    path: Path
    files: int
    size: int


@dataclass(frozen=True, slots=True)
class Checked:
    """The state of a workspace. ``unnamed`` files do no harm."""

    findings: tuple[Finding, ...]
    files: int
    unnamed: tuple[str, ...]
    deep: bool


def _quiet(_done: int, _total: int, _words: str) -> None:
    return None


def backup(
    workspace: Workspace, to: Path, now: datetime, progress: Progress = _quiet
) -> BackedUp:
    """Write one verified archive of the workspace, beside a running server.

    ``now`` is written into it. Raises WorkshopError where something is at
    ``to``, where the disk has no room, and where a photo is missing.
    """
    if to.exists():
        raise WorkshopError(f"“{to}” is there already. Name a new file.", input="to")
    with in_words(to.parent):
        to.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=to.parent, prefix=".backup-") as scratch:
            copy = Path(scratch) / DATABASE
            _copy_database(workspace.folder / DATABASE, copy)
            made = Path(scratch) / "made.zip"
            names = _named(copy)
            size = _size(workspace.folder, copy, names)
            _refuse_without_room(size, to.parent, "needs", "to")
            _pack(workspace.folder, copy, names, made, now, progress)
            count = _verified(made)
            with made.open("rb") as packed:
                os.fsync(packed.fileno())
            made.replace(to)
    return BackedUp(to, count, to.stat().st_size)


def _copy_database(database: Path, to: Path) -> None:
    # SQLite's own backup: one moment's state, whoever writes meanwhile.
    with (
        closing(sqlite3.connect(f"file:{database}?mode=ro", uri=True)) as source,
        closing(sqlite3.connect(to)) as target,
    ):
        source.backup(target)


def _named(database: Path) -> list[str]:
    opened = open_workspace(database.parent)
    try:
        with opened.read() as work:
            return sorted(files.named(work))
    finally:
        opened.close()


def _size(folder: Path, copy: Path, names: list[str]) -> int:
    lying = [files.path(folder, name) for name in names]
    there = (path.stat().st_size for path in lying if path.is_file())
    return copy.stat().st_size + sum(there)


def _refuse_without_room(size: int, place: Path, does: str, input: str) -> None:
    needed = size + SPARE
    free = shutil.disk_usage(place).free
    if needed > free:
        raise WorkshopError(
            f"The backup {does} about {needed // 1_000_000} MB and “{place}” has "
            f"{free // 1_000_000} MB free. Make room, or name a place on another disk.",
            input=input,
        )


def _pack(
    folder: Path,
    copy: Path,
    names: list[str],
    to: Path,
    now: datetime,
    progress: Progress,
) -> None:
    listed: list[dict[str, object]] = []
    with zipfile.ZipFile(to, "x") as archive:
        for name, content in _contents(folder, copy, names, progress):
            add(archive, name, content)
            digest = sha256(content).hexdigest()
            listed.append({"name": name, "sha256": digest, "bytes": len(content)})
        facts = {"format": FORMAT, "version": VERSION, "made_at": now.isoformat()}
        manifest = json.dumps(facts | {"files": listed}, indent=1, sort_keys=True)
        add(archive, MANIFEST, manifest.encode())


def _contents(
    folder: Path, copy: Path, names: list[str], progress: Progress
) -> Iterator[tuple[str, bytes]]:
    yield DATABASE, copy.read_bytes()
    for at, name in enumerate(names, 1):
        progress(at, len(names), f"File {at} of {len(names)}")
        place = files.path(folder, name).relative_to(folder)
        yield place.as_posix(), files.read(folder, name)


def _verified(made: Path) -> int:
    """Read a backup whole; how many files it holds besides its manifest."""
    with open_zip(made, BACKUP) as archive:
        return sum(1 for _ in _unpacked(archive))


def _unpacked(archive: zipfile.ZipFile) -> Iterator[tuple[str, bytes]]:
    listed = _manifest(archive)
    inside = {item.filename for item in archive.infolist() if not item.is_dir()}
    if inside != {*listed, MANIFEST} or DATABASE not in listed:
        raise BadArchive(
            "The backup's list does not name what is in it. It was changed after it "
            "was made; take another.",
            input="file",
        )
    for name, digest in listed.items():
        content = read_entry(archive, name)
        if sha256(content).hexdigest() != digest:
            raise BadArchive(
                f"“{name}” in the backup is damaged. Take another backup.", input="file"
            )
        yield name, content


def _manifest(archive: zipfile.ZipFile) -> dict[str, str]:
    try:
        document: Any = json.loads(read_entry(archive, MANIFEST))
        if (document["format"], document["version"]) != (FORMAT, VERSION):
            raise ValueError("another format or version")
        return {item["name"]: item["sha256"] for item in document["files"]}
    except (KeyError, TypeError, ValueError, RecursionError) as error:
        raise BadArchive(
            "This is not a backup that this version of Stockthread reads. Choose a "
            "file that `backup` wrote.",
            input="file",
        ) from error


def restore(source: Path, folder: Path, progress: Progress = _quiet) -> int:
    """Unpack a backup into a new or empty data folder; gives the number of files.

    Everything is verified beside it first, then swapped in. Raises
    WorkshopError and leaves ``folder`` as it was.
    """
    if not source.is_file():
        raise WorkshopError(f"There is no file “{source}”.", input="file")
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise WorkshopError(
            f"“{folder}” holds something already; a backup is restored into a new or "
            "empty folder only.",
            input="data",
        )
    with in_words(folder.parent), open_zip(source, BACKUP) as archive:
        folder.parent.mkdir(parents=True, exist_ok=True)
        size = sum(item.file_size for item in archive.infolist())
        _refuse_without_room(size, folder.parent, "unpacks to", "data")
        scratch = Path(tempfile.mkdtemp(dir=folder.parent, prefix=".restoring-"))
        try:
            count = _unpack(archive, scratch, progress)
            _open_once(scratch)
            if folder.exists():
                folder.rmdir()
            scratch.replace(folder)
        finally:
            shutil.rmtree(scratch, ignore_errors=True)
    return count


def _unpack(archive: zipfile.ZipFile, to: Path, progress: Progress) -> int:
    total = len(archive.infolist()) - 1
    count = 0
    for name, content in _unpacked(archive):
        count += 1
        progress(count, total, f"File {count} of {total}")
        place = to / name
        place.parent.mkdir(parents=True, exist_ok=True)
        with place.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    return count


def _open_once(folder: Path) -> None:
    """Upgrade what an older version backed up; refuse what is no workspace."""
    opened = open_workspace(folder)
    try:
        with opened.read() as work:
            files.named(work)
    finally:
        opened.close()


def check(workspace: Workspace, *, deep: bool = False) -> Checked:
    """Whether the database is whole, every file present, every movement balanced.

    ``deep`` reads every file and compares its hash.
    """
    found = list(_database_findings(workspace))
    with workspace.read() as work:
        names = sorted(files.named(work))
        for name in names:
            found += _file_findings(workspace.folder, name, deep)
        if fault := balance.verify(work):
            found.append(
                Finding(
                    "Movements", fault, "Restore the latest backup into a new folder."
                )
            )
        swept = files.sweep(work, workspace.folder)
    unnamed = tuple(path.relative_to(workspace.folder).as_posix() for path in swept)
    return Checked(tuple(found), len(names), unnamed, deep)


def _database_findings(workspace: Workspace) -> Iterator[Finding]:
    fix = "Restore the latest backup into a new folder; leave this one as it is."
    with workspace.engine.connect() as connection:
        for (line,) in connection.exec_driver_sql("PRAGMA integrity_check"):
            if line != "ok":
                yield Finding("Database", f"{line}.", fix)
        for row in connection.exec_driver_sql("PRAGMA foreign_key_check"):
            what = f"row {row[1]} of “{row[0]}” names a row that is not there."
            yield Finding("Database", what, fix)


def _file_findings(folder: Path, name: str, deep: bool) -> Iterator[Finding]:
    path = files.path(folder, name)
    where = path.relative_to(folder).as_posix()
    fix = "Copy it back from a backup."
    if not path.is_file():
        yield Finding(where, "the file is missing.", fix)
    elif deep and sha256(path.read_bytes()).hexdigest() != name:
        yield Finding(where, "the file is damaged: its content has changed.", fix)
