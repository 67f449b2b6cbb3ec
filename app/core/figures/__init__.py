"""The project's own tables of the trade's figures, read as they lie in the package."""

from __future__ import annotations

import csv
from functools import cache
from importlib import resources


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """The rows of ``name``.csv in file order, each by its column heads.

    Callers must not change a row: it is shared.
    """
    path = resources.files(__name__) / f"{name}.csv"
    return tuple(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


def words(text: str) -> tuple[str, ...]:
    """The entries of a cell that holds several, separated by semicolons."""
    return tuple(part.strip() for part in text.split(";") if part.strip())
