"""``log.md``: the build log as Markdown, each note under its own front matter.

    ---
    time: 2026-03-07T15:10:00+00:00
    zone: America/Chicago
    step: rip
    video: 1:02.500
    ---
    Text of the note.

A line of the text that is itself ``---`` is written ``\\---``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

RULE = "---"
_RULES = re.compile(r"^(\\*---)$", re.MULTILINE)
_ESCAPED = re.compile(r"^\\(\\*---)$", re.MULTILINE)
_VIDEO = re.compile(r"(\d+):([0-5]\d)(?:\.(\d{3}))?")


@dataclass(frozen=True, slots=True)
class LoggedNote:
    """One note as the file holds it; ``step`` is its key, ``video_ms`` film time."""

    time: datetime
    zone: str
    text: str
    step: str = ""
    video_ms: int | None = None


class BadLog(ValueError):
    """A log file that cannot be read; the message names the line."""


def write_log(notes: Iterable[LoggedNote]) -> bytes:
    """The notes as a file, in the order given."""
    return "".join(_written(note) for note in notes).encode()


def _written(note: LoggedNote) -> str:
    head = [f"time: {note.time.isoformat()}", f"zone: {note.zone}"]
    head += [f"step: {note.step}"] if note.step else []
    head += [f"video: {film_time(note.video_ms)}"] if note.video_ms is not None else []
    text = note.text.replace("\r\n", "\n").replace("\r", "\n")
    text = _RULES.sub(r"\\\1", text)
    return "\n".join([RULE, *head, RULE, text, ""])


def film_time(ms: int) -> str:
    """Minutes, seconds and thousandths: ``62:03.500``."""
    seconds, rest = divmod(ms, 1000)
    return f"{seconds // 60}:{seconds % 60:02d}" + (f".{rest:03d}" if rest else "")


def read_log(content: bytes) -> tuple[LoggedNote, ...]:
    """The notes of a file. Raises BadLog naming the line at fault."""
    try:
        lines = content.decode("utf-8").replace("\r\n", "\n").split("\n")
    except UnicodeDecodeError as error:
        raise BadLog(f"it is not UTF-8 text ({error})") from error
    if lines[-1] == "":
        lines.pop()
    rules = [at for at, line in enumerate(lines) if line == RULE]
    if (rules and rules[0] != 0) or (lines and not rules) or len(rules) % 2:
        raise BadLog(f"every note starts with front matter between two {RULE} lines")
    ends = [*rules[2::2], len(lines)][: len(rules) // 2]
    return tuple(
        _note(lines, start, middle, end)
        for start, middle, end in zip(rules[::2], rules[1::2], ends, strict=True)
    )


def _note(lines: list[str], start: int, middle: int, end: int) -> LoggedNote:
    head: dict[str, str] = {}
    for at in range(start + 1, middle):
        key, colon, value = lines[at].partition(":")
        if not colon or key in head or key not in ("time", "zone", "step", "video"):
            raise BadLog(f"line {at + 1}, “{lines[at][:40]}”, is no front matter")
        head[key] = value.strip()
    text = _ESCAPED.sub(r"\1", "\n".join(lines[middle + 1 : end]))
    return LoggedNote(
        _moment(head.get("time", ""), start + 2),
        head.get("zone", "UTC"),
        text,
        head.get("step", ""),
        _video_ms(head["video"]) if "video" in head else None,
    )


def _moment(text: str, line: int) -> datetime:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as error:
        raise BadLog(f"line {line}: “{text[:40]}” is no date and time") from error
    if moment.tzinfo is None:
        raise BadLog(f"line {line}: “{text}” does not say how far from UTC it is")
    return moment


def _video_ms(text: str) -> int:
    found = _VIDEO.fullmatch(text)
    if found is None:
        raise BadLog(f"“{text[:40]}” is no film time; write it like 12:30 or 12:30.500")
    return (int(found[1]) * 60 + int(found[2])) * 1000 + int(found[3] or 0)
