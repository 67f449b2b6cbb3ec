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
    y = drawing.height.nm / scale + 1
    for row in _rows(list(woods)):
        x = (PAGE_MM - sum(map(_wide, row)) + GAP) / 2
        for name in row:
            shapes.append(_swatch(x, y, woods[name], name, scale))
            at = Point(round((x + WIDE + 2) * scale), round((y + HIGH - 0.9) * scale))
            labels.append(Label(at, name, quiet=True, anchor="start"))
            x += _wide(name)
        y += ROW
    return replace(
        drawing,
        height=Length(round(y * scale)),
        shapes=(*drawing.shapes, *shapes),
        labels=(*drawing.labels, *labels),
    )


def _wide(name: str) -> float:
    """A swatch with its name and the gap after it."""
    return WIDE + 2 + text_width(name, QUIET_TEXT_MM) + GAP


def _rows(names: list[str]) -> list[list[str]]:
    rows: list[list[str]] = [[]]
    for name in names:
        if rows[-1] and sum(map(_wide, [*rows[-1], name])) - GAP > PAGE_MM - 2 * SIDE:
            rows.append([])
        rows[-1].append(name)
    return rows


def _swatch(x: float, y: float, species: str, name: str, scale: float) -> Shape:
    ends = [(x, y), (x + WIDE, y), (x + WIDE, y + HIGH), (x, y + HIGH)]
    points = tuple(Point(round(a * scale), round(b * scale)) for a, b in ends)
    return Shape(points, Pen.GRAIN, species, title=name)
