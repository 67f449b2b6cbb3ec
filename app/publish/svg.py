"""Drawings as SVG: the one pen for pages, files and print.

The drawing is scaled to ``PAGE_MM`` and drawn in millimetres of that page, so
line weights and texts are the same on every drawing. Presentation attributes
only: pages forbid style attributes. Species carry a hatch over their
colour, so that a grey print still tells them apart.
"""

from __future__ import annotations

import hashlib
import math
import re
from dataclasses import dataclass
from html import escape

from app.core.drawing import (
    PAGE_MM,
    QUIET_TEXT_MM,
    TEXT_MM,
    Drawing,
    Label,
    Line,
    Measure,
    Pen,
    Point,
    Shape,
    text_width,
)
from app.core.wood import species_or_plain

INK, PAPER, QUIET = "#211c16", "#ffffff", "#5d554b"
# Weights in millimetres of the page, with the dashes that go with them.
WEIGHTS = {Pen.OUTLINE: "0.5", Pen.HIDDEN: "0.25", Pen.CUT: "0.35", Pen.GRAIN: "0.18"}
DASHES = {Pen.HIDDEN: "2 1.2", Pen.CUT: "4 1 0.6 1"}
DIMENSION = "0.18"
SLASH = 1.3  # half a slash, across and up
BEYOND = 1.2  # how far a help line runs past the dimension line
XY = tuple[float, float]
LEADING = TEXT_MM * 1.15  # from line to line of a text
OTHER = re.compile(r" (?=\()")  # before the other system in its brackets
FAMILY = "sans-serif"  # in a file; a page sets its own


def svg(drawing: Drawing, *, standalone: bool = False, ids: str = "") -> str:
    """The drawing as an ``svg`` element.

    ``standalone`` makes a file: names its namespace and fixes ink and paper,
    which a page sets by theme. ``ids`` goes before every id, where the same
    drawing stands twice on one page.
    """
    return _Sheet(drawing, standalone, ids).render()


class _Sheet:
    """One drawing on its way to text."""

    def __init__(self, drawing: Drawing, standalone: bool, ids: str) -> None:
        self.drawing = drawing
        self.standalone = standalone
        self.scale = max(drawing.width.nm, 1) / PAGE_MM
        digest = hashlib.sha256(repr(drawing).encode()).hexdigest()[:8]
        self.prefix = f"{ids}d{digest}"
        self.ink = INK if standalone else "currentColor"

    def mm(self, nm: float) -> float:
        return nm / self.scale

    def at(self, point: Point) -> tuple[float, float]:
        return self.mm(point.x), self.mm(point.y)

    def render(self) -> str:
        drawing = self.drawing
        high = _n(self.mm(drawing.height.nm))
        names = f"{self.prefix}-title {self.prefix}-words"
        body = [
            f'<title id="{self.prefix}-title">{escape(drawing.title)}</title>',
            f'<desc id="{self.prefix}-words">{escape(drawing.description)}</desc>',
            self._patterns(),
            *(self._shape(shape) for shape in drawing.shapes),
            *(self._line(line) for line in drawing.lines),
            # All strokes before all texts: the rim of each keeps clear of any line.
            *(self._strokes(measure) for measure in drawing.measures),
            *(self._figures(measure) for measure in drawing.measures),
            *(self._label(label) for label in drawing.labels),
        ]
        alone = (
            f' xmlns="http://www.w3.org/2000/svg" width="{PAGE_MM}mm" height="{high}mm"'
            f' font-family="{FAMILY}"'
        )
        return (
            f'<svg{alone if self.standalone else ""} viewBox="0 0 {PAGE_MM} {high}"'
            f' role="img" aria-labelledby="{names}" fill="none" class="pen">'
            f"{''.join(body)}</svg>"
        )

    def _patterns(self) -> str:
        names = dict.fromkeys(s.species for s in self.drawing.shapes if s.species)
        found = [self._hatch(i, name) for i, name in enumerate(names)]
        self.hatches = {name: f"{self.prefix}-h{i}" for i, name in enumerate(names)}
        if any(shape.scrap for shape in self.drawing.shapes):
            found.append(self._crosses())
        return f"<defs>{''.join(found)}</defs>" if found else ""

    def _hatch(self, number: int, name: str) -> str:
        wood = species_or_plain(name)
        apart = _n(float(wood.hatch_spacing))
        return (
            f'<pattern id="{self.prefix}-h{number}" width="{apart}" height="{apart}"'
            f' patternUnits="userSpaceOnUse"'
            f' patternTransform="rotate({wood.hatch_angle})">'
            f'<rect width="{apart}" height="{apart}" fill="{wood.colour}"/>'
            f'<path d="M0 0H{apart}" stroke="{INK}" stroke-width="0.3"'
            ' stroke-opacity="0.55"/></pattern>'
        )

    def _crosses(self) -> str:
        return (
            f'<pattern id="{self.prefix}-x" width="3" height="3"'
            ' patternUnits="userSpaceOnUse">'
            f'<path d="M0 0L3 3M0 3L3 0" stroke="{self.ink}" stroke-width="0.18"'
            ' stroke-opacity="0.6"/></pattern>'
        )

    def _shape(self, shape: Shape) -> str:
        places = " ".join(f"{_n(x)},{_n(y)}" for x, y in map(self.at, shape.points))
        fill = "none"
        if shape.scrap:
            fill = f"url(#{self.prefix}-x)"
        elif shape.species:
            fill = f"url(#{self.hatches[shape.species]})"
        title = f"<title>{escape(shape.title)}</title>" if shape.title else ""
        end = f">{title}</polygon>" if title else "/>"
        return (
            f'<polygon points="{places}" fill="{fill}" {self._pen(shape.pen)}'
            f' stroke-linejoin="round"{end}'
        )

    def _pen(self, pen: Pen) -> str:
        dash = f' stroke-dasharray="{DASHES[pen]}"' if pen in DASHES else ""
        return f'stroke="{self.ink}" stroke-width="{WEIGHTS[pen]}"{dash}'

    def _line(self, line: Line) -> str:
        (x1, y1), (x2, y2) = self.at(line.start), self.at(line.end)
        return f'<path d="{_move(x1, y1, x2, y2)}" {self._pen(line.pen)}/>'

    def _set(self, measure: Measure) -> _Set:
        (x1, y1), (x2, y2) = self.at(measure.start), self.at(measure.end)
        long = math.hypot(x2 - x1, y2 - y1) or 1.0
        # To the left of the way from start to end; y runs down the page.
        left = ((y2 - y1) / long, -(x2 - x1) / long)
        off = self.mm(measure.offset.nm)
        start = x1 + left[0] * off, y1 + left[1] * off
        end = x2 + left[0] * off, y2 + left[1] * off
        return _beside(measure.text, start, end, left, off)

    def _strokes(self, measure: Measure) -> str:
        (x1, y1), (x2, y2) = self.at(measure.start), self.at(measure.end)
        placed = self._set(measure)
        left, off = placed.left, self.mm(measure.offset.nm)
        past = math.copysign(BEYOND, off)
        strokes = _broken(placed.start, placed.end, placed.clear)
        for (px, py), (qx, qy) in (((x1, y1), placed.start), ((x2, y2), placed.end)):
            if abs(off) > BEYOND:
                ax, ay = px + left[0] * past, py + left[1] * past
                bx, by = qx + left[0] * past, qy + left[1] * past
                strokes.append(_move(ax, ay, bx, by))
            strokes.append(_move(qx - SLASH, qy + SLASH, qx + SLASH, qy - SLASH))
        return (
            f'<path d="{" ".join(strokes)}" stroke="{self.ink}"'
            f' stroke-width="{DIMENSION}"/>'
        )

    def _figures(self, measure: Measure) -> str:
        placed = self._set(measure)
        first = placed.y - LEADING * (len(placed.texts) - 1) / 2
        return "".join(
            self._text(placed.x, first + LEADING * i, text, TEXT_MM, "middle")
            for i, text in enumerate(placed.texts)
        )

    def _label(self, label: Label) -> str:
        x, y = self.at(label.at)
        size = QUIET_TEXT_MM if label.quiet else TEXT_MM
        return self._text(x, y, label.text, size, label.anchor, italic=label.italic)

    def _text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        anchor: str,
        *,
        italic: bool = False,
    ) -> str:
        slant = ' font-style="italic"' if italic else ""
        # A rim of paper keeps every text off the lines under it.
        return (
            f'<text x="{_n(x)}" y="{_n(y)}" font-size="{size}" text-anchor="{anchor}"'
            f'{slant} fill="{self.ink}" stroke="{PAPER}" stroke-width="1.4"'
            ' stroke-linejoin="round" paint-order="stroke" class="rim">'
            f"{escape(text)}</text>"
        )


