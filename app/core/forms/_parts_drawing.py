"""A list of parts drawn to one scale, in rows, with names and sizes."""

from __future__ import annotations

from app.core.drawing import (
    PAGE_MM,
    QUIET_TEXT_MM,
    TEXT_MM,
    Drawing,
    Label,
    Point,
    Shape,
    text_width,
)
from app.core.forms._bench import shop_text
from app.core.length import Length
from app.core.part import Part
from app.core.shop import Shop

LEFT, GAP, TEXTS = 3.0, 6.0, 11.0
# More than these crowd a page; the table lists them all.
MOST = 24


def drawing(parts: tuple[Part, ...], shop: Shop) -> Drawing:
    """The parts' faces laid out in rows, largest scale that fits them all."""
    drawn = parts[:MOST]
    longest = max(part.finished.length.nm for part in drawn)
    tallest = max(part.finished.width.nm for part in drawn)
    scale = max(longest / 76, tallest / 36)
    shapes, labels = [], []
    x, y, row_high = LEFT, 4.0, 0.0
    for part in drawn:
        long = part.finished.length.nm / scale
        high = part.finished.width.nm / scale
        names = _names(part, shop)
        wide = max(long, *(text_width(t, TEXT_MM) for t in names))
        if x > LEFT and x + wide > PAGE_MM - LEFT:
            x, y, row_high = LEFT, y + row_high + TEXTS + GAP, 0.0
        shapes.append(_face(part, x, y, long, high, scale))
        labels += _labels(names, x, y + high, scale)
        x += wide + GAP
        row_high = max(row_high, high)
    return Drawing(
        key="parts",
        title="The parts",
        description="The parts to one scale: "
        + "; ".join(" ".join(_names(part, shop)) for part in drawn)
        + ("." if len(parts) <= MOST else f"; and {len(parts) - MOST} more."),
        width=Length(round(PAGE_MM * scale)),
        height=Length(round((y + row_high + TEXTS + 2) * scale)),
        shapes=tuple(shapes),
        labels=tuple(labels),
    )


def _names(part: Part, shop: Shop) -> tuple[str, str]:
    size = part.finished
    times = f"{part.quantity} × " if part.quantity > 1 else ""
    name = part.name if len(part.name) <= 24 else part.name[:23] + "…"
    sizes = " × ".join(
        shop_text(side, shop).removesuffix(f" {shop.display.unit}")
        for side in (size.thickness, size.width, size.length)
    )
    return times + name, f"{sizes} {shop.display.unit}"


def _face(
    part: Part, x: float, y: float, long: float, high: float, scale: float
) -> Shape:
    corners = [(x, y), (x + long, y), (x + long, y + high), (x, y + high)]
    points = tuple(Point(round(a * scale), round(b * scale)) for a, b in corners)
    return Shape(points, species=part.species, title=part.name)


def _labels(
    names: tuple[str, str], x: float, under: float, scale: float
) -> list[Label]:
    places = (under + TEXT_MM + 0.8, under + TEXT_MM + QUIET_TEXT_MM + 2.4)
    return [
        Label(
            Point(round(x * scale), round(y * scale)), text, quiet=i > 0, anchor="start"
        )
        for i, (y, text) in enumerate(zip(places, names, strict=True))
    ]
