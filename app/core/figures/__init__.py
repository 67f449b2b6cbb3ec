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


MINUTES = {"min": 1, "h": 60, "days": 24 * 60}


def row(name: str, key: str) -> dict[str, str]:
    """The row of ``key`` in table ``name``; KeyError where there is none."""
    found = next((row for row in table(name) if row["key"] == key), None)
    if found is None:
        raise KeyError(f"{key} in {name}.csv")
    return found


def limit(key: str) -> int:
    """A usual limit of those who carry films: characters, seconds, counts."""
    return int(row("publishing", key)["value"])


def minutes(key: str) -> int:
    """A time of gluing or finishing, in minutes."""
    found = row("finishing", key)
    return int(found["value"]) * MINUTES[found["unit"]]
