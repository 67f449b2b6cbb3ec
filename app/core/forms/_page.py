"""The page a build is drawn on, and how its sizes become points there."""

from __future__ import annotations

from collections.abc import Iterable

from app.core.drawing import (
    PAGE_MM,
    Label,
    Line,
    Measure,
    Pen,
    Point,
    Shape,
    text_width,
)
from app.core.drawing_texts import OTHER
from app.core.forms._bench import shop_text
from app.core.length import Length
from app.core.shop import Shop

XY = tuple[float, float]


class Page:
    """Places real sizes on the page: ``scale`` nm to the page's millimetre.

    Points are given in millimetres of the page (``PAGE_MM`` wide), so that texts
    have room, and kept in real nanometres.
    """

    def __init__(self, shop: Shop, scale: float) -> None:
        self.shop = shop
        self.scale = scale

    def mm(self, nm: float) -> float:
        """Real nanometres as millimetres on the page."""
        return nm / self.scale

    def point(self, x: float, y: float) -> Point:
        return Point(round(x * self.scale), round(y * self.scale))

    def offset(self, mm: float) -> Length:
        return Length(round(mm * self.scale))

    def show(self, length: Length) -> str:
        return shop_text(length, self.shop)

    def clear(self, text: str) -> float:
        """How far off an upright dimension line stands, so that its text is clear."""
        lines = OTHER.split(text, maxsplit=1)
        return max(9.0, max(map(text_width, lines)) / 2 + 2.5)

    def shape(
        self,
        points: Iterable[XY],
        species: str = "",
        title: str = "",
        scrap: bool = False,
    ) -> Shape:
        placed = tuple(self.point(x, y) for x, y in points)
        return Shape(placed, species=species, title=title, scrap=scrap)

    def box(self, x: float, y: float, wide: float, high: float) -> list[XY]:
        return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]

    def measure(self, start: XY, end: XY, text: str, offset: float) -> Measure:
        return Measure(self.point(*start), self.point(*end), text, self.offset(offset))

    def label(self, x: float, y: float, text: str, *, quiet: bool = False) -> Label:
        return Label(self.point(x, y), text, quiet=quiet)

    def line(self, start: XY, end: XY, pen: Pen = Pen.OUTLINE) -> Line:
        return Line(self.point(*start), self.point(*end), pen)

    def dashed(self, points: list[XY]) -> list[Line]:
        ends = zip(points, [*points[1:], points[0]], strict=True)
        return [self.line(a, b, Pen.HIDDEN) for a, b in ends]

    @property
    def width(self) -> Length:
        """The whole page."""
        return self.offset(PAGE_MM)
