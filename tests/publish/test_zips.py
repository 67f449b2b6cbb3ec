"""Archives from strangers: each trick named, nothing unpacked."""

from __future__ import annotations

import stat
import zipfile
from io import BytesIO

import pytest

from app.publish.zips import MIB, BadArchive, Limits, open_zip, zipped


def made(*entries: tuple[str, bytes], mode: int = 0o644, flags: int = 0) -> bytes:
    held = BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in entries:
            entry = zipfile.ZipInfo("x")
            entry.filename = entry.orig_filename = name
            entry.external_attr = mode << 16
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, content)
    return held.getvalue()


def twice() -> bytes:
    return made(("a.txt", b"1"), ("A.TXT", b"2"))


# The tricks are those of OWASP ASVS 5.0, V5.2.3 and V5.3.3, number from memory.
TRICKS = {
    "a parent folder": (
        made(("../out.txt", b"")),
        "“../out.txt” names a place outside",
    ),
    "a parent within": (made(("a/../../b", b"")), "names a place outside"),
    "an absolute name": (made(("/etc/passwd", b"")), "names a place outside"),
    "a backslash": (made(("a\\b.txt", b"")), "has a backslash"),
    "a drive": (made(("C:out.txt", b"")), "names a drive"),
    "a dot": (made(("a/./b", b"")), "empty step"),
    "an empty step": (made(("a//b", b"")), "empty step"),
    "a link": (made(("a", b"/etc"), mode=stat.S_IFLNK | 0o777), "“a” is a link"),
    "a double": (twice(), "“A.TXT” is in the archive twice"),
    "a bomb": (made(("a", bytes(30 * MIB))), "“a” would swell more than 200 times"),
    "no zip": (b"PK\x03\x04 but no more", "not a zip archive"),
    "nothing": (b"", "not a zip archive"),
}


@pytest.mark.parametrize("trick", TRICKS)
def test_an_archive_with_a_trick_is_refused_naming_its_entry(trick: str) -> None:
    content, sentence = TRICKS[trick]
    with pytest.raises(BadArchive, match=sentence.replace(".", r"\.")):
        open_zip(content)


def test_too_many_entries_and_too_much_in_all_are_refused() -> None:
    three = zipped((f"{n}.txt", b"12345") for n in range(3))
    with pytest.raises(BadArchive, match="3 entries; at most 2"):
        open_zip(three, Limits(files=2))
    with pytest.raises(BadArchive, match="at most 0 MB"):
        open_zip(three, Limits(size=14))
    open_zip(three, Limits(files=3, size=15)).close()


def test_the_same_files_give_the_same_archive() -> None:
    files = [("a.txt", b"1" * 1000), ("b.jpg", b"2" * 1000)]
    assert zipped(files) == zipped(files)
