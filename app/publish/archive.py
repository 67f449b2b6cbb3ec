"""The series folder: one series as open files, in a folder or zipped.

``series.json`` holds the facts, ``stock.json`` and ``movements.json`` the ledger,
and each episode has a folder with its ``log.md``, ``photos/``, captions and
``publications/``. Text is UTF-8 with LF; JSON has its keys sorted and one record
a line, so that two versions can be compared by eye.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Protocol

from app.core.errors import WorkshopError
from app.core.plain_text import first_unprintable
from app.publish.zips import BadArchive, add, check_name, open_zip, read_entry

FORMAT = "stockthread series"
VERSION = 1
SERIES, STOCK, MOVEMENTS = "series.json", "stock.json", "movements.json"
Record = dict[str, Any]


class BadSeries(WorkshopError):
    """A series folder that cannot be brought in, and where it is wrong."""

    def __init__(self, where: str, what: str) -> None:
        super().__init__(f"{where}: {what} Nothing was brought in.", input="file")


class Source(Protocol):
    """A series folder to read, wherever it lies."""

    def names(self) -> frozenset[str]:
        """Every file, by its path inside the folder."""

    def read(self, name: str) -> bytes:
        """One file's bytes."""


class _Folder:
    def __init__(self, root: Path) -> None:
        self._root = root
        self._names = frozenset(self._walk())

    def _walk(self) -> Iterator[str]:
        for path in sorted(self._root.rglob("*")):
            name = path.relative_to(self._root).as_posix()
            if path.is_symlink():
                raise BadArchive(
                    f"“{name}” is a link to somewhere else. Nothing was taken from "
                    "the folder.",
                    input="file",
                )
            if path.is_file():
                yield name

    def names(self) -> frozenset[str]:
        return self._names

    def read(self, name: str) -> bytes:
        return (self._root / name).read_bytes()


class _Zip:
    """A zip of the folder's content, or of the folder itself."""

    def __init__(self, archive: zipfile.ZipFile) -> None:
        self._archive = archive
        found = [item.filename for item in archive.infolist() if not item.is_dir()]
        outer = {name.split("/")[0] + "/" for name in found}
        inside = SERIES not in found and len(outer) == 1
        self._prefix = outer.pop() if inside else ""
        self._names = frozenset(name.removeprefix(self._prefix) for name in found)

    def names(self) -> frozenset[str]:
        return self._names

    def read(self, name: str) -> bytes:
        return read_entry(self._archive, self._prefix + name)


@contextmanager
def reading(source: Path | bytes) -> Iterator[Source]:
    """A series folder, its zip, or the bytes of its zip, open for reading.

    Raises BadArchive, BadSeries where it is none.
    """
    if isinstance(source, Path) and not source.exists():
        raise WorkshopError(f"There is nothing at “{source}”.", input="path")
    if isinstance(source, Path) and source.is_dir():
        yield _known(_Folder(source))
        return
    with open_zip(source) as archive:
        yield _known(_Zip(archive))


def _known(source: Source) -> Source:
    missing = [n for n in (SERIES, STOCK, MOVEMENTS) if n not in source.names()]
    if missing:
        raise BadSeries(missing[0], "the file is missing; this is no series folder.")
    return source


# --- JSON with one record a line ---------------------------------------------


def record(value: object) -> str:
    """One record as one line, keys sorted."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, allow_nan=False)


def document(facts: Mapping[str, object]) -> bytes:
    """A JSON document whose lists of records have one record a line."""
    lines = [f"{record(key)}: {_value(facts[key])}" for key in sorted(facts)]
    return ("{\n" + ",\n".join(lines) + "\n}\n").encode()


def _value(value: object) -> str:
    if isinstance(value, list) and value:
        return "[\n" + ",\n".join(record(item) for item in value) + "\n]"
    return record(value)


def read_document(source: Source, name: str) -> Record:
    """A JSON document of the folder, its format and version known here."""
    try:
        text = source.read(name).decode("utf-8")
        found = json.loads(text, parse_constant=_no_number)
        _check_texts(found)
    except (ValueError, RecursionError) as error:
        raise BadSeries(name, f"it is not JSON in UTF-8 ({error}).") from error
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        raise BadSeries(name, f"it does not say “format”: “{FORMAT}”.")
    version = found.get("version")
    if version != VERSION:
        raise BadSeries(
            name,
            f"it is version {version!r} of the format; this program reads version "
            f"{VERSION}. A newer Stockthread may read it.",
        )
    return found


def _no_number(name: str) -> float:
    raise ValueError(f"{name} is no number")


def _check_texts(value: object) -> None:
    """Every text in it, keys included, has only marks that can be seen."""
    if isinstance(value, str):
        if (at := first_unprintable(value)) is not None:
            raise ValueError(f"a text holds the control mark U+{ord(value[at]):04X}")
    elif isinstance(value, list):
        for item in value:
            _check_texts(item)
    elif isinstance(value, dict):
        for key, item in value.items():
            _check_texts(key)
            _check_texts(item)


def headed(facts: Mapping[str, object]) -> bytes:
    """A document with the format's name and version."""
    return document({"format": FORMAT, "version": VERSION, **facts})


# --- writing -------------------------------------------------------------------


class Target(Protocol):
    """Where a series folder is written."""

    def add(self, name: str, content: bytes) -> None:
        """One more file."""


class _ZipTarget:
    def __init__(self, archive: zipfile.ZipFile) -> None:
        self._archive = archive

    def add(self, name: str, content: bytes) -> None:
        check_name(name)
        add(self._archive, name, content)


class _FolderTarget:
    def __init__(self, root: Path) -> None:
        self._root = root

    def add(self, name: str, content: bytes) -> None:
        check_name(name)
        path = self._root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())


@contextmanager
def writing(to: Path) -> Iterator[Target]:
    """A new folder, or a new zip where the name ends in ``.zip``.

    It stands there whole or not at all. Raises WorkshopError where something
    stands there already.
    """
    if to.exists() and not (to.is_dir() and not any(to.iterdir())):
        raise WorkshopError(
            f"“{to}” holds something already. Name a new folder or zip.", input="to"
        )
    to.parent.mkdir(parents=True, exist_ok=True)
    scratch = Path(tempfile.mkdtemp(dir=to.parent, prefix=".writing-"))
    try:
        made = scratch / "made"
        if to.suffix.lower() == ".zip":
            with made.open("xb") as file:
                with zipfile.ZipFile(file, "w") as archive:
                    yield _ZipTarget(archive)
                file.flush()
                os.fsync(file.fileno())
        else:
            made.mkdir()
            yield _FolderTarget(made)
            if to.exists():
                to.rmdir()
        made.replace(to)
    finally:
        shutil.rmtree(scratch, ignore_errors=True)
