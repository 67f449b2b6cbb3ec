"""Templates: outlines drawn at their true size, to print, check, cut out and trace.

A page has a bar of 100 mm and one of 4 in, since printers scale what they are not
told to leave alone. What is larger than a page goes over several, which are laid
together by the crosses that neighbours share.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from textwrap import wrap

from app.core.drawing import (
    LETTER,
    NM_PER_MM,
    QUIET_TEXT_MM,
    TRUE_HIGH_MM,
    TRUE_WIDE_MM,
    Drawing,
    Label,
    Line,
    Measure,
    Pen,
    Point,
    Shape,
)
from app.core.drawing_texts import dimension, texts
from app.core.length import Length

XY = tuple[float, float]
Extent = tuple[float, float, float, float]
CHECK = "Print at 100 % and measure both bars before you cut. A line’s middle counts."
LEAST_WIDE = 138  # millimetres: the longer bar with its name
HEAD, SIDE, LEADING = 11, 4, 4.8
BESIDE_CROSS = 22  # where texts begin on the first of several pages
MOST_PAGES = 6
# Pages overlap by twice this; their crosses stand this far from the edges.
CROSS = 10


@dataclass(frozen=True, slots=True)
class _Content:
    """What is drawn on the page, in nanometres from anywhere, and its grain."""

    outlines: tuple[tuple[XY, ...], ...]
    species: str
    centre: bool
    grain: float | None
    lines: tuple[Line, ...]
    measures: tuple[Measure, ...]
    labels: tuple[Label, ...]

    def mapped(self, turned: bool, x: float = 0, y: float = 0) -> _Content:
        """Turned by a quarter, clockwise, then moved."""

        def move(at: XY) -> XY:
            return (x - at[1], y + at[0]) if turned else (x + at[0], y + at[1])

        def point(at: Point) -> Point:
            return _point(*move((at.x, at.y)))

        return replace(
            self,
            outlines=tuple(tuple(map(move, one)) for one in self.outlines),
            grain=None if self.grain is None else self.grain + 90 * turned,
            lines=tuple(
                replace(a, start=point(a.start), end=point(a.end)) for a in self.lines
            ),
            measures=tuple(
                replace(a, start=point(a.start), end=point(a.end))
                for a in self.measures
            ),
            labels=tuple(replace(a, at=point(a.at)) for a in self.labels),
        )

    def drawn(self) -> Drawing:
        """On a page without an end."""
        shapes = tuple(
            # Not filled: marks and grain lines show, and ink is saved.
            Shape(tuple(_point(*at) for at in one), title=self.species)
            for one in self.outlines
        )
        marks = [_cross(_middle(one), 4) for one in self.outlines if self.centre]
        return Drawing(
            key="",
            title="",
            description="",
            width=Length(0),
            height=Length(0),
            shapes=shapes,
            lines=(*self.lines, *(line for mark in marks for line in mark)),
            measures=self.measures,
            labels=self.labels,
            true_size=True,
        )


def template(
    key: str,
    title: str,
    description: str,
    outlines: Sequence[Sequence[XY]],
    *,
    species: str = "",
    centre: bool = True,
    grain: float | None = 0.0,
    sizes: Sequence[str] = (),
    lines: Sequence[Line] = (),
    measures: Sequence[Measure] = (),
    labels: Sequence[Label] = (),
) -> Drawing | None:
    """Outlines at true size with their check bars; None where no paper would do.

    All places are nanometres, x right and y down, from wherever is handy: the whole
    is put on the page, turned by a quarter where it only fits so. ``species`` names
    what the outlines are cut from. ``centre`` marks the middle of each. ``grain`` is
    the way of the grain in degrees, clockwise from left to right; None shows none.
    ``sizes`` are said below, a line each.
    """
    content = _Content(
        tuple(tuple(one) for one in outlines),
        *(species, centre, grain),
        *(tuple(lines), tuple(measures), tuple(labels)),
    )
    fit = _fitting(content, title, sizes)
    if fit is None:
        return None
    return replace(fit, key=key, title=title, description=description)


def pages(width: Length, height: Length) -> tuple[tuple[int, int], ...]:
    """The top left corner of each page of a drawing at true size, millimetres."""
    across, down = _count(width, TRUE_WIDE_MM), _count(height, TRUE_HIGH_MM)
    return tuple(
        (x * (TRUE_WIDE_MM - 2 * CROSS), y * (TRUE_HIGH_MM - 2 * CROSS))
        for y, x in product(range(down), range(across))
    )


def _count(length: Length, page: int) -> int:
    if length.millimetres <= page:
        return 1
    return math.ceil((length.millimetres - 2 * CROSS) / (page - 2 * CROSS))


def _fitting(content: _Content, title: str, sizes: Sequence[str]) -> Drawing | None:
    """On as few pages as will hold it, upright rather than turned."""
    counts = sorted(product((1, 2, 3), (1, 2, 3)), key=lambda n: (n[0] * n[1], n))
    for (across, down), turned in product(counts, (False, True)):
        if across * down > MOST_PAGES:
            break
        found = _on_pages(content.mapped(turned), title, sizes, across, down)
        if found is not None:
            return found
    return None


def _on_pages(
    content: _Content, title: str, sizes: Sequence[str], across: int, down: int
) -> Drawing | None:
    left, top, right, bottom = _extent(content.drawn())
    most_wide, most_high = _room(across, TRUE_WIDE_MM), _room(down, TRUE_HIGH_MM)
    wide = right - left + 2 * SIDE
    rows = [title, *sizes, CHECK]
    if across * down == 1:
        words = max(len(row) for row in rows) * QUIET_TEXT_MM * LETTER * 1.2
        wide = min(most_wide, max(wide, LEAST_WIDE, words + 2 * SIDE))
        page_wide = max(wide, right - left + 2)
    else:
        page_wide = most_wide
    side = SIDE if across * down == 1 else BESIDE_CROSS
    foot = _Foot(HEAD + bottom - top + 6, side, page_wide, content.grain, sizes)
    page_high = foot.bottom if across * down == 1 else most_high
    if right - left + 2 > most_wide or foot.bottom > most_high:
        return None
    x = ((page_wide - (right - left)) / 2 - left) * NM_PER_MM
    placed = content.mapped(False, x, (HEAD - top) * NM_PER_MM).drawn()
    crosses = _crosses(across, down) if across * down > 1 else ()
    return replace(
        placed,
        width=_length(page_wide),
        height=_length(page_high),
        lines=(*placed.lines, *foot.lines, *crosses),
        labels=(_words(side, 5.5, title, quiet=False), *placed.labels, *foot.labels),
    )


def _room(count: int, page: int) -> int:
    return page + (count - 1) * (page - 2 * CROSS)


class _Foot:
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
            self.labels.append(_words(side + 21, y + 9, "the way of the grain"))
            y += 20
        fits = int((wide - 2 * side) / (QUIET_TEXT_MM * LETTER))
        for row in (line for size in sizes for line in wrap(size, fits)):
            self.labels.append(_words(side, y, row))
            y += LEADING
        self.labels.append(_words(side, y + 1.5, CHECK))
        for ticks, name in ((_METRIC, "100 mm"), (_IMPERIAL, "4 in")):
            y += 8
            self.lines += _bar(side, y, ticks)
            self.labels.append(_words(side + ticks[-1] + 3, y + 1, name))
        self.bottom = y + 4


_METRIC = tuple(10.0 * i for i in range(11))
_IMPERIAL = tuple(12.7 * i for i in range(9))


def _bar(x: float, y: float, ticks: Sequence[float]) -> Iterator[Line]:
    yield _line((x, y), (x + ticks[-1], y))
    for tick in ticks:
        end = tick in (ticks[0], ticks[-1])
        yield _line((x + tick, y), (x + tick, y - (4 if end else 2)))


def _arrow(middle: XY, degrees: float) -> Iterator[Line]:
    """A line with a head at either end: wood has no forward."""
    turn = math.radians(degrees)
    along = math.cos(turn), math.sin(turn)
    ends = [
        (middle[0] + 8 * s * along[0], middle[1] + 8 * s * along[1]) for s in (1, -1)
    ]
    yield _line(ends[0], ends[1])
    for end, sign in zip(ends, (-1, 1), strict=True):
        for lean in (0.4, -0.4):
            way = turn + lean
            x, y = 2.5 * sign * math.cos(way), 2.5 * sign * math.sin(way)
            yield _line(end, (end[0] + x, end[1] + y))


def _crosses(across: int, down: int) -> Iterator[Line]:
    """Where neighbouring pages are laid on each other."""
    for i, j in product(range(across + 1), range(down + 1)):
        x = CROSS + i * (TRUE_WIDE_MM - 2 * CROSS)
        y = CROSS + j * (TRUE_HIGH_MM - 2 * CROSS)
        yield from _cross((x * NM_PER_MM, y * NM_PER_MM), 8)


def _cross(middle: XY, half: float) -> tuple[Line, Line]:
    """Two thin strokes through a place in nanometres, ``half`` mm each way."""
    x, y, reach = *middle, half * NM_PER_MM
    return (
        Line(_point(x - reach, y), _point(x + reach, y), Pen.GRAIN),
        Line(_point(x, y - reach), _point(x, y + reach), Pen.GRAIN),
    )


def _middle(outline: Sequence[XY]) -> XY:
    """The middle of a simple outline's area."""
    twice = x = y = 0.0
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        part = ax * by - bx * ay
        twice += part
        x += (ax + bx) * part
        y += (ay + by) * part
    return x / (3 * twice), y / (3 * twice)


