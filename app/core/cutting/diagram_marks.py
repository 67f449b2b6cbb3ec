"""Marks on a cutting diagram that are neither blank nor leftover."""

from __future__ import annotations

from app.core.drawing import Line, Pen, Point

Box = tuple[int, int, int, int]


def framed(box: Box, pen: Pen = Pen.CUT) -> list[Line]:
    """A frame of strokes about a box: what is left over until a later period."""
    x, y, length, width = box
    corners = [(x, y), (x + length, y), (x + length, y + width), (x, y + width)]
    points = [Point(*one) for one in corners]
    ends = [*points[1:], points[0]]
    return [Line(start, end, pen) for start, end in zip(points, ends, strict=True)]


def crossed(box: Box) -> list[Line]:
    """A defect: a dashed frame, struck through once so that no hatch is like it."""
    x, y, length, width = box
    stroke = Line(Point(x, y + width), Point(x + length, y), Pen.OUTLINE)
    return [*framed(box, Pen.HIDDEN), stroke]
