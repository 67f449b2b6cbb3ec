"""A pack is written whole, over nothing that is not its own."""

from __future__ import annotations

import json
import os
import zipfile
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest

from app.core.errors import NotFound, WorkshopError
from app.publish import pack
from tests.publish.sheets import bare, planter

PHOTOS = {"photos/01-planter.jpg": b"one", "photos/02-strips.jpg": b"two"}


def everything(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_a_pack_holds_every_file_and_says_which(tmp_path: Path) -> None:
    made = pack.files(planter(), PHOTOS)
    pack.write(made, tmp_path / "new" / "planter")
    found = everything(tmp_path / "new" / "planter")
    assert found == made
    contents = json.loads(found.pop("private/pack.json"))
    hashes = {name: sha256(content).hexdigest() for name, content in found.items()}
    assert contents["files"] == hashes
    assert os.listdir(tmp_path / "new") == ["planter"]


def test_an_earlier_pack_is_replaced_whole(tmp_path: Path) -> None:
    to = tmp_path / "out"
    pack.write(pack.files(planter(), PHOTOS), to)
    again = pack.files(bare(), {})
    pack.write(again, to)
    assert everything(to) == again
    assert (to / "photos").is_dir()
    assert os.listdir(tmp_path) == ["out"]


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    pack.write({"a.txt": b"a"}, tmp_path / "out")
    assert everything(tmp_path / "out") == {"a.txt": b"a"}


@pytest.mark.parametrize("name", ["notes.txt", "photos/mine.jpg", "description.txt"])
def test_a_folder_that_holds_something_else_is_left_alone(
    tmp_path: Path, name: str
) -> None:
    to = tmp_path / "out"
    pack.write(pack.files(planter(), PHOTOS), to)
    (to / name).write_bytes(b"mine")
    before = everything(to)
    with pytest.raises(WorkshopError, match=name) as caught:
        pack.write(pack.files(bare(), {}), to)
    assert caught.value.input == "to"
    assert everything(to) == before


def test_a_foreign_list_of_contents_opens_no_door(tmp_path: Path) -> None:
    to = tmp_path / "out"
    (to / "private").mkdir(parents=True)
    for text in ("[]", "{", '{"format": "other", "files": {}}', '{"format": 3}'):
        (to / "private" / "pack.json").write_text(text)
        (to / "diary.txt").write_text("mine")
        with pytest.raises(WorkshopError, match=r"diary\.txt"):
            pack.write({"a.txt": b"a"}, to)


def test_a_file_in_the_way_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    with pytest.raises(WorkshopError, match="It is a file"):
        pack.write({"a.txt": b"a"}, tmp_path / "out")
    with pytest.raises(WorkshopError, match="could not be written"):
        pack.write({"a.txt": b"a"}, tmp_path / "out" / "deeper")


def test_a_disk_that_fills_up_leaves_the_earlier_pack(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    to = tmp_path / "out"
    pack.write(pack.files(planter(), PHOTOS), to)
    before = everything(to)

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(WorkshopError, match="No space left"):
        pack.write(pack.files(bare(), {}), to)
    assert everything(to) == before
    assert os.listdir(tmp_path) == ["out"]


def test_equal_packs_are_equal_archives() -> None:
    one, two = (pack.zip_bytes(planter(), PHOTOS) for _ in range(2))
    assert one == two
    with zipfile.ZipFile(BytesIO(one)) as archive:
        assert archive.testzip() is None
        assert set(archive.namelist()) == set(pack.files(planter(), PHOTOS))


def test_a_file_that_no_exporter_writes_is_not_found() -> None:
    with pytest.raises(NotFound):
        pack.render(planter(), "../stockthread.sqlite3")


def test_the_folder_of_a_pack_is_named_as_in_a_series_folder() -> None:
    assert pack.folder_name(planter()) == "02-herb-planter"
