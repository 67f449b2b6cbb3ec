"""Lines of a drawing's words that break no size apart."""

from __future__ import annotations

import re
from textwrap import wrap

# Between a number and its fraction or unit, and before the other system's size.
WITHIN_A_SIZE = re.compile(r"(?<=\d) (?=\d+/\d|mm\b|in\b(?! all))|(?<=[a-z]) (?=\(\d)")
KEPT = "\N{NO-BREAK SPACE}"


def wrapped(text: str, letters: int) -> list[str]:
    """Lines of at most so many letters; ``6 mm (1/4 in)`` stays on one."""
    lines = wrap(WITHIN_A_SIZE.sub(KEPT, text), letters)
    return [line.replace(KEPT, " ") for line in lines]
