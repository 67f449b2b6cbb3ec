"""Templates of what is typeset: the plan to print and the page of an episode."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import as_file, files
from pathlib import Path

HERE = files(__name__)
PLAN = "plan.typ"


def text(name: str) -> str:
    """A template's source."""
    return HERE.joinpath(name).read_text("utf-8")


@contextmanager
def folder() -> Iterator[Path]:
    """A folder with nothing but the plan's template, gone afterwards.

    It is all that the typesetting engine is let see of the disk.
    """
    with tempfile.TemporaryDirectory(prefix="stockthread-plan-") as name:
        root = Path(name)
        (root / PLAN).write_text(text(PLAN), "utf-8")
        yield root


@contextmanager
def fonts() -> Iterator[Path]:
    """The folder of the family that the plan is set in."""
    with as_file(HERE.joinpath("fonts")) as found:
        yield found
