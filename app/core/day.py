"""Dates as people type them."""

from __future__ import annotations

from datetime import date

from app.core.errors import WorkshopError


def read_day(typed: str, *, input: str = "") -> date | None:
    """A date like ``2026-03-02``; None where nothing is typed."""
    text = typed.strip()
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise WorkshopError(
            f"“{text[:40]}” is not a date. Type it like 2026-03-02.", input=input
        ) from None
