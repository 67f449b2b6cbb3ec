"""SubRip, read tolerantly: there is no standard, so only a timing line counts.

A timing line is the only thing that starts a cue. The number line is optional;
comma and full stop both separate the milliseconds; hours and milliseconds may
be missing. A cue that is empty or has a negative time is left out and told.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from app.core.cue import Captions, Cue, Remark, ends_before_start

ARROW = "-->"
TIME = r"(?:(-?\d{1,9}):)?(-?\d{1,9}):(-?\d{1,9})(?:([,.])(-?\d{1,9}))?"
TIMING = re.compile(rf"\s*{TIME}\s*-->\s*{TIME}(?:\s.*)?", re.ASCII)
# One side of a broken timing line: nothing at all, or the beginnings of a time.
HALF = re.compile(r"\s*|\s*-?\d+[:.,].*", re.ASCII)
NUMBER = re.compile(r"\s*\d+\s*", re.ASCII)
MARKUP = re.compile(
    r"\{\\[^{}]*\}|</?(?:i|b|u|font)(?:\s[^<>]*)?>", re.IGNORECASE | re.ASCII
)


def read(text: str) -> Captions:
    """The cues of decoded text; none where it is not SubRip."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    reader = _Reader()
    for number, line in enumerate(lines, start=1):
        reader.take(number, line)
    reader.finish()
    return Captions(
        "SubRip",
        tuple(reader.cues),
        tuple(sorted(reader.skipped, key=_by_line)),
        tuple(sorted(reader.warnings, key=_by_line)),
    )


def plain(text: str) -> str:
    """What a viewer reads: without brace tags and the four HTML tags."""
    lines = MARKUP.sub("", text).split("\n")
    return "\n".join(line.strip() for line in lines).strip()


@dataclass
class _Open:
    """A cue whose text is still coming; ``why`` is set where it will be dropped."""

    line: int
    start_ms: int = 0
    end_ms: int = 0
    kind: str = ""
    why: str = ""
    text: list[str] = field(default_factory=list)


@dataclass
class _Reader:
    cues: list[Cue] = field(default_factory=list)
    skipped: list[Remark] = field(default_factory=list)
    warnings: list[Remark] = field(default_factory=list)
    open: _Open | None = None
    # Lines since the last blank that belong to no cue so far, with their numbers.
    loose: list[tuple[int, str]] = field(default_factory=list)

    def take(self, number: int, line: str) -> None:
        """One line of the file."""
        timing = TIMING.fullmatch(line) if ARROW in line else None
        if timing is not None:
            self._begin(_opened(number, timing), dotted="." in timing.group(4, 9))
        elif self._is_broken_timing(line):
            self._begin(_broken(number, line), dotted=False)
        elif not line.strip():
            self._close()
            self._drop_loose()
        elif self.open is not None:
            self.open.text.append(line)
        else:
            self.loose.append((number, line))

    def finish(self) -> None:
        """The end of the file."""
        self._close()
        self._drop_loose()

    def _is_broken_timing(self, line: str) -> bool:
        if ARROW not in line:
            return False
        before, _, after = line.partition(ARROW)
        # “cut --> glue” in the middle of a cue is text, not a timing line.
        return self.open is None or any(
            HALF.fullmatch(side) for side in (before, after)
        )

    def _begin(self, cue: _Open, *, dotted: bool) -> None:
        if not self._take_number() and not cue.why:
            self.warnings.append(
                Remark(
                    cue.line,
                    "missing index",
                    "The cue has no number above its times; it was kept.",
                )
            )
        self._close()
        self._drop_loose()
        self.open = cue
        if dotted and not cue.why:
            self.warnings.append(
                Remark(
                    cue.line,
                    "full stop as separator",
                    "The milliseconds stand after a full stop; SubRip has a comma. "
                    "The cue was kept.",
                )
            )

    def _take_number(self) -> bool:
        """Take the number line that stands right above a timing line."""
        if self.open is not None:  # no blank line in between
            above = self.open.text
            found = bool(above) and NUMBER.fullmatch(above[-1]) is not None
            if found:
                above.pop()
            return found
        found = bool(self.loose) and NUMBER.fullmatch(self.loose[-1][1]) is not None
        if found:
            self.loose.pop()
        return found

    def _close(self) -> None:
        cue, self.open = self.open, None
        if cue is None:
            return
        raw = "\n".join(cue.text).strip()
        text = plain(raw)
        if cue.why:
            self.skipped.append(Remark(cue.line, cue.kind, cue.why))
        elif not text:
            self.skipped.append(
                Remark(
                    cue.line,
                    "empty cue",
                    "The cue has times but no text, so it was left out.",
                )
            )
        else:
            self.cues.append(Cue(cue.start_ms, cue.end_ms, text, raw))
            if cue.end_ms < cue.start_ms:
                self.warnings.append(ends_before_start(cue.line))

    def _drop_loose(self) -> None:
        loose, self.loose = self.loose, []
        if not loose:
            return
        line, shown = loose[0][0], " ".join(text.strip() for _, text in loose)
        if all(NUMBER.fullmatch(text) for _, text in loose):
            kind, why = "unfinished block", "is a number with no times below it"
        else:
            kind, why = "block without timing", "has no line of times above it"
        shown = shown if len(shown) <= 60 else shown[:59] + "…"
        self.skipped.append(Remark(line, kind, f"“{shown}” {why} and was left out."))


def _opened(line: int, timing: re.Match[str]) -> _Open:
    groups = timing.groups("0")
    if any(part.startswith("-") for part in groups):
        why = "A time is negative, so the cue was left out. Shift the captions."
        return _Open(line, kind="negative time", why=why)
    return _Open(line, _ms(groups[:5]), _ms(groups[5:]))


def _ms(parts: tuple[str, ...]) -> int:
    hours, minutes, seconds, _, fraction = parts
    whole = (int(hours) * 60 + int(minutes)) * 60 + int(seconds)
    return whole * 1000 + int(fraction[:3].ljust(3, "0"))


def _broken(line: int, text: str) -> _Open:
    shown = text.strip()
    shown = shown if len(shown) <= 60 else shown[:59] + "…"
    return _Open(
        line,
        kind="malformed timing line",
        why=f"The times “{shown}” cannot be read, so the cue was left out. "
        "Write 00:00:01,000 --> 00:00:03,500.",
    )


def _by_line(remark: Remark) -> int:
    return remark.line
