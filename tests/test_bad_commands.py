"""Bad input at the command line: a sentence, exit code 2, nothing changed."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from app import cli
from app.publish.zips import open_zip, zipped
from app.services import care
from app.store import workspace as workspaces
from app.store.workspace import DATABASE, Workspace, hold_for_serving, open_workspace
from tests.conftest import NOON
from tests.full_disk import Disk, small_disk
from tests.services.two_series import contents, fill

PIECE = {"length": 12, "width": 2, "thickness": "3/4"}
JOB: dict[str, Any] = {
    "unit": "in",
    "saw": {"kerf": "1/8"},
    "keep": {"length": 8, "width": 1},
    "stock": [{"id": "B1", **PIECE, "length": 48}],
    "parts": [{"id": "rail", **PIECE}],
}


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A workspace with two series, one of them frozen."""
    opened = open_workspace(tmp_path / "data")
    fill(opened)
    opened.close()
    return opened.folder


def refused(capsys: pytest.CaptureFixture[str], *words: object) -> dict[str, Any]:
    """The document of a command that has to end with 2, told in words as well."""
    argv = [str(word) for word in words]
    assert cli.main(argv) == 2
    plain = capsys.readouterr()
    assert plain.out == ""
    assert "Traceback" not in plain.err
    assert cli.main([*argv, "--json"]) == 2
    error: dict[str, Any] = json.loads(capsys.readouterr().out)["error"]
    assert error["message"] in plain.err
    return error


VESSEL = ("size", "straight_vessel")
SIZES = [
    ("sides=17", "sides", "16 is the most"),
    ("sides=-6", "sides", "cannot be negative"),
    ("sides=six", "sides", "“six” is not a whole number"),
    ("sides=1e400", "sides", "is not a whole number"),
    ("sides=NaN", "sides", "is not a whole number"),
    ("sides=٣", "sides", "is not a whole number"),
    ("height=-6", "height", "cannot be negative"),
    ("height=1e400", "height", "is not a length"),
    ("height=900 m", "height", "is not a length"),
    ("height=0", "height", "must be more than nothing"),
    ("height=6\x07", "height", "control mark (U+0007)"),
    ("height=" + "6" * 200_000, "height", "100,000 is the most"),
    ("groove_depth=3/4", "groove_depth", "groove"),
    ("colour=red", "colour", "does not ask for “colour”"),
    ("sides", "sides", "is not KEY=VALUE"),
]


@pytest.mark.parametrize(("typed", "field", "says"), SIZES)
def test_a_size_that_cannot_be_is_refused_by_its_input(
    capsys: pytest.CaptureFixture[str], typed: str, field: str, says: str
) -> None:
    good = {"sides": "6", "outside_side": "4", "height": "6", "wall": "1/2"}
    good |= {"species": "walnut"}
    rest = [f"{key}={value}" for key, value in good.items() if key != field]
    error = refused(capsys, *VESSEL, *rest, typed)
    assert error["input"] == field
    assert says in error["message"]


WOOD = {"--width": "6", "--from-rh": "30", "--to-rh": "65 %", "--temperature": "70F"}
PIECES = [
    ("--width", "wide", "width", "is not a length"),
    ("--width", "0", "width", "more than nothing"),
    ("--width", "900 in", "width", "at most"),
    ("--thickness", "1e400", "thickness", "is not a length"),
    ("--length", "6\x07", "length", "U+0007"),
    ("--cut", "rift", "cut", "neither flat nor quarter"),
    ("--from-rh", "101", "from_rh", "no relative humidity"),
    ("--from-rh", "", "from_rh", "between two humidities"),
    ("--to-rh", "1e9", "to_rh", "no relative humidity"),
    ("--to-rh", "", "to_rh", "between two humidities"),
    ("--temperature", "21", "temperature", "with its letter"),
    ("--temperature", "300F", "temperature", "beyond it"),
]


