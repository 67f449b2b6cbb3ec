"""``python3 -m tests``: everything that must pass, on a machine with only Python.

Sets up as the program does, gets a browser for the browser tests, then runs
pytest with the arguments given. ``--no-browser-tests`` leaves those tests out
on a machine that can have no browser.
"""

from __future__ import annotations

import os
import sys

from app.bootstrap import CHECKOUT, ready

WITHOUT = "--no-browser-tests"


def main(arguments: list[str]) -> int:
    """Run pytest; its exit code, or 1 where a browser is wanted and missing."""
    ready("requirements-test.lock", "tests")
    import pytest  # noqa: PLC0415  installed by the line above

    os.chdir(CHECKOUT)
    chosen = [argument for argument in arguments if argument != WITHOUT]
    if WITHOUT in arguments:
        return int(pytest.main([*chosen, "-m", "not browser"]))
    missing = "" if _nothing_to_drive(chosen) else _no_browser()
    if missing:
        print(missing, file=sys.stderr)
        return 1
    return int(pytest.main([*chosen, *_spread(chosen)]))


def _nothing_to_drive(chosen: list[str]) -> bool:
    """Whether the tests asked for by path lie outside the browser tests."""
    paths = [argument for argument in chosen if argument.startswith("tests/")]
    return bool(paths) and not any("browser" in path for path in paths)


def _no_browser() -> str:
    from tests import chromium  # noqa: PLC0415  needs the driver installed

    fault = "" if chromium.found() else chromium.fetch()
    browser = chromium.found()
    if browser:
        os.environ[chromium.VARIABLE] = browser
        return ""
    return (
        "The browser tests need Chromium, and it could not be got by itself. "
        "Install Chromium or Chrome so that it is on the PATH, or name it in "
        f"{chromium.VARIABLE}, and run the same command again. "
        f"To leave the browser tests out: python3 -m tests {WITHOUT}\n\n{fault}"
    )


def _spread(chosen: list[str]) -> list[str]:
    """One worker a core, where a whole run is worth the workers' start."""
    asked = any(
        argument.startswith(("-n", "tests/", "-k", "--pdb")) for argument in chosen
    )
    return [] if asked or (os.cpu_count() or 1) < 2 else ["-n", "auto"]


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
