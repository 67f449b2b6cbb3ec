"""Reading a printed parts list, line by line: what is plain is read, the rest asked.

A line is ``4 posts, 1-1/2 by 1-1/2 by 30 in., S-4-S.``: how many, of what,
thickness by width by length in inches, then how it is surfaced or a note.
Nothing is guessed: a line that fits no part of this comes back as a question.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from app.core.length import LONGEST_NM, Length, NotALength, inches

_N = r"\d{1,6}"  # more is a slip of the finger
_SIZE = rf"({_N}-{_N}/{_N}|{_N} {_N}/{_N}|{_N}/{_N}|{_N})"
_INCH = r"(?: in\.)?"
_BY = r" (?:by|x|×) "
_LINE = re.compile(
    rf"(\d{{1,4}}) ([^\d,;]+), {_SIZE}{_INCH}{_BY}{_SIZE}{_INCH}{_BY}{_SIZE} in\."
    r"(?:,? (S-[1-4]-S)\.?|, ([^\d,;.]+)\.?)?",
    re.ASCII,
)


@dataclass(frozen=True, slots=True)
class Read:
    """A line understood whole: sizes as printed, in the order printed.

    ``surfaced`` is as printed: S-2-S is planed on two sides, S-4-S on four.
    ``number`` is its place in the text, from 1, empty lines counted.
    """

    line: str
    quantity: int
    part: str
    thickness: Length
    width: Length
    length: Length
    surfaced: str = ""
    note: str = ""
    number: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Ask:
    """A line to be asked about, kept as printed, with what is in the way."""

    line: str
    why: str
    number: int = field(default=0, compare=False)


def read_lines(text: str) -> tuple[Read | Ask, ...]:
    """Every line of ``text`` that holds anything, read or to be asked about."""
    lines = (" ".join(line.split()) for line in text.splitlines())
    return tuple(
        replace(_read(line), number=number)
        for number, line in enumerate(lines, 1)
        if line
    )


def _read(line: str) -> Read | Ask:
    found = _LINE.fullmatch(line)
    if not found:
        return Ask(line, _why(line))
    quantity, part, *sizes, surfaced, note = found.groups(default="")
    try:
        thickness, width, length = (inches(size) for size in sizes)
    except NotALength:
        return Ask(line, "its fractions do not read as sizes")
    if not (int(quantity) and thickness and width and length):
        return Ask(line, "a size or the quantity is nothing")
    if max(thickness, width, length).nm > LONGEST_NM:
        return Ask(line, "a size is longer than 100 m")
    return Read(line, int(quantity), part, thickness, width, length, surfaced, note)


# What stands in the way, the plainest first; each is asked of the maker.
_WHYS = (
    (r"\bdoz\b|\bpt\b|\boz\b|\bbox\b|\bNo\. ", "it counts something that is not wood"),
    (r"\bft\.|\byd\.|\bfeet\b|\byards?\b", "it measures in feet or yards"),
    (r"\bdiameter\b", "it gives a diameter"),
    (r"\bsquare\b", "it gives one size as a square"),
    (r"\beach\b| and \d", "it holds more than one part"),
    (r"\bin,|\d-\d+ in\b|\. \.", "its marks look like a misprint"),
    (r";", "a semicolon hides where the sizes end"),
)


def _why(line: str) -> str:
    for mark, why in _WHYS:
        if re.search(mark, line):
            return why
    by = len(re.findall(_BY, line))
    if by == 1:
        return "it gives two sizes where a part has three"
    if not by:
        return "it gives no thickness by width by length"
    return "it is not written as quantity, part, thickness by width by length"
