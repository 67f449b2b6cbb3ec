"""What a template has besides its outlines: grain, sizes, bars to check, crosses.

Millimetres of the page in, lines and labels in nanometres out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from app.core.drawing import (
    LETTER,
    NM_PER_MM,
    QUIET_TEXT_MM,
    TRUE_HIGH_MM,
    TRUE_WIDE_MM,
    Label,
    Line,
    Pen,
    Point,
)
from app.core.wrapped import wrapped

XY = tuple[float, float]
CHECK = "Print at 100 % and measure both bars before you cut. A line’s middle counts."
LEADING = 4.8
# Pages overlap by twice this; their crosses stand this far from the edges.
CROSS = 10


class Foot:
    """Below the outlines: grain, sizes, and the two bars."""

    def __init__(
        self,
        top: float,
        side: float,
        wide: float,
        grain: float | None,
        sizes: Sequence[str],
    ) -> None:
        self.lines: list[Line] = []
        self.labels: list[Label] = []
        y = top
        if grain is not None:
            self.lines += _arrow((side + 9, y + 8), grain)
            self.labels.append(words(side + 21, y + 9, "the way of the grain"))
            y += 20
        fits = int((wide - 2 * side) / (QUIET_TEXT_MM * LETTER))
        for row in (line for size in sizes for line in wrapped(size, fits)):
            self.labels.append(words(side, y, row))
            y += LEADING
        self.labels.append(words(side, y + 1.5, CHECK))
        for ticks, name in ((_METRIC, "100 mm"), (_IMPERIAL, "4 in")):
            y += 8
            self.lines += _bar(side, y, ticks)
            self.labels.append(words(side + ticks[-1] + 3, y + 1, name))
        self.bottom = y + 4


_METRIC = tuple(10.0 * i for i in range(11))
_IMPERIAL = tuple(12.7 * i for i in range(9))


def _bar(x: float, y: float, ticks: Sequence[float]) -> Iterator[Line]:
    yield line((x, y), (x + ticks[-1], y))
    for tick in ticks:
        end = tick in (ticks[0], ticks[-1])
        yield line((x + tick, y), (x + tick, y - (4 if end else 2)))


def _arrow(middle: XY, degrees: float) -> Iterator[Line]:
    """A line with a head at either end: wood has no forward."""
    turn = math.radians(degrees)
    along = math.cos(turn), math.sin(turn)
    ends = [
        (middle[0] + 8 * s * along[0], middle[1] + 8 * s * along[1]) for s in (1, -1)
    ]
    yield line(ends[0], ends[1])
    for end, sign in zip(ends, (-1, 1), strict=True):
        for lean in (0.4, -0.4):
            way = turn + lean
            x, y = 2.5 * sign * math.cos(way), 2.5 * sign * math.sin(way)
            yield line(end, (end[0] + x, end[1] + y))


def crosses(across: int, down: int) -> Iterator[Line]:
    """Where neighbouring pages are laid on each other."""
    for i, j in product(range(across + 1), range(down + 1)):
        x = CROSS + i * (TRUE_WIDE_MM - 2 * CROSS)
        y = CROSS + j * (TRUE_HIGH_MM - 2 * CROSS)
        yield from cross((x * NM_PER_MM, y * NM_PER_MM), 8)


def cross(middle: XY, half: float) -> tuple[Line, Line]:
    """Two thin strokes through a place in nanometres, ``half`` mm each way."""
    x, y, reach = *middle, half * NM_PER_MM
    return (
        Line(point(x - reach, y), point(x + reach, y), Pen.GRAIN),
        Line(point(x, y - reach), point(x, y + reach), Pen.GRAIN),
    )


def point(x: float, y: float) -> Point:
    """The place nearest to two nanometres."""
    return Point(round(x), round(y))


def line(start: XY, end: XY) -> Line:
    """A thin stroke."""
    first, last = (point(x * NM_PER_MM, y * NM_PER_MM) for x, y in (start, end))
    return Line(first, last, Pen.GRAIN)


def words(x: float, y: float, text: str, *, quiet: bool = True) -> Label:
    """A text that starts at a place."""
    at = point(x * NM_PER_MM, y * NM_PER_MM)
    return Label(at, text, quiet=quiet, anchor="start")
