"""The browser that the browser tests drive: found on this machine, or fetched."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

# Names under which distributions install it.
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
VARIABLE = "STOCKTHREAD_BROWSER"


def on_system() -> str | None:
    """The executable named by the variable or on the PATH; None: the fetched one."""
    named = os.environ.get(VARIABLE)
    return named or next(filter(None, map(shutil.which, NAMES)), None)


def found() -> str | None:
    """The executable there is to drive, if any."""
    return on_system() or _fetched()


def _fetched() -> str | None:
    from playwright.sync_api import sync_playwright  # noqa: PLC0415  slow to import

    with sync_playwright() as play:
        path = play.chromium.executable_path
    return path if Path(path).is_file() else None


def fetch() -> str:
    """Get a browser by itself; what went wrong, or nothing.

    From the distribution where this is Debian and we may install (its browser
    brings the libraries it needs), else from the browser driver's own store.
    """
    if shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
        print("Installing chromium for the browser tests, once.", flush=True)
        fault = _ran(["apt-get", "update", "-qq"]) or _ran(
            ["apt-get", "install", "-qq", "-y", "--no-install-recommends", "chromium"]
        )
        if not fault and found():
            return ""
    print("Fetching a browser for the browser tests, once.", flush=True)
    return _ran([sys.executable, "-m", "playwright", "install", "chromium"])


def _ran(command: list[str]) -> str:
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except OSError as fault:
        return str(fault)
    told = (done.stderr or done.stdout).strip()
    return "\n".join(told.splitlines()[-6:]) if done.returncode else ""
