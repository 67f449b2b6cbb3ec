"""Where the texts of a drawing stand on its page, in millimetres.

Who lays a drawing out, who draws it and who looks for crowded places all ask here.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from app.core.drawing import (
    QUIET_TEXT_MM,
    TEXT_MM,
    Drawing,
    Label,
    Measure,
    text_width,
)

SLASH = 1.3  # half a slash, across and up
BEYOND = 1.2  # how far a help line runs past the dimension line
LEADING = TEXT_MM * 1.15  # from line to line of a text
OTHER = re.compile(r" (?=\()")  # before the other system in its brackets
# How far texts reach above the line they stand on, for their height, and below it,
# where they have letters that do.
RISE, FALL, BELOW = 0.72, 0.2, frozenset("gjpqyQ,;()[]{}@§/|_")
XY = tuple[float, float]
Stroke = tuple[XY, XY]


@dataclass(frozen=True, slots=True)
class Text:
    """A text as set: ``x`` is its left end, middle or right end by ``anchor``."""

    text: str
    x: float
    y: float
    size: float
    anchor: str = "middle"
    italic: bool = False

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of what it covers, near enough."""
        wide = text_width(self.text, self.size)
        left = self.x - {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        fall = FALL if BELOW.intersection(self.text) else 0.0
        return left, self.y - RISE * self.size, left + wide, self.y + fall * self.size


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension as set: its texts, the strokes of its line, slashes, help lines."""

    texts: tuple[Text, ...]
    strokes: tuple[Stroke, ...]


def texts(drawing: Drawing) -> tuple[Text, ...]:
    """Every text of the drawing where it stands."""
    found: list[Text] = []
    for measure in drawing.measures:
        found += dimension(measure, drawing.scale).texts
    return (*found, *(labelled(label, drawing.scale) for label in drawing.labels))


def labelled(label: Label, scale: float) -> Text:
    """A label where it stands; ``scale`` is nanometres to the page's millimetre."""
    size = QUIET_TEXT_MM if label.quiet else TEXT_MM
    x, y = label.at.x / scale, label.at.y / scale
    return Text(label.text, x, y, size, label.anchor, label.italic)


def dimension(measure: Measure, scale: float) -> Dimension:
    """A dimension line with its text; ``scale`` is nanometres to the millimetre."""
    x1, y1 = measure.start.x / scale, measure.start.y / scale
    x2, y2 = measure.end.x / scale, measure.end.y / scale
    long = math.hypot(x2 - x1, y2 - y1) or 1.0
    # To the left of the way from start to end; y runs down the page.
    left = ((y2 - y1) / long, -(x2 - x1) / long)
    off = measure.offset.nm / scale
    start = x1 + left[0] * off, y1 + left[1] * off
    end = x2 + left[0] * off, y2 + left[1] * off
    lines, (x, y), clear = _beside(measure.text, start, end, left, off)
    first = y - LEADING * (len(lines) - 1) / 2
    set_texts = tuple(
        Text(line, x, first + LEADING * i, TEXT_MM) for i, line in enumerate(lines)
    )
    strokes = list(_broken(start, end, clear))
    for at, to in (((x1, y1), start), ((x2, y2), end)):
        strokes += _ends(at, to, left, off)
    return Dimension(set_texts, tuple(strokes))


def _ends(at: XY, to: XY, left: XY, off: float) -> Iterator[Stroke]:
    """The help line from what is measured, and the slash."""
    if abs(off) > BEYOND:
        past = math.copysign(BEYOND, off)
        x, y = left[0] * past, left[1] * past
        yield (at[0] + x, at[1] + y), (to[0] + x, to[1] + y)
    yield (to[0] - SLASH, to[1] + SLASH), (to[0] + SLASH, to[1] - SLASH)


def _beside(
    text: str, start: XY, end: XY, left: XY, off: float
) -> tuple[tuple[str, ...], XY, float]:
    """A dimension's texts, their middle, and how much of its line to leave out.

    The text stands in the middle of its line where that is long enough, else
    outside. On an upright line the other system stands under the first, and what is
    wider than the room inside the line moves outward.
    """
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    across, down = abs(end[0] - start[0]), abs(end[1] - start[1])
    flat = across >= down
    lines = (text,) if flat else tuple(OTHER.split(text, maxsplit=1))
    wide = max(map(text_width, lines)) + 2
    need = wide if flat else LEADING * (len(lines) - 1) + TEXT_MM + 1
    drop = TEXT_MM * 0.36  # from the middle of a figure to its foot
    side = math.copysign(1, off)
    if max(across, down) >= need + 3 * SLASH:
        if not flat:
            x += left[0] * side * max(0.0, wide / 2 - abs(off))
        return lines, (x, y + drop), need
    x += 0 if flat else left[0] * side * (wide / 2 + 1)
    y += left[1] * side * (TEXT_MM / 2 + 2) if flat else 0
    return lines, (x, y + drop), 0.0


def _broken(start: XY, end: XY, clear: float) -> Iterator[Stroke]:
    """A line in two strokes with ``clear`` left out in its middle."""
    long = math.hypot(end[0] - start[0], end[1] - start[1])
    if not clear or long <= clear:
        yield start, end
        return
    part = (long - clear) / 2 / long
    dx, dy = (end[0] - start[0]) * part, (end[1] - start[1]) * part
    yield start, (start[0] + dx, start[1] + dy)
    yield (end[0] - dx, end[1] - dy), end
