"""The first command on a fresh machine: what it checks, what it says."""

from __future__ import annotations

import re
import sys
import tomllib
from pathlib import Path

import pytest

from app import bootstrap
from app.bootstrap import CHECKOUT, PIN, CannotSetUp
from tests import chromium
from tests.__main__ import main

LOCKS = ["requirements.lock", "requirements-test.lock"]


def pins(lock: str) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for name, version, _ in PIN.findall((CHECKOUT / lock).read_text("utf-8")):
        found.setdefault(name, set()).add(version)
    return found


@pytest.mark.parametrize("lock", LOCKS)
def test_every_pin_carries_hashes_and_no_lock_names_a_host(lock: str) -> None:
    text = (CHECKOUT / lock).read_text(encoding="utf-8")
    entries = re.split(r"\n(?=\S)", text.strip())
    assert len(entries) == len(PIN.findall(text))
    assert all("--hash=sha256:" in entry for entry in entries)
    assert "://" not in text


def test_the_locks_hold_everything_the_project_asks_for_and_agree() -> None:
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    asked = {
        "requirements.lock": project["dependencies"],
        "requirements-test.lock": [
            *project["dependencies"],
            *project["optional-dependencies"]["test"],
        ],
    }
    for lock, wanted in asked.items():
        for requirement in wanted:
            name = re.split(r"[<>=!~; \[]", requirement)[0].lower()
            assert name in pins(lock), f"{name} is not in {lock}"
    tested = pins("requirements-test.lock")
    for name, versions in pins("requirements.lock").items():
        assert tested[name] == versions


def test_every_dependency_has_a_lowest_and_a_highest_version() -> None:
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    for requirement in [
        *project["dependencies"],
        *project["optional-dependencies"]["test"],
    ]:
        assert ">=" in requirement
        # tzdata counts by year and keeps no promise that a version could break.
        assert "<" in requirement or requirement.startswith("tzdata")


def test_these_tests_run_on_the_locked_versions() -> None:
    assert bootstrap._at_locked_state(CHECKOUT / "requirements-test.lock")


@pytest.mark.parametrize("pin", ["flask==0.1", "no-such-package==1.0"])
def test_another_version_or_a_missing_package_is_noticed(
    tmp_path: Path, pin: str
) -> None:
    lock = tmp_path / "other.lock"
    lock.write_text(f"{pin} \\\n    --hash=sha256:00\n", encoding="utf-8")
    assert not bootstrap._at_locked_state(lock)


def test_a_package_for_another_system_may_be_missing(tmp_path: Path) -> None:
    lock = tmp_path / "other.lock"
    line = "no-such-package==1.0 ; sys_platform == 'win32'\n"
    lock.write_text(line, encoding="utf-8")
    assert bootstrap._at_locked_state(lock)


def test_a_changed_lock_is_installed_again(tmp_path: Path) -> None:
    lock = tmp_path / "some.lock"
    lock.write_text("a==1\n", encoding="utf-8")
    bootstrap._stamp(tmp_path, lock)
    assert bootstrap._stamped(tmp_path, lock)
    lock.write_text("a==2\n", encoding="utf-8")
    assert not bootstrap._stamped(tmp_path, lock)


def test_a_python_too_old_says_which_would_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 18, "final", 0))
    monkeypatch.setenv("PATH", "")
    with pytest.raises(CannotSetUp, match=r"needs Python 3\.11 or 3\.12; this is 3\.9"):
        bootstrap._supported_python()


def test_a_python_without_its_installer_says_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    with pytest.raises(CannotSetUp, match="python3-venv"):
        bootstrap._supported_python()


def test_packages_that_cannot_be_fetched_are_a_sentence_and_no_stamp(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    lock = tmp_path / "other.lock"
    lock.write_text("no-such-package==1.0 --hash=sha256:00\n", encoding="utf-8")
    with pytest.raises(CannotSetUp, match="check it and run the same command again"):
        bootstrap._install(Path(sys.executable), lock)
    assert not bootstrap._stamped(tmp_path, lock)


def test_a_wheel_without_a_lock_file_needs_no_set_up() -> None:
    bootstrap.ready("no-such.lock", "app")


def test_without_a_browser_the_run_fails_and_says_what_would_help(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(chromium, "found", lambda: None)
    monkeypatch.setattr(chromium, "fetch", lambda: "no network here")
    assert main([]) == 1
    said = capsys.readouterr().err
    assert "could not be got by itself" in said
    assert "--no-browser-tests" in said
    assert "no network here" in said


def test_a_browser_named_by_hand_is_the_one_driven(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv(chromium.VARIABLE, "some-browser")
    assert chromium.found() == "some-browser"
