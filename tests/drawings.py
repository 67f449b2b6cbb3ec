"""Whether a drawing can be read: no text on another, on a line or off the page.

    assert not crowded(drawing)

Widths of texts are the layout's own estimate, which the browser's tests hold to the
face that the app ships.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from app.core.drawing import Drawing, Pen
from app.core.drawing_texts import Stroke, Text, dimension, labelled

Box = tuple[float, float, float, float]
# Lines that a text may not stand on; the thin ones of grain and glue lines are kept
# off it by the text's rim of paper.
PLAIN = (Pen.OUTLINE, Pen.HIDDEN, Pen.CUT)
# Texts may touch by this much, millimetres: letters seldom fill their box.
TOUCH = 0.15


def crowded(drawing: Drawing) -> list[str]:
    """What cannot be read, a sentence each; empty where all can."""
    dimensions = [dimension(one, drawing.scale) for one in drawing.measures]
    labels = [labelled(label, drawing.scale) for label in drawing.labels]
    set_texts = [text for one in dimensions for text in one.texts] + labels
    found = [*_off_page(drawing, set_texts), *_on_another(set_texts)]
    outlines = list(_outlines(drawing))
    own = {id(text): one.strokes for one in dimensions for text in one.texts}
    for text in set_texts:
        if any(_crosses(stroke, text) for stroke in outlines):
            found.append(f"“{text.text}” stands on an outline")
        others = (one.strokes for one in dimensions)
        if any(
            _crosses(stroke, text)
            for strokes in others
            if strokes is not own.get(id(text))
            for stroke in strokes
        ):
            found.append(f"“{text.text}” stands on the line of another size")
    return [f"{drawing.key}: {fault}" for fault in found]


def _off_page(drawing: Drawing, found: list[Text]) -> Iterator[str]:
    wide, high = (one.nm / drawing.scale for one in (drawing.width, drawing.height))
    for text in found:
        left, top, right, bottom = text.box
        if left < 0 or top < 0 or right > wide or bottom > high:
            yield f"“{text.text}” leaves the page"
    ends = [end for stroke in _outlines(drawing, tuple(Pen)) for end in stroke]
    for one in drawing.measures:
        ends += [e for s in dimension(one, drawing.scale).strokes for e in s]
    if any(not (-0.1 <= x <= wide + 0.1 and -0.1 <= y <= high + 0.1) for x, y in ends):
        yield "a line leaves the page"


def _on_another(found: list[Text]) -> Iterator[str]:
    for one, other in combinations(found, 2):
        a, b = _shrunk(one.box), _shrunk(other.box)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
            yield f"“{one.text}” and “{other.text}” stand on each other"


def _shrunk(box: Box) -> Box:
    left, top, right, bottom = box
    return left + TOUCH, top + TOUCH, right - TOUCH, bottom - TOUCH


def _outlines(drawing: Drawing, pens: tuple[Pen, ...] = PLAIN) -> Iterator[Stroke]:
    """Every straight stroke with one of these pens, millimetres of the page."""
    scale = drawing.scale
    for shape in drawing.shapes:
        points = [(p.x / scale, p.y / scale) for p in shape.points]
        edges = pairwise([*points, points[0]])
        with_pens = shape.edges or (shape.pen,) * len(points)
        yield from (e for pen, e in zip(with_pens, edges, strict=True) if pen in pens)
    for line in drawing.lines:
        if line.pen in pens:
            yield (
                (line.start.x / scale, line.start.y / scale),
                (line.end.x / scale, line.end.y / scale),
            )


def _crosses(stroke: Stroke, text: Text) -> bool:
    """Whether any of a stroke lies in the text's box: clipped against each side."""
    left, top, right, bottom = _shrunk(text.box)
    (x, y), (ex, ey) = stroke
    start, end = 0.0, 1.0
    for way, room in (
        (x - ex, x - left),
        (ex - x, right - x),
        (y - ey, y - top),
        (ey - y, bottom - y),
    ):
        if way == 0 and room < 0:
            return False
        if way < 0:
            start = max(start, room / way)
        elif way > 0:
            end = min(end, room / way)
    return start <= end
