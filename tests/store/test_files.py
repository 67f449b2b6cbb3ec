"""Files under their content hash: whole or not at all."""

import errno
import os
import stat
from pathlib import Path

import pytest

from app.core.errors import NotFound, WorkshopError
from app.store import files
from app.store.schema import CaptionsRow, Episode, Publication, Series
from tests.conftest import NOON

# SHA-256 of "abc": FIPS 180-4 example, NIST CSRC "SHA256.pdf".
ABC = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_a_file_lies_under_the_published_hash_of_its_content(tmp_path: Path):
    assert files.put(tmp_path, b"abc") == ABC
    assert files.path(tmp_path, ABC) == tmp_path / "files" / "ba" / ABC
    assert files.read(tmp_path, ABC) == b"abc"


def test_the_same_content_is_kept_once(tmp_path: Path):
    first = files.put(tmp_path, b"abc")
    before = files.path(tmp_path, first).stat().st_ino
    assert files.put(tmp_path, b"abc") == first
    assert files.path(tmp_path, first).stat().st_ino == before


def test_a_damaged_file_is_named_and_mended_by_the_next_copy(tmp_path: Path):
    files.put(tmp_path, b"abc")
    files.path(tmp_path, ABC).write_bytes(b"abd")
    with pytest.raises(NotFound, match="damaged"):
        files.read(tmp_path, ABC)
    files.put(tmp_path, b"abc")
    assert files.read(tmp_path, ABC) == b"abc"


def test_a_missing_file_is_named(tmp_path: Path):
    with pytest.raises(NotFound, match="missing"):
        files.read(tmp_path, ABC)


@pytest.mark.parametrize("name", ["../../etc/passwd", "", "BA" * 32, ABC + "/x"])
def test_a_name_that_is_no_hash_leads_nowhere(tmp_path: Path, name: str):
    with pytest.raises(NotFound):
        files.path(tmp_path, name)


@pytest.mark.parametrize(
    ("number", "says"),
    [
        (errno.ENOSPC, "is full"),
        (errno.EDQUOT, "is full"),
        (errno.EROFS, "cannot be written"),
    ],
)
@pytest.mark.parametrize("fails", ["fsync", "replace"])
def test_a_full_disk_leaves_nothing_behind(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    number: int,
    says: str,
    fails: str,
):
    files.put(tmp_path, b"kept before")

    def refuse(*_arguments: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(
        *((os, "fsync") if fails == "fsync" else (Path, "replace")), refuse
    )
    with pytest.raises(WorkshopError, match=says):
        files.put(tmp_path, b"abc")
    lying = [item.name for item in (tmp_path / "files").rglob("*") if item.is_file()]
    assert len(lying) == 1
    assert ABC not in lying


def test_content_is_synced_before_it_has_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    happened = []
    sync, replace = os.fsync, Path.replace

    def synced(handle: int) -> None:
        is_folder = stat.S_ISDIR(os.fstat(handle).st_mode)
        happened.append("folder" if is_folder else "content")
        sync(handle)

    def renamed(this: Path, target: Path) -> Path:
        happened.append("name")
        return replace(this, target)

    monkeypatch.setattr(os, "fsync", synced)
    monkeypatch.setattr(Path, "replace", renamed)
    files.put(tmp_path, b"abc")
    assert happened[-3:] == ["content", "name", "folder"]


def test_sweep_lists_what_no_row_names(workspace):
    folder = workspace.folder
    captions = files.put(folder, b"WEBVTT")
    published = files.put(folder, b"a picture of a frozen revision")
    lost = files.put(folder, b"nobody's")
    unfinished = files.path(folder, lost).with_name(files.UNFINISHED + "x")
    unfinished.write_bytes(b"half")
    with workspace.write() as work:
        series = Series(slug="bowls", title="Bowls")
        episode = Episode(series=series, number=1, slug="one", title="One")
        work.add(episode)
        work.flush()
        work.add(
            CaptionsRow(
                episode_id=episode.id,
                sha256=captions,
                name="cut.vtt",
                cues=0,
                added_at=NOON,
            )
        )
        sheet = {"photos": [{"sha256": published}]}
        work.add(
            Publication(episode_id=episode.id, revision=1, frozen_at=NOON, sheet=sheet)
        )
    with workspace.read() as work:
        assert files.sweep(work, folder) == tuple(
            sorted([files.path(folder, lost), unfinished])
        )
        assert files.named(work) == {captions, published}
    assert files.read(folder, lost) == b"nobody's"
