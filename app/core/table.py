"""A table of worked numbers that is read as a whole."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.size import Group


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of text under headings, already shown in the shop's display.

    The first column names the row. ``working`` is the formula in words with its
    values, ``source`` a publication, or 'common practice, no source'.
    """

    key: str
    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    working: str = ""
    source: str = "plane geometry"
    group: Group = Group.BUILD
