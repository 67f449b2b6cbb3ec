"""The wheel carries all that the program needs, and runs without the checkout."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from app.bootstrap import CHECKOUT


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built wheel."""
    room = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(room)],
        cwd=CHECKOUT,
        check=True,
        capture_output=True,
    )
    (built,) = room.glob("*.whl")
    return built


def test_what_lies_beside_the_code_travels_in_the_wheel(wheel: Path) -> None:
    held = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("templates", "static", "demo_series"):
        beside = [path for path in (CHECKOUT / folder).rglob("*") if path.is_file()]
        assert beside
        for path in beside:
            assert f"app/{path.relative_to(CHECKOUT).as_posix()}" in held
    for path in (CHECKOUT / "app").rglob("*"):
        if path.suffix in {".py", ".csv", ".mako", ".typ"}:
            assert path.relative_to(CHECKOUT).as_posix() in held


def test_no_test_and_no_lock_travels_in_the_wheel(wheel: Path) -> None:
    held = zipfile.ZipFile(wheel).namelist()
    assert not [name for name in held if name.startswith("tests/")]
    assert not [name for name in held if name.endswith((".lock", ".pyc"))]


START = """
import runpy, sys
sys.path.insert(0, sys.argv[1])
runpy.run_path(sys.argv[2], run_name="__main__")
"""


def test_the_first_page_answers_from_the_wheel_alone(
    wheel: Path, tmp_path: Path
) -> None:
    zipfile.ZipFile(wheel).extractall(tmp_path / "site")
    # Only the wheel's folder comes before the libraries: the checkout, which
    # an editable install puts on the path, must not be what answers.
    done = subprocess.run(
        [
            *(sys.executable, "-c", START),
            *(str(tmp_path / "site"), str(CHECKOUT / "tests/wheel_page.py")),
        ],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
