"""WebVTT, read by the standard's own parsing algorithm.

Source: WebVTT: The Web Video Text Tracks Format, W3C, sections 4.1 (file
structure), 6.1 (file parsing), 6.3 (timings) and 6.4 (cue text).
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html import unescape

from app.core.cue import Captions, Cue, Remark, ends_before_start

SIGNATURE = re.compile(r"WEBVTT(?=[ \t\r\n]|$)")
ARROW = "-->"
# Hours of more digits than this are no time of a film; the standard sets no limit.
TIMESTAMP = re.compile(
    r"([0-9]{1,9}):([0-9]{2})(?::([0-9]{2}))?\.([0-9]{3})(?![0-9])", re.ASCII
)
SPACE = " \t\f"
# A tag that the text ends in the middle of runs to the end (6.4, tokenizer).
TAG = re.compile(r"<[^>]*(?:>|\Z)")


def has_signature(text: str) -> bool:
    """Whether decoded text begins as a WebVTT file must."""
    return SIGNATURE.match(text) is not None


def read(text: str, *, damaged: bool = False) -> Captions:
    """The cues of a WebVTT file whose signature was checked.

    ``text`` is decoded, without byte order mark; ``damaged``: some bytes were
    not UTF-8, which is told.
    """
    text = text.replace("\0", "\N{REPLACEMENT CHARACTER}")
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    reader = _Reader(lines)
    if damaged:
        reader.warnings.append(
            Remark(
                1,
                "not UTF-8",
                "Some letters are not UTF-8, as WebVTT must be, and were replaced "
                "by a sign. Save the file as UTF-8.",
            )
        )
    reader.header()
    while reader.at < len(lines):
        reader.block()
    return Captions(
        "WebVTT", tuple(reader.cues), tuple(reader.skipped), tuple(reader.warnings)
    )


def plain(cue_text: str) -> str:
    """What a viewer reads: text nodes without tags, references decoded."""
    # Each piece by itself: a reference does not reach across a tag.
    return "".join(unescape(piece) for piece in TAG.split(cue_text))


def timestamp_ms(text: str, at: int) -> tuple[int, int] | None:
    """A time at ``at`` as milliseconds with the place behind it; None if bad."""
    found = TIMESTAMP.match(text, at)
    if found is None:
        return None
    first, second, third, thousandths = found.groups()
    if third is None:
        if len(first) != 2 or int(first) > 59:
            return None  # it counts as hours, and then the seconds are missing
        first, second, third = "0", first, second
    if int(second) > 59 or int(third) > 59:
        return None
    seconds = (int(first) * 60 + int(second)) * 60 + int(third)
    return seconds * 1000 + int(thousandths), found.end()


def timings_ms(line: str) -> tuple[int, int] | None:
    """Start and end of a timing line; settings after them are for display."""
    start = timestamp_ms(line, _after_space(line, 0))
    if start is None:
        return None
    at = _after_space(line, start[1])
    if not line.startswith(ARROW, at):
        return None
    end = timestamp_ms(line, _after_space(line, at + len(ARROW)))
    return None if end is None else (start[0], end[0])


def _after_space(line: str, at: int) -> int:
    while at < len(line) and line[at] in SPACE:
        at += 1
    return at


@dataclass
class _Reader:
    """The standard's position in the input, in lines instead of characters."""

    lines: list[str]
    at: int = 1
    cues: list[Cue] = field(default_factory=list)
    skipped: list[Remark] = field(default_factory=list)
    warnings: list[Remark] = field(default_factory=list)

    def header(self) -> None:
        """Pass over the lines below the signature, up to a blank or a cue."""
        while self.at < len(self.lines):
            line = self.lines[self.at]
            if ARROW in line:
                return
            self.at += 1
            if not line:
                return

    def block(self) -> None:
        """One block: a cue, or something that is passed over."""
        first = self.at
        identifier = self.lines[self.at]
        if not identifier:
            self.at += 1
            return
        if ARROW not in identifier:
            self.at += 1
            following = self.lines[self.at] if self.at < len(self.lines) else ""
            if ARROW not in following:
                self._pass_over(first)
                return
        self._cue()

    def _pass_over(self, first: int) -> None:
        word = self.lines[first]
        rest = self._text()
        if word.rstrip(SPACE) in {"STYLE", "REGION"} or word.split(maxsplit=1)[:1] == [
            "NOTE"
        ]:
            return
        shown = f"{word} {rest}".strip()
        self.skipped.append(
            Remark(
                first + 1,
                "block without timing",
                f"“{_short(shown)}” has no line of times above it and was left out.",
            )
        )

    def _cue(self) -> None:
        line = self.at
        times = timings_ms(self.lines[line])
        self.at += 1
        raw = self._text()
        if times is None:
            self.skipped.append(_malformed(line + 1, self.lines[line]))
            return
        self.cues.append(Cue(*times, plain(raw), raw))
        if times[1] < times[0]:
            self.warnings.append(ends_before_start(line + 1))

    def _text(self) -> str:
        """Lines up to a blank one or to the next arrow, which is left standing."""
        start = self.at
        while self.at < len(self.lines):
            line = self.lines[self.at]
            if not line or ARROW in line:
                break
            self.at += 1
        return "\n".join(self.lines[start : self.at])


def _malformed(line: int, text: str) -> Remark:
    return Remark(
        line,
        "malformed timing line",
        f"The times “{_short(text.strip())}” are not WebVTT, so the cue was left out. "
        "Write 00:00:01.000 --> 00:00:03.500, always with three digits after a full "
        "stop.",
    )


def _short(text: str) -> str:
    line = " ".join(text.split())
    return line if len(line) <= 60 else line[:59] + "…"