def _extent(drawing: Drawing) -> Extent:
    """Left, top, right and bottom of all that is drawn, millimetres."""
    points = [point for shape in drawing.shapes for point in shape.points]
    points += [point for line in drawing.lines for point in (line.start, line.end)]
    xs, ys = [p.x / NM_PER_MM for p in points], [p.y / NM_PER_MM for p in points]
    for measure in drawing.measures:
        for stroke in dimension(measure, NM_PER_MM).strokes:
            xs += [x for x, _ in stroke]
            ys += [y for _, y in stroke]
    for left, top, right, bottom in (text.box for text in texts(drawing)):
        xs += [left, right]
        ys += [top, bottom]
    return min(xs), min(ys), max(xs), max(ys)


def _point(x: float, y: float) -> Point:
    return Point(round(x), round(y))


def _length(mm: float) -> Length:
    return Length(round(mm * NM_PER_MM))


def _line(start: XY, end: XY) -> Line:
    ends = ((round(x * NM_PER_MM), round(y * NM_PER_MM)) for x, y in (start, end))
    first, last = (Point(*end) for end in ends)
    return Line(first, last, Pen.GRAIN)


def _words(x: float, y: float, text: str, *, quiet: bool = True) -> Label:
    at = Point(round(x * NM_PER_MM), round(y * NM_PER_MM))
    return Label(at, text, quiet=quiet, anchor="start")