@dataclass(frozen=True, slots=True)
class _Set:
    """A dimension as set: its line, its texts' middle, how much line to leave out."""

    start: XY
    end: XY
    left: XY
    texts: tuple[str, ...]
    x: float
    y: float
    clear: float


def _beside(text: str, start: XY, end: XY, left: XY, off: float) -> _Set:
    """A dimension's text in the middle of its line where that is long enough.

    Else it stands outside. On an upright line the other system stands under the
    first, and what is wider than the room inside the line moves outward.
    """
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    across, down = abs(end[0] - start[0]), abs(end[1] - start[1])
    flat = across >= down
    texts = (text,) if flat else tuple(OTHER.split(text, maxsplit=1))
    wide = max(map(text_width, texts)) + 2
    need = wide if flat else LEADING * (len(texts) - 1) + TEXT_MM + 1
    drop = TEXT_MM * 0.36  # from the middle of a figure to its foot
    side = math.copysign(1, off)
    if max(across, down) >= need + 3 * SLASH:
        if not flat:
            x += left[0] * side * max(0.0, wide / 2 - abs(off))
        return _Set(start, end, left, texts, x, y + drop, need)
    x += 0 if flat else left[0] * side * (wide / 2 + 1)
    y += left[1] * side * (TEXT_MM / 2 + 2) if flat else 0
    return _Set(start, end, left, texts, x, y + drop, 0.0)


def _broken(start: XY, end: XY, clear: float) -> list[str]:
    """A line in two strokes with ``clear`` left out in its middle."""
    long = math.hypot(end[0] - start[0], end[1] - start[1])
    if not clear or long <= clear:
        return [_move(*start, *end)]
    part = (long - clear) / 2 / long
    dx, dy = (end[0] - start[0]) * part, (end[1] - start[1]) * part
    return [
        _move(*start, start[0] + dx, start[1] + dy),
        _move(end[0] - dx, end[1] - dy, *end),
    ]


def _n(number: float) -> str:
    """A number to a hundredth of a millimetre, without needless digits."""
    return f"{number:.2f}".rstrip("0").rstrip(".") if number else "0"


def _move(x1: float, y1: float, x2: float, y2: float) -> str:
    return f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}"
