"""Set-up of a checkout on a machine that has Python and nothing else.

Only the standard library, and nothing newer than old Pythons can parse: this
file runs before anything is installed, and has to say so where Python is too
old. A wheel brings no lock file and needs none of this.
"""

from __future__ import annotations

import hashlib
import importlib.util
import os
import re
import shutil
import subprocess
import sys
from importlib import metadata
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parent.parent
SUPPORTED = ((3, 11), (3, 12))
# Where lines of a pip lock end in a marker, the package may not belong here.
PIN = re.compile(r"^([A-Za-z0-9._-]+)==([^\s;]+)(?:\s*(;))?", re.MULTILINE)


class CannotSetUp(Exception):
    """Why the set-up stops, in a sentence that says what would help."""


def ready(lock_name: str, module: str) -> None:
    """Return once the locked packages can be imported.

    Else make a virtual environment beside the checkout (or use the active
    one), install ``lock_name`` and the project into it, and start ``python -m
    module`` again inside. Leaves the process with a sentence where it cannot.
    """
    lock = CHECKOUT / lock_name
    if not lock.is_file():
        return  # installed from a wheel: pip has done it
    try:
        python = _set_up(lock)
    except CannotSetUp as refusal:
        raise SystemExit(str(refusal)) from None
    if python:
        _start_again(python, module)


def _set_up(lock: Path) -> Path | None:
    """The interpreter to start again with; None where this one is ready."""
    if _in_environment() and _supported(sys.version_info[:2]):
        home = Path(sys.prefix)
        if not (_stamped(home, lock) or _at_locked_state(lock)):
            _install(Path(sys.executable), lock)
        _stamp(home, lock)
        return None
    home = CHECKOUT / ".venv"
    python = interpreter(home)
    if not (python.is_file() and _stamped(home, lock)):
        if not (python.is_file() and _works([str(python), "-m", "pip", "--version"])):
            _make(home)
        _install(python, lock)
        _stamp(home, lock)
    return python


def _in_environment() -> bool:
    return sys.prefix != sys.base_prefix


def _supported(version: tuple[int, ...]) -> bool:
    return version in SUPPORTED


def interpreter(home: Path) -> Path:
    """The Python of the virtual environment at ``home``."""
    return home / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _stamp_file(home: Path, lock: Path) -> Path:
    return home / f"stockthread-{lock.stem}.sha256"


def _state(lock: Path) -> str:
    """What was asked for: the pins and the project's own metadata."""
    told = lock.read_bytes() + (CHECKOUT / "pyproject.toml").read_bytes()
    return hashlib.sha256(told).hexdigest()


def _stamped(home: Path, lock: Path) -> bool:
    stamp = _stamp_file(home, lock)
    return stamp.is_file() and stamp.read_text(encoding="ascii") == _state(lock)


def _stamp(home: Path, lock: Path) -> None:
    if not _stamped(home, lock) and os.access(home, os.W_OK):
        _stamp_file(home, lock).write_text(_state(lock), encoding="ascii")


def _at_locked_state(lock: Path) -> bool:
    """Whether every pinned package lies here at one of its pinned versions."""
    pins: dict[str, set[str | None]] = {}
    for name, version, marked in PIN.findall(lock.read_text(encoding="utf-8")):
        pins.setdefault(name, set()).add(version)
        if marked:
            pins[name].add(None)
    here = {name: _version(name) for name in [*pins, "stockthread"]}
    held = all(here[name] in versions for name, versions in pins.items())
    return held and here["stockthread"] is not None


def _version(name: str) -> str | None:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return None


def _make(home: Path) -> None:
    python = _supported_python()
    _say(f"Making {home.name} beside this checkout and filling it, once.")
    try:
        _run([python, "-m", "venv", "--clear", str(home)])
    except (subprocess.CalledProcessError, OSError) as fault:
        raise CannotSetUp(
            "A virtual environment could not be made: Python's venv module is "
            "missing or incomplete. On Debian and Ubuntu it is the package "
            "python3-venv; install it and run the same command again."
            f"{_last_words(fault)}"
        ) from None


def _supported_python() -> str:
    if _supported(sys.version_info[:2]):
        if not importlib.util.find_spec("ensurepip"):
            raise CannotSetUp(
                "Python's ensurepip module is missing, so packages cannot be "
                "installed. On Debian and Ubuntu it comes with python3-venv; "
                "install it and run the same command again."
            )
        return sys.executable
    for version in SUPPORTED:
        name = "python{}.{}".format(*version)
        found = shutil.which(name)
        if found and _works([found, "-c", "import ensurepip"]):
            return found
    wanted = " or ".join("{}.{}".format(*version) for version in SUPPORTED)
    raise CannotSetUp(
        f"Stockthread needs Python {wanted}; this is {{}}.{{}}".format(
            *sys.version_info[:2]
        )
        + ". Install one of them and run the same command with it."
    )


def _works(command: list[str]) -> bool:
    try:
        _run(command)
    except (subprocess.CalledProcessError, OSError):
        return False
    return True


def _install(python: Path, lock: Path) -> None:
    if not _works([str(python), "-m", "pip", "--version"]):
        raise CannotSetUp(
            "The active virtual environment has no pip. Leave it (deactivate) "
            "and run the same command again, or put pip into it."
        )
    _say(f"Installing what {lock.name} names; this takes a minute or two.")
    pip = [str(python), "-m", "pip", "install", "--quiet", "--no-input"]
    pip.append("--disable-pip-version-check")
    try:
        _run([*pip, "--require-hashes", "-r", str(lock)])
        # The locked hatchling builds the project itself: nothing more to fetch.
        project = ["--no-deps", "--no-build-isolation", "-e", str(CHECKOUT)]
        _run([*pip, *project])
    except subprocess.CalledProcessError as fault:
        raise CannotSetUp(
            "The packages could not be installed. Most often the network is the "
            "cause: check it and run the same command again."
            f"{_last_words(fault)}"
        ) from None


def _run(command: list[str]) -> None:
    # Standard output may be a JSON document; nothing else goes there.
    subprocess.run(command, check=True, capture_output=True, text=True)  # noqa: S603


def _last_words(fault: Exception) -> str:
    told = getattr(fault, "stderr", "") or getattr(fault, "stdout", "") or str(fault)
    lines = told.strip().splitlines()[-6:]
    return "\n\nWhat was said:\n" + "\n".join("  " + line for line in lines)


def _say(sentence: str) -> None:
    print(sentence, file=sys.stderr, flush=True)


def _start_again(python: Path, module: str) -> None:
    command = [str(python), "-m", module, *sys.argv[1:]]
    if os.name == "nt":
        raise SystemExit(subprocess.call(command))  # noqa: S603
    os.execv(str(python), command)  # noqa: S606
