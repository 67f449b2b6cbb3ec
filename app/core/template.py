"""Templates: outlines drawn at their true size, to print, check, cut out and trace.

A page has a bar of 100 mm and one of 4 in, since printers scale what they are not
told to leave alone. What is larger than a page goes over several, which are laid
together by the crosses that neighbours share.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

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
    Point,
    Shape,
)
from app.core.drawing_texts import dimension, texts
from app.core.length import Length
from app.core.template_foot import (
    CHECK,
    CROSS,
    XY,
    Foot,
    cross,
    crosses,
    point,
    words,
)

Extent = tuple[float, float, float, float]
LEAST_WIDE = 138  # millimetres: the longer bar with its name
HEAD, SIDE = 11, 4
BESIDE_CROSS = 22  # where texts begin on the first of several pages
MOST_PAGES = 6


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

        def put(at: Point) -> Point:
            return point(*move((at.x, at.y)))

        return replace(
            self,
            outlines=tuple(tuple(map(move, one)) for one in self.outlines),
            grain=None if self.grain is None else self.grain + 90 * turned,
            lines=tuple(
                replace(a, start=put(a.start), end=put(a.end)) for a in self.lines
            ),
            measures=tuple(
                replace(a, start=put(a.start), end=put(a.end)) for a in self.measures
            ),
            labels=tuple(replace(a, at=put(a.at)) for a in self.labels),
        )

    def drawn(self) -> Drawing:
        """On a page without an end."""
        shapes = tuple(
            # Not filled: marks and grain lines show, and ink is saved.
            Shape(tuple(point(*at) for at in one), title=self.species)
            for one in self.outlines
        )
        marks = [cross(_middle(one), 4) for one in self.outlines if self.centre]
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
        said = max(len(row) for row in rows) * QUIET_TEXT_MM * LETTER * 1.2
        wide = min(most_wide, max(wide, LEAST_WIDE, said + 2 * SIDE))
        page_wide = max(wide, right - left + 2)
    else:
        page_wide = most_wide
    side = SIDE if across * down == 1 else BESIDE_CROSS
    foot = Foot(HEAD + bottom - top + 6, side, page_wide, content.grain, sizes)
    page_high = foot.bottom if across * down == 1 else most_high
    if right - left + 2 > most_wide or foot.bottom > most_high:
        return None
    x = ((page_wide - (right - left)) / 2 - left) * NM_PER_MM
    placed = content.mapped(False, x, (HEAD - top) * NM_PER_MM).drawn()
    marks = crosses(across, down) if across * down > 1 else ()
    return replace(
        placed,
        width=_length(page_wide),
        height=_length(page_high),
        lines=(*placed.lines, *foot.lines, *marks),
        labels=(words(side, 5.5, title, quiet=False), *placed.labels, *foot.labels),
    )


def _room(count: int, page: int) -> int:
    return page + (count - 1) * (page - 2 * CROSS)


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


def _length(mm: float) -> Length:
    return Length(round(mm * NM_PER_MM))
