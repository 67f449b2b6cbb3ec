"""Chapters as viewers' players read them: a stamp and a title a line."""

from app.core.film_time import film_time
from app.publish.sheet import Sheet

TITLE = "Chapters"
FILE = "chapters.txt"


def render(sheet: Sheet) -> bytes:
    """``m:ss title``, or ``h:mm:ss`` from an hour on."""
    lines = (f"{film_time(c.start_ms)} {c.title}\n" for c in sheet.chapters)
    return "".join(lines).encode()
