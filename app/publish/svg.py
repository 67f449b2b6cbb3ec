"""Drawings as SVG: the one pen for pages, files and print.

The drawing is scaled to its page and drawn in millimetres of that page, so line
weights and texts are the same on every drawing; what is drawn at its true size has
a page of real millimetres. Presentation attributes only: pages forbid style
attributes. Species carry a hatch over their colour, so that a grey print still
tells them apart.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable
from html import escape
from itertools import chain

from app.core.drawing import Drawing, Line, Pen, Point, Shape
from app.core.drawing_texts import Stroke, Text, dimension, labelled
from app.core.wood import species_or_plain
from app.publish.hatching import strokes

INK, PAPER = "#211c16", "#ffffff"
# Weights in millimetres of the page, with the dashes that go with them.
WEIGHTS = {Pen.OUTLINE: "0.5", Pen.HIDDEN: "0.25", Pen.CUT: "0.35", Pen.GRAIN: "0.18"}
DASHES = {Pen.HIDDEN: "2 1.2", Pen.CUT: "4 1 0.6 1"}
DIMENSION = "0.18"
RIM = "0.9"  # of paper, under a dashed line
CROSSES = 'stroke-width="0.18" stroke-opacity="0.6"'  # of what falls away
XY = tuple[float, float]
FAMILY = "sans-serif"  # in a file; a page sets its own
# Stands for the drawing's own ids until they are known: no text can hold it.
IDS = "\x00"
# Woods darker than this, of 255, are hatched in light strokes.
DARK = 110


def svg(drawing: Drawing, *, standalone: bool = False, ids: str = "") -> str:
    """The drawing as an ``svg`` element.

    ``standalone`` makes a file: names its namespace and fixes ink and paper,
    which a page sets by theme. ``ids`` goes before every id, where the same
    drawing stands twice on one page.
    """
    text = _Sheet(drawing, standalone).render()
    digest = hashlib.sha256(text.encode()).hexdigest()[:8]
    return text.replace(IDS, f"{ids}d{digest}")


class _Sheet:
    """One drawing on its way to text."""

    def __init__(self, drawing: Drawing, standalone: bool) -> None:
        self.drawing = drawing
        self.standalone = standalone
        self.scale = drawing.scale
        self.ink = INK if standalone else "currentColor"
        self.pens = {pen: self._pen(pen) for pen in Pen}

    def render(self) -> str:
        drawing = self.drawing
        wide = _n(drawing.width.nm / self.scale)
        high = _n(drawing.height.nm / self.scale)
        dimensions = [dimension(one, self.scale) for one in drawing.measures]
        texts = [text for one in dimensions for text in one.texts]
        texts += [labelled(label, self.scale) for label in drawing.labels]
        body = [
            f'<title id="{IDS}-title">{_safe(drawing.title)}</title>',
            f'<desc id="{IDS}-words">{_safe(drawing.description)}</desc>',
            self._patterns(),
            *map(self._shape, drawing.shapes),
            *map(self._line, drawing.lines),
            # All strokes before all texts: the rim of each keeps clear of any line.
            *(self._strokes(one.strokes) for one in dimensions),
            *(map(self._plate, texts) if self.standalone else ()),
            *map(self._text, texts),
        ]
        alone = (
            f' xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm"'
            f' font-family="{FAMILY}"'
        )
        return (
            f'<svg{alone if self.standalone else ""} viewBox="0 0 {wide} {high}"'
            f' role="img" aria-labelledby="{IDS}-title {IDS}-words" fill="none"'
            f' stroke-linejoin="round" class="pen">{"".join(body)}</svg>'
        )

    def _patterns(self) -> str:
        """Hatches for a page, where one pattern serves many shapes."""
        shapes = self.drawing.shapes
        woods = dict.fromkeys((s.species, s.tone) for s in shapes if s.species)
        self.hatches = {wood: f"{IDS}-h{i}" for i, wood in enumerate(woods)}
        if self.standalone:
            return ""
        found = [_pattern(name, *wood) for wood, name in self.hatches.items()]
        if any(shape.scrap for shape in shapes):
            found.append(self._crosses())
        return f"<defs>{''.join(found)}</defs>" if found else ""

    def _crosses(self) -> str:
        return (
            f'<pattern id="{IDS}-x" width="3" height="3"'
            ' patternUnits="userSpaceOnUse">'
            f'<path d="M0 0L3 3M0 3L3 0" stroke="{self.ink}" {CROSSES}/></pattern>'
        )

    def _shape(self, shape: Shape) -> str:
        scale = self.scale
        corners = [(p.x / scale, p.y / scale) for p in shape.points]
        places = [f"{x:.2f},{y:.2f}" for x, y in corners]
        points = " ".join(places)
        fill, over = self._filled(shape, corners)
        alike = set(shape.edges) or {shape.pen}
        line = self.pens[pen] if (pen := alike.pop()) else ""
        if alike or not pen:
            # A hair of its own fill closes the seam to a neighbour without a line.
            line = f'stroke="{fill}" stroke-width="0.04"'
            over += self._edges(shape.edges, places)
        elif over:
            over += f'<polygon points="{points}" {line}/>'
            line = ""
        title = f"<title>{_safe(shape.title)}</title>" if shape.title else ""
        end = f">{title}</polygon>" if title else "/>"
        return f'<polygon points="{points}" fill="{fill}" {line}{end}{over}'

    def _filled(self, shape: Shape, corners: list[XY]) -> tuple[str, str]:
        """A shape's fill, and in a file the strokes of its hatch over it."""
        if shape.scrap:
            if not self.standalone:
                return f"url(#{IDS}-x)", ""
            apart = 3 / math.sqrt(2)
            crossed = chain(*(strokes(corners, way, apart) for way in (45, 135)))
            return "none", f'<path d="{_path(crossed)}" stroke="{self.ink}" {CROSSES}/>'
        if not shape.species:
            return "none", ""
        if not self.standalone:
            return f"url(#{self.hatches[shape.species, shape.tone]})", ""
        wood = species_or_plain(shape.species)
        lines = strokes(corners, wood.hatch_angle, float(wood.hatch_spacing))
        over = f'<path d="{_path(lines)}" {_hatched(wood.colour, shape.tone)}/>'
        return _mixed(wood.colour, INK, shape.tone), over

    def _edges(self, pens: Iterable[Pen | None], places: list[str]) -> str:
        """The edges that have a line, those of one pen in one path."""
        paths: dict[Pen, list[str]] = {}
        last: dict[Pen, str] = {}
        for pen, start, end in zip(pens, places, _after(places), strict=True):
            if pen is None:
                continue
            path = paths.setdefault(pen, [])
            # A path goes on where the last edge of its pen ended.
            path.append(f"L{end}" if last.get(pen) == start else f"M{start}L{end}")
            last[pen] = end
        return "".join(
            f'<path d="{"".join(path)}" {self.pens[pen]} stroke-linecap="round"/>'
            for pen, path in paths.items()
        )

    def _pen(self, pen: Pen) -> str:
        dash = f' stroke-dasharray="{DASHES[pen]}"' if pen in DASHES else ""
        return f'stroke="{self.ink}" stroke-width="{WEIGHTS[pen]}"{dash}'

    def _at(self, point: Point) -> XY:
        return point.x / self.scale, point.y / self.scale

    def _line(self, line: Line) -> str:
        (x1, y1), (x2, y2) = map(self._at, (line.start, line.end))
        path = f"M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}"
        drawn = f'<path d="{path}" {self.pens[line.pen]}/>'
        if line.pen not in DASHES:
            return drawn
        # Thin dashes would drown in the hatch of a dark wood.
        rim = f'stroke="{PAPER}" stroke-width="{RIM}" stroke-opacity="0.7"'
        return f'<path d="{path}" {rim} class="rim"/>{drawn}'

    def _strokes(self, lines: Iterable[Stroke]) -> str:
        return (
            f'<path d="{_path(lines)}" stroke="{self.ink}" stroke-width="{DIMENSION}"/>'
        )

    def _plate(self, text: Text) -> str:
        """Paper behind a text of a file: not every reader draws rims."""
        left, top, right, bottom = text.box
        return (
            f'<rect x="{_n(left)}" y="{_n(top)}" width="{_n(right - left)}"'
            f' height="{_n(bottom - top)}" rx="0.6" fill="{PAPER}"/>'
        )

    def _text(self, text: Text) -> str:
        slant = ' font-style="italic"' if text.italic else ""
        # A rim of paper keeps every text off the lines under it.
        rim = f' stroke="{PAPER}" stroke-width="1.4" paint-order="stroke" class="rim"'
        return (
            f'<text x="{_n(text.x)}" y="{_n(text.y)}" font-size="{text.size}"'
            f' text-anchor="{text.anchor}"{slant} fill="{self.ink}"'
            f"{'' if self.standalone else rim}>{_safe(text.text)}</text>"
        )