@pytest.mark.parametrize(("option", "typed", "field", "says"), PIECES)
def test_a_piece_of_wood_that_cannot_be_is_refused_by_its_option(
    capsys: pytest.CaptureFixture[str], option: str, typed: str, field: str, says: str
) -> None:
    given = [word for pair in (WOOD | {option: typed}).items() for word in pair]
    error = refused(capsys, "wood", "walnut", *given)
    assert error["input"] == field
    assert says in error["message"]
    if error["nearest"]:
        mended = WOOD | {option: error["nearest"]}
        words = ["wood", "walnut", *(word for pair in mended.items() for word in pair)]
        assert cli.main([*words, "--json"]) == 0


@pytest.mark.parametrize(
    ("name", "nearest"),
    [("wallnut", "Black walnut"), ("oak", "Northern red oak"), ("zebrano", None)],
)
def test_a_wood_that_is_not_known_is_refused_with_the_nearest(
    capsys: pytest.CaptureFixture[str], name: str, nearest: str | None
) -> None:
    error = refused(capsys, "wood", name)
    assert (error["input"], error["nearest"]) == ("species", nearest)


def test_a_temperature_alone_moves_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    error = refused(capsys, "wood", "walnut", "--temperature", "70F")
    assert error["input"] == "from_rh"


def text_of(**changes: object) -> str:
    return json.dumps(JOB | changes)


def with_part(**changes: object) -> str:
    return text_of(parts=[{"id": "rail", **PIECE, **changes}])


JOBS = {
    "no JSON": ("{", None, "not a JSON document"),
    "a list": ("[]", None, "not a JSON object"),
    "nested without end": ("[" * 200_000, None, "not a JSON document"),
    "NaN": (with_part(length=float("nan")), None, "not a number"),
    "an endless number": (
        with_part().replace("12", "1e999999999", 1),
        "parts[0].length|stock[0].length",
        "100 m",
    ),
    "many figures": (
        text_of().replace("48", "9" * 9000),
        None,
        "not a JSON document|100 m",
    ),
    "a negative size": (with_part(width=-2), "parts[0].width", "cannot be negative"),
    "text for a size": (with_part(width="wide"), "parts[0].width", "not a length"),
    "no size": (with_part(length=None), "parts[0].length", "needs its length"),
    "a thousand million": (
        with_part(quantity=10**9),
        "parts[0].quantity",
        "whole number",
    ),
    "an endless count": (
        with_part(quantity=0).replace('"quantity": 0', '"quantity": 1e99999'),
        "parts[0].quantity",
        "whole number",
    ),
    "text for a count": (
        with_part(quantity="two"),
        "parts[0].quantity",
        "whole number",
    ),
    "an endless cost": (
        text_of(stock=[{"id": "B", **PIECE, "cost": 0}]).replace(
            '"cost": 0', '"cost": 1e99999'
        ),
        "stock[0].cost",
        "minor units",
    ),
    "an unknown unit": (text_of(unit="ell"), "unit", "no unit"),
    "a saw without a kerf": (text_of(saw={}), "saw.kerf", "kerf"),
}


@pytest.mark.parametrize("what", JOBS)
def test_a_job_with_a_fault_is_refused_by_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], what: str
) -> None:
    text, field, says = JOBS[what]
    job = tmp_path / "job.json"
    job.write_text(text)
    error = refused(capsys, "cut", job)
    assert any(words in error["message"] for words in says.split("|"))
    assert field is None or error["input"] in field.split("|")


FILES = {
    "a letter": b"Dear viewer",
    "a photo": b"\xff\xd8\xff\xe0JFIF",
    "nothing": b"",
}


@pytest.mark.parametrize("what", FILES)
def test_a_file_of_another_kind_is_refused_everywhere(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], what: str
) -> None:
    file, before = tmp_path / "file", contents(data)
    file.write_bytes(FILES[what])
    for words in (
        ("captions", file),
        ("cut", file),
        ("import", file, "--data", data),
        ("restore", file, "--data", tmp_path / "new"),
        ("size", "parts_list", f"file={file}"),
    ):
        assert refused(capsys, *words)["message"].endswith((".", "?"))
    assert contents(data) == before
    assert not (tmp_path / "new").exists()


