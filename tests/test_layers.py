"""Imports point one way: web and cli, services, store and publish, core."""

from __future__ import annotations

import subprocess
import sys

from app.bootstrap import CHECKOUT

LINT = """
import sys
from importlinter.cli import lint_imports
sys.exit(lint_imports(no_cache=True, no_logo=True))
"""
LOAD_CORE = """
import importlib, pkgutil, sys
import app.core
for module in pkgutil.walk_packages(app.core.__path__, "app.core."):
    importlib.import_module(module.name)
print(*sorted({name.partition(".")[0] for name in sys.modules}))
"""


def test_the_import_that_points_the_wrong_way_is_named() -> None:
    # Apart: the linter sets up logging for its whole process.
    done = subprocess.run(
        [sys.executable, "-c", LINT],
        cwd=CHECKOUT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_loading_the_whole_core_loads_no_framework() -> None:
    done = subprocess.run(
        [sys.executable, "-c", LOAD_CORE],
        cwd=CHECKOUT,
        capture_output=True,
        text=True,
        check=True,
    )
    loaded = set(done.stdout.split())
    assert "fractions" in loaded
    assert not loaded & {"flask", "sqlalchemy", "jinja2", "PIL", "werkzeug", "alembic"}