def _after(places: list[str]) -> list[str]:
    return [*places[1:], places[0]]


def _pattern(name: str, species: str, tone: int) -> str:
    """A species' colour under its hatch, darker by ``tone`` percent of ink."""
    wood = species_or_plain(species)
    apart, middle = (_n(float(wood.hatch_spacing) / by) for by in (1, 2))
    colour = _mixed(wood.colour, INK, tone)
    return (
        f'<pattern id="{name}" width="{apart}" height="{apart}"'
        f' patternUnits="userSpaceOnUse"'
        f' patternTransform="rotate({wood.hatch_angle})">'
        f'<rect width="{apart}" height="{apart}" fill="{colour}"/>'
        f'<path d="M0 {middle}H{apart}" {_hatched(wood.colour, tone)}/></pattern>'
    )


def _hatched(colour: str, tone: int) -> str:
    """The strokes of a hatch: fainter light ones or stronger dark ones in the shade."""
    dark = _grey(colour) < DARK
    opacity = 0.55 - 0.013 * tone if dark else 0.55 + 0.01 * tone
    stroke = PAPER if dark else INK
    return f'stroke="{stroke}" stroke-width="0.3" stroke-opacity="{_n(opacity)}"'


def _path(lines: Iterable[Stroke]) -> str:
    return " ".join(
        f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}" for (x1, y1), (x2, y2) in lines
    )


def _mixed(colour: str, other: str, percent: int) -> str:
    pairs = zip(_channels(colour), _channels(other), strict=True)
    mixed = [(a * (100 - percent) + b * percent) // 100 for a, b in pairs]
    return f"#{mixed[0]:02x}{mixed[1]:02x}{mixed[2]:02x}"


def _grey(colour: str) -> float:
    """How light a grey print is, to 255: luma of ITU-R BT.601, from memory."""
    red, green, blue = _channels(colour)
    return 0.299 * red + 0.587 * green + 0.114 * blue


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _safe(text: str) -> str:
    return escape(text.replace(IDS, " "))


def _n(number: float) -> str:
    """A number to a hundredth of a millimetre, without needless digits."""
    return f"{number:.2f}".rstrip("0").rstrip(".") if number else "0"
