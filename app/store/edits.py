"""Catching stale edits: every saved row is compared by version."""

from __future__ import annotations

from typing import Any, TypeVar

from sqlalchemy.orm import Session

from app.core.errors import NotFound, StaleEdit

Row = TypeVar("Row")


def get(work: Session, table: type[Row], row_id: int, thing: str) -> Row:
    """The row, or NotFound naming ``thing``."""
    row = work.get(table, row_id)
    if row is None:
        raise NotFound(f"{thing} {row_id} is not in this workspace.")
    return row


def check_version(row: Any, version: int, thing: str, stored: dict[str, str]) -> None:
    """Refuse a save made from an older copy of ``row``; count up otherwise.

    ``stored`` is what is saved now, by field, as it would be typed.
    """
    if row.version != version:
        raise StaleEdit(thing, stored | {"version": str(row.version)})
    row.version += 1