def test_an_archive_with_a_way_out_is_neither_brought_in_nor_restored(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    series, saved = tmp_path / "sill.zip", tmp_path / "shop.zip"
    assert cli.main(["export", "sill", "--to", str(series), "--data", str(data)]) == 0
    assert cli.main(["backup", "--to", str(saved), "--data", str(data)]) == 0
    capsys.readouterr()
    for archive in (series, saved):
        with open_zip(archive) as opened:
            inside = {name: opened.read(name) for name in opened.namelist()}
        archive.write_bytes(zipped([*inside.items(), ("../../out", b"?")]))
    before = contents(data)
    there = sorted(path.name for path in tmp_path.iterdir())
    for words in (
        ("import", series, "--data", data, "--slug", "other"),
        ("restore", saved, "--data", tmp_path / "new"),
    ):
        assert "outside the archive" in refused(capsys, *words)["message"]
    assert contents(data) == before
    assert sorted(path.name for path in tmp_path.iterdir()) == there


def test_a_second_server_on_a_folder_is_refused(
    data: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = contents(data)
    with hold_for_serving(data):
        error = refused(capsys, "serve", "--data", data, "--no-browser")
    assert "Another Stockthread already serves" in error["message"]
    assert contents(data) | {"serving.lock": b""} == before | {"serving.lock": b""}


def test_a_second_writer_is_told_to_wait(
    data: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    series = tmp_path / "sill.zip"
    assert cli.main(["export", "sill", "--to", str(series), "--data", str(data)]) == 0
    capsys.readouterr()
    monkeypatch.setattr(workspaces, "BUSY_MS", 20)
    before = contents(data)
    with closing(sqlite3.connect(data / DATABASE)) as other:
        other.execute("BEGIN IMMEDIATE")
        words = ("import", series, "--data", data, "--slug", "other")
        error = refused(capsys, *words)
    assert "Another program is writing" in error["message"]
    assert contents(data) == before


@pytest.fixture
def disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Disk]:
    with small_disk(tmp_path / "disk", monkeypatch) as disk:
        yield disk


def test_nothing_is_half_written_on_a_full_disk(
    workspace: Workspace,
    disk: Disk,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    fill(workspace)
    saved = care.backup(workspace, tmp_path / "shop.zip", NOON).path
    series = tmp_path / "sill.zip"
    data, full = workspace.folder, disk.place
    assert cli.main(["export", "sill", "--to", str(series), "--data", str(data)]) == 0
    capsys.readouterr()
    disk.fill()
    there, before = sorted(full.iterdir()), contents(data)
    for words in (
        ("backup", "--to", full / "b.zip", "--data", data),
        ("export", "sill", "--to", full / "out", "--data", data),
        ("export", "sill", "--to", full / "out.zip", "--data", data),
        ("publish", "sill", "1", "--to", full / "pack", "--data", data),
        ("publish", "sill", "1", "--to", full / "pack", "--data", data, "--draft"),
        ("restore", saved, "--data", full / "new"),
        ("import", series, "--data", full / "other"),
    ):
        message = refused(capsys, *words)["message"]
        assert re.search("is full|MB free|No space left", message), (words, message)
    # A workspace may have been made for the series; nothing is in it.
    left = [path for path in full.rglob("*") if path.is_file() and path not in there]
    assert [
        path for path in left if path.name != DATABASE and path.stat().st_size
    ] == []
    assert contents(data) == before


def test_what_was_never_frozen_or_is_not_there_is_said(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    to = tmp_path / "pack"
    for words, says in (
        (("publish", "none", "1"), "There is no part 1 in the series “none”"),
        (("publish", "sill", "99"), "There is no part 99"),
        (("publish", "sill", "-1"), "the following arguments|is not an episode"),
        (("publish", "sill", "٣"), "There is no part|is not an episode"),
        (("publish", "sill", "2"), "no frozen revision yet"),
        (("export", "../up"), "There is no series “../up”"),
    ):
        error = refused(capsys, *words, "--to", to, "--data", data)
        assert any(piece in error["message"] for piece in says.split("|")), error
    assert not to.exists()
