"""Zip archives: written so that equal content is equal bytes, opened with care.

The limits of opening follow the usual advice on archives from strangers (OWASP
ASVS 5.0, V5.2.3 and V5.3.3): count, size and ratio before anything is unpacked.
"""

from __future__ import annotations

import re
import stat
import zipfile
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from app.core.errors import WorkshopError

MIB = 1024 * 1024
# A fixed date (the format's first day): the same content gives the same bytes.
DAY_ONE = (1980, 1, 1, 0, 0, 0)
PACKED_ALREADY = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".pdf")


@dataclass(frozen=True, slots=True)
class Limits:
    """What an archive may hold: entries, bytes in all, times its packed size."""

    files: int = 10_000
    size: int = 4096 * MIB
    ratio: int = 200


class BadArchive(WorkshopError):
    """An archive that is not opened, and which entry is why."""


def open_zip(source: Path | bytes, limits: Limits = Limits()) -> zipfile.ZipFile:
    """Open an archive whose every entry has been looked at; nothing is unpacked.

    Raises BadArchive naming the entry at fault.
    """
    try:
        opened = zipfile.ZipFile(
            BytesIO(source) if isinstance(source, bytes) else source
        )
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError) as error:
        raise BadArchive(
            "This is not a zip archive, or it is damaged. Choose the zip that an "
            "export or a backup wrote.",
            input="file",
        ) from error
    try:
        _check(opened.infolist(), limits)
    except BadArchive:
        opened.close()
        raise
    return opened


def _check(entries: list[zipfile.ZipInfo], limits: Limits) -> None:
    if len(entries) > limits.files:
        raise _bad(
            f"The archive holds {len(entries):,} entries; at most "
            f"{limits.files:,} are taken"
        )
    seen: set[str] = set()
    for entry in entries:
        check_name(entry.orig_filename)
        _check_entry(entry, limits)
        # Two names that differ in case alone are one file on many disks.
        if entry.filename.casefold() in seen:
            raise _bad(f"“{_shown(entry.filename)}” is in the archive twice")
        seen.add(entry.filename.casefold())
    total = sum(entry.file_size for entry in entries)
    if total > limits.size:
        raise _bad(
            f"Unpacked, the archive would be {total // MIB:,} MB; at most "
            f"{limits.size // MIB:,} MB are taken"
        )


def _check_entry(entry: zipfile.ZipInfo, limits: Limits) -> None:
    name = _shown(entry.filename)
    if stat.S_ISLNK(entry.external_attr >> 16):
        raise _bad(f"“{name}” is a link to somewhere else")
    if entry.flag_bits & 1:
        raise _bad(f"“{name}” is locked with a password")
    if entry.file_size > MIB and entry.file_size > limits.ratio * entry.compress_size:
        raise _bad(f"“{name}” would swell more than {limits.ratio} times on unpacking")


def check_name(name: str) -> None:
    """Refuse a name that would leave the folder it is unpacked into."""
    parts = name.removesuffix("/").split("/")
    faults = {
        "has a backslash in its name": "\\" in name,
        "has an unprintable mark in its name": not name.isprintable(),
        "names a place outside the archive": name.startswith("/") or ".." in parts,
        "names a drive": re.match(r"[A-Za-z]:", name) is not None,
        "has an empty step in its name": "" in parts or "." in parts,
    }
    for fault, found in faults.items():
        if found:
            raise _bad(f"“{_shown(name)}” {fault}")


def _bad(what: str) -> BadArchive:
    return BadArchive(f"{what}. Nothing was taken from it.", input="file")


def _shown(name: str) -> str:
    plain = "".join(mark if mark.isprintable() else "?" for mark in name)
    return plain if len(plain) <= 80 else plain[:80] + "…"


def read_entry(archive: zipfile.ZipFile, name: str) -> bytes:
    """One entry's bytes. Raises BadArchive where it is damaged."""
    faults = (zipfile.BadZipFile, OSError, EOFError, ValueError, RuntimeError)
    try:
        return archive.read(name)
    except (*faults, zlib.error) as error:
        raise _bad(f"“{_shown(name)}” is damaged in the archive") from error


def add(archive: zipfile.ZipFile, name: str, content: bytes) -> None:
    """Add one file: its bytes and name decide every byte of the entry."""
    packed = name.lower().endswith(PACKED_ALREADY)
    entry = zipfile.ZipInfo(name, DAY_ONE)
    entry.create_system = 3
    entry.external_attr = (stat.S_IFREG | 0o644) << 16
    entry.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
    archive.writestr(entry, content)


def zipped(files: Iterable[tuple[str, bytes]]) -> bytes:
    """A whole small archive, in the order given."""
    held = BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        for name, content in files:
            add(archive, name, content)
    return held.getvalue()
