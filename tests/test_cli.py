"""The commands: their documents, exit codes and refusals."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from app import cli
from app.services import files
from app.store.workspace import Workspace, hold_for_serving, open_workspace
from tests.services.two_series import contents, fill

VTT = "WEBVTT\n\n00:01.000 --> 00:02.500\nSix sides.\n"
JOB: dict[str, Any] = {
    "unit": "in",
    "saw": {"kerf": "1/8", "end_trim": "1/2", "edge_trim": "1/8"},
    "keep": {"length": 8, "width": 1},
    "stages": 3,
    "first": "either",
    "stock": [
        {"id": "B1", "length": 48, "width": "5 1/2", "thickness": "3/4", "quantity": 1}
    ],
    "parts": [
        {"id": "rail", "length": 12, "width": 2, "thickness": "3/4", "quantity": 2},
        {"id": "beam", "length": 99, "width": 2, "thickness": "3/4", "quantity": 1},
    ],
}


@pytest.fixture
def data(tmp_path: Path) -> Path:
    opened = open_workspace(tmp_path / "data")
    fill(opened)
    opened.close()
    return opened.folder


class Ran:
    """One command: its exit code, its document, what it said beside it."""

    def __init__(self, capsys: pytest.CaptureFixture[str], *argv: object) -> None:
        self.code = cli.main([str(word) for word in argv])
        said = capsys.readouterr()
        self.out, self.beside = said.out, said.err

    @property
    def document(self) -> Any:
        return json.loads(self.out)


def test_a_series_travels_by_command_and_comes_out_the_same(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out, again = tmp_path / "out.zip", tmp_path / "again.zip"
    other = tmp_path / "other"
    ran = Ran(capsys, "export", "sill", "--to", out, "--data", data, "--json")
    assert (ran.code, ran.document) == (0, {"path": str(out)})
    ran = Ran(capsys, "import", out, "--data", other, "--json")
    assert ran.code == 0
    assert ran.document == {"slug": "sill", "title": "Series sill", "episodes": 2}
    Ran(capsys, "export", "sill", "--to", again, "--data", other)
    assert again.read_bytes() == out.read_bytes()


def test_a_backup_comes_back_by_command_and_is_found_sound(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    saved, new = tmp_path / "shop.zip", tmp_path / "new"
    ran = Ran(capsys, "backup", "--to", saved, "--data", data, "--json")
    assert (ran.code, ran.document["bytes"]) == (0, saved.stat().st_size)
    ran = Ran(capsys, "restore", saved, "--data", new, "--json")
    assert (ran.code, ran.document["data"]) == (0, str(new))
    ran = Ran(capsys, "check", "--deep", "--data", new, "--json")
    assert (ran.code, ran.document["sound"], ran.document["findings"]) == (0, True, [])


def test_check_ends_with_1_and_names_what_is_wrong(
    data: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lost = next(name for name in contents(data) if name.startswith("files/"))
    (data / lost).unlink()
    ran = Ran(capsys, "check", "--data", data, "--json")
    assert ran.code == 1
    assert [item["where"] for item in ran.document["findings"]] == [lost]
    assert f"{lost}: the file is missing." in Ran(capsys, "check", "--data", data).out


def test_commands_run_beside_a_server(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with hold_for_serving(data):
        for words in (
            ("backup", "--to", tmp_path / "beside.zip"),
            ("export", "sill", "--to", tmp_path / "beside"),
            ("check", "--deep"),
        ):
            assert Ran(capsys, *words, "--data", data).code == 0


def test_a_plan_names_what_has_no_place_and_still_is_done(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.json"
    job.write_text(json.dumps(JOB))
    ran = Ran(capsys, "cut", job, "--svg", tmp_path / "svg", "--json")
    assert ran.code == 0
    assert {"layouts", "unplaced", "totals", "levels", "seconds"} <= set(ran.document)
    assert [item["part"] for item in ran.document["unplaced"]] == ["beam"]
    totals = ran.document["totals"]
    kinds = ("parts", "kerf", "offcuts", "scrap")
    areas = [totals[f"area_{kind}_nm2"] for kind in kinds]
    assert totals["area_stock_nm2"] == sum(areas)
    drawings = list((tmp_path / "svg").iterdir())
    assert drawings
    assert all(path.read_text().startswith("<svg") for path in drawings)


def test_captions_are_counted_and_with_cues_read_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "cut.vtt").write_text(VTT)
    ran = Ran(capsys, "captions", tmp_path / "cut.vtt", "--json")
    lists = {"skipped", "said", "promises", "mentions"}
    assert lists <= set(ran.document)
    assert "cue_list" not in ran.document
    ran = Ran(capsys, "captions", tmp_path / "cut.vtt", "--cues", "--json")
    cue = {"start_ms": 1000, "end_ms": 2500, "text": "Six sides."}
    assert ran.document["cue_list"] == [cue]


REFUSED: dict[str, tuple[list[str], str | None]] = {
    "no captions": (["captions", "{tmp}/text.txt"], None),
    "a file that is not there": (["captions", "{tmp}/nothing.vtt"], "file"),
    "a job that is not JSON": (["cut", "{tmp}/text.txt"], None),
    "seconds that are a word": (["cut", "{tmp}/text.txt", "--seconds", "x"], "seconds"),
    "a series that is not there": (
        ["export", "none", "--to", "{tmp}/x", "--data", "{data}"],
        None,
    ),
    "an export over something": (
        ["export", "sill", "--to", "{tmp}", "--data", "{data}"],
        "to",
    ),
    "an episode that is a word": (
        ["publish", "sill", "two", "--to", "{tmp}/x", "--data", "{data}"],
        "episode",
    ),
    "an episode that never was": (
        ["publish", "sill", "9", "--to", "{tmp}/x", "--data", "{data}"],
        None,
    ),
    "no workspace": (["check", "--data", "{tmp}/nothing"], "data"),
    "a port beyond all": (["serve", "--data", "{data}", "--port", "70000"], "port"),
    "an unknown command": (["saw"], None),
    "an unknown option": (["check", "--fast"], None),
    "a missing option": (["backup"], None),
    "an archive that is none": (
        ["import", "{tmp}/text.txt", "--data", "{tmp}/n"],
        "file",
    ),
    "nothing to bring in": (["import", "{tmp}/nothing", "--data", "{tmp}/n"], "path"),
    "a restore over something": (["restore", "{tmp}/x", "--data", "{tmp}"], "file"),
    "a demo over something": (["demo", "--data", "{data}", "--no-browser"], "data"),
}


@pytest.mark.parametrize("what", REFUSED)
def test_wrong_input_ends_with_2_and_a_document_that_names_it(
    what: str, data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "text.txt").write_text("This is no such file.")
    words, field = REFUSED[what]
    argv = [word.format(tmp=tmp_path, data=data) for word in words]
    before = contents(data)
    ran = Ran(capsys, *argv, "--json")
    assert ran.code == 2
    error = ran.document["error"]
    assert set(error) == {"input", "message", "nearest"}
    assert error["input"] == field or field is None
    assert error["message"].endswith((".", "help", "?"))
    plain = Ran(capsys, *argv)
    assert (plain.code, plain.out) == (2, "")
    assert error["message"] in plain.beside
    assert contents(data) == before


def test_a_program_error_ends_with_1_in_one_line(
    data: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("two\nlines")

    monkeypatch.setattr(files, "export_series", broken)
    ran = Ran(capsys, "export", "sill", "--to", "x", "--data", data)
    assert (ran.code, ran.out) == (1, "")
    assert ran.beside == "stockthread failed: RuntimeError: two lines\n"
    with pytest.raises(RuntimeError):
        cli.main(["export", "sill", "--to", "x", "--data", str(data), "--debug"])


def run(*argv: object) -> subprocess.CompletedProcess[str]:
    words = [sys.executable, "-c", "import app.cli as c; raise SystemExit(c.main())"]
    return subprocess.run(
        [*words, *(str(word) for word in argv)],
        capture_output=True,
        text=True,
        check=False,
        cwd=Path(__file__).parents[1],
    )


def test_the_program_itself_prints_one_document_and_gives_the_exit_code(
    data: Path,
) -> None:
    sound = run("check", "--data", data, "--json")
    assert (sound.returncode, sound.stderr) == (0, "")
    assert json.loads(sound.stdout)["sound"] is True
    refused = run("check", "--data", data / "none", "--json")
    assert refused.returncode == 2
    assert json.loads(refused.stdout)["error"]["input"] == "data"


def test_a_reader_that_stops_early_is_told_nothing_more() -> None:
    words = "import app.cli as c; raise SystemExit(c.main())"
    command = [sys.executable, "-c", words, "size", "--list", "--json"]
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=Path(__file__).parents[1],
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.read(10)
        running.stdout.close()
        assert running.stderr.read() == b""
        assert running.wait(30) == 1


def test_starting_a_command_loads_no_framework() -> None:
    heavy = ("flask", "sqlalchemy", "PIL", "typst")
    code = f"import sys, app.cli; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_an_empty_folder_becomes_a_workspace_only_by_importing(
    workspace: Workspace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    ran = Ran(capsys, "backup", "--to", tmp_path / "b.zip", "--data", tmp_path / "none")
    assert ran.code == 2
    assert not (tmp_path / "none").exists()


@pytest.mark.parametrize(
    "words",
    [
        ("sides=6", "outside_side=100", "--unit", "mm"),
        ("--unit", "mm", "sides=6", "outside_side=100"),
        ("sides=6", "--unit", "mm", "outside_side=100"),
    ],
)
def test_inputs_and_options_stand_in_any_order(
    words: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["size", "straight_vessel", *words, "--json"]) == 0
    made = json.loads(capsys.readouterr().out)
    assert made["inputs"]["outside_side"] == "100 mm"
