"""What the colours and hatches of a drawing mean, said below it."""

from __future__ import annotations

from dataclasses import replace

from app.core.drawing import (
    PAGE_MM,
    QUIET_TEXT_MM,
    Drawing,
    Label,
    Pen,
    Point,
    Shape,
    text_width,
)
from app.core.length import Length
from app.core.wood import species_or_plain

SIDE, WIDE, HIGH, GAP, ROW = 4.0, 9.0, 4.2, 7.0, 6.5  # millimetres of the page


def with_key(drawing: Drawing) -> Drawing:
    """The drawing with its woods named below it; as it is where it shows but one."""
    woods = {
        species_or_plain(shape.species).name: shape.species
        for shape in drawing.shapes
        if shape.species
    }
    if len(woods) < 2 or drawing.true_size:
        return drawing
    scale = drawing.scale
    shapes, labels = [], []
    x, y = SIDE, drawing.height.nm / scale + 1
    for name, species in woods.items():
        words = text_width(name, QUIET_TEXT_MM)
        if x > SIDE and x + WIDE + 2 + words > PAGE_MM - SIDE:
            x, y = SIDE, y + ROW
        shapes.append(_swatch(x, y, species, name, scale))
        at = Point(round((x + WIDE + 2) * scale), round((y + HIGH - 0.9) * scale))
        labels.append(Label(at, name, quiet=True, anchor="start"))
        x += WIDE + 2 + words + GAP
    return replace(
        drawing,
        height=Length(round((y + ROW) * scale)),
        shapes=(*drawing.shapes, *shapes),
        labels=(*drawing.labels, *labels),
    )


def _swatch(x: float, y: float, species: str, name: str, scale: float) -> Shape:
    ends = [(x, y), (x + WIDE, y), (x + WIDE, y + HIGH), (x, y + HIGH)]
    points = tuple(Point(round(a * scale), round(b * scale)) for a, b in ends)
    return Shape(points, Pen.GRAIN, species, title=name)
