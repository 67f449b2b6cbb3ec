"""Times in a film: whole milliseconds from its start, shown as a viewer types them."""

from __future__ import annotations

import re

from app.core.errors import WorkshopError

LONGEST_MS = 24 * 3600 * 1000
_STAMP = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)(?:\.(\d{1,3}))?")


def film_time(ms: int) -> str:
    """``m:ss``, or ``h:mm:ss`` from an hour on; parts of a second are cut off."""
    minutes, seconds = divmod(ms // 1000, 60)
    hours, minutes = divmod(minutes, 60)
    if hours:
        return f"{hours}:{minutes:02d}:{seconds:02d}"
    return f"{minutes}:{seconds:02d}"


def read_film_time(typed: str, *, input: str = "") -> int | None:
    """Milliseconds from ``m:ss`` or ``h:mm:ss``; None where nothing is typed."""
    text = typed.strip()
    if not text:
        return None
    found = _STAMP.fullmatch(text)
    if not found or (found[1] and int(found[2]) > 59):
        raise WorkshopError(
            f"“{text[:40]}” is not a time in the film. Type it like 2:30 or 1:02:30.",
            input=input,
        )
    hours, minutes, seconds = (int(found[i] or 0) for i in (1, 2, 3))
    ms = ((hours * 60 + minutes) * 60 + seconds) * 1000
    ms += int((found[4] or "0").ljust(3, "0"))
    if ms > LONGEST_MS:
        raise WorkshopError(
            f"“{text}” is more than a day into the film. Type it like 2:30 or 1:02:30.",
            input=input,
        )
    return ms
