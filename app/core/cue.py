"""Captions as values: cues, and what was said about the file on reading it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cue:
    """One line of the captions.

    Times are whole milliseconds of the final cut. ``text`` is what a viewer
    reads; ``raw`` is the file's own text, with its tags and character references.
    """

    start_ms: int
    end_ms: int
    text: str
    raw: str


@dataclass(frozen=True, slots=True)
class Remark:
    """Something to tell about one place of the file.

    ``line`` counts from 1. ``kind`` is a short name that stays the same;
    ``why`` is the sentence for a person.
    """

    line: int
    kind: str
    why: str


@dataclass(frozen=True, slots=True)
class Captions:
    """A caption file, read.

    ``skipped`` is what was left out, ``warnings`` what was kept although it
    looks wrong; both in line order.
    """

    format: str
    cues: tuple[Cue, ...]
    skipped: tuple[Remark, ...] = ()
    warnings: tuple[Remark, ...] = ()


def ends_before_start(line: int) -> Remark:
    """Kept, because every reader keeps it, but nobody will see it."""
    return Remark(
        line,
        "ends before it starts",
        "The cue ends before it starts, so players never show it. Correct its times.",
    )
