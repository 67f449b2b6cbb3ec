"""Dates as people type them."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date

from app.core.errors import WorkshopError

EXAMPLE = "Type it like 2026-03-02."
_PLAIN = re.compile(r"(\d{4})-(\d{2})-(\d{2})", re.ASCII)
# Nothing of a series lies outside; a year like 0206 is a slip of the finger.
_FIRST, _LAST = 1900, 2199


def read_day(typed: str, *, input: str = "") -> date | None:
    """A date like ``2026-03-02``; None where nothing is typed."""
    text = typed.strip()
    if not text:
        return None
    found = _PLAIN.fullmatch(text)
    if found is None:
        raise WorkshopError(f"“{text[:40]}” is not a date. {EXAMPLE}", input=input)
    year, month, day = (int(figures) for figures in found.groups())
    if fault := _fault(year, month, day):
        raise WorkshopError(
            f"“{text}” is not in the calendar: {fault}. {EXAMPLE}", input=input
        )
    return date(year, month, day)


def _fault(year: int, month: int, day: int) -> str:
    if not _FIRST <= year <= _LAST:
        return f"years go from {_FIRST} to {_LAST} here"
    if not 1 <= month <= 12:
        return "a year has the months 01 to 12"
    last = monthrange(year, month)[1]
    if not 1 <= day <= last:
        return f"{date(year, month, 1):%B %Y} has the days 01 to {last}"
    return ""


def read_past_day(typed: str, today: date, *, input: str = "") -> date:
    """The day on which something happened; today where nothing is typed.

    Raises WorkshopError for a day still to come.
    """
    day = read_day(typed, input=input) or today
    if day > today:
        raise WorkshopError(
            f"{day} is still to come. Record what has happened, with a day up to "
            f"{today}.",
            input=input,
            nearest=today.isoformat(),
        )
    return day
