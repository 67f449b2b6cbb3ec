"""One corner with its spline at a larger scale, seen from above."""

from __future__ import annotations

import math

from app.core.corner_splines import Splines
from app.core.drawing import PAGE_MM, Drawing
from app.core.forms._page import XY, Page
from app.core.length import Length
from app.core.shop import Shop

# How wide and high the corner may stand, millimetres of the page, and where its
# outer point is.
WIDE, HIGH, TOP = 38.0, 46.0, 9.0
MIDDLE = PAGE_MM / 2


def spline_drawing(splines: Splines, shop: Shop, woods: tuple[str, str]) -> Drawing:
    """The corner cut level through a spline; ``woods`` are the walls', left and right.

    The outer corner points up the page.
    """
    lean = math.pi / 2 - math.pi / splines.sides
    shown = max(splines.visible.nm * 1.5, splines.wall.nm * 2.2)
    deep = shown * math.cos(lean) + splines.wall.nm / math.sin(lean)
    scale = max(2 * shown * math.sin(lean) / WIDE, deep / HIGH)
    corner = _Corner(Page(shop, scale), splines, lean, shown)
    page, floor = corner.page, corner.down(splines.depth)
    left, right = (
        corner.along(-1, splines.visible.nm),
        corner.along(1, splines.visible.nm),
    )
    out = page.mm(shown) * math.sin(lean) + 12
    measures = (
        page.measure(corner.tip, floor, page.show(splines.depth), out),
        page.measure(
            floor, corner.down(splines.corner_thickness), page.show(splines.cheek), -out
        ),
    )
    return Drawing(
        key="spline",
        title="A corner with its spline",
        description=f"A mitred corner seen from above. The slot is "
        f"{page.show(splines.depth)} deep from the corner and leaves "
        f"{page.show(splines.cheek)}; the spline shows {page.show(splines.visible)} on "
        "each face. Its grain runs along its long edge.",
        shapes=(
            page.shape(corner.wall(-1), woods[0], "Wall"),
            page.shape(corner.wall(1), woods[1], "Wall"),
            page.shape([corner.tip, right, left], splines.species[0], "Spline"),
        ),
        measures=measures,
        labels=tuple(
            page.label(MIDDLE, corner.bottom + 7 + 5.5 * i, text, quiet=i > 0)
            for i, text in enumerate(corner.texts())
        ),
        width=page.width,
        height=page.offset(corner.bottom + 16),
    )


class _Corner:
    """Places of one corner on its page: ``shown`` nm of each face are drawn."""

    def __init__(self, page: Page, splines: Splines, lean: float, shown: float) -> None:
        self.page, self.splines, self.lean, self.shown = page, splines, lean, shown
        self.tip: XY = (MIDDLE, TOP)

    def along(self, side: int, nm: float, inwards: float = 0) -> XY:
        """A place along a face, -1 left and 1 right, and square to it inwards."""
        sin, cos = math.sin(self.lean), math.cos(self.lean)
        x, y = nm * sin - inwards * cos, nm * cos + inwards * sin
        return MIDDLE + side * self.page.mm(x), TOP + self.page.mm(y)

    def down(self, length: Length) -> XY:
        """A place on the line that halves the corner."""
        return MIDDLE, TOP + self.page.mm(length.nm)

    def wall(self, side: int) -> list[XY]:
        wall = self.splines.wall.nm
        return [
            self.tip,
            self.along(side, self.shown),
            self.along(side, self.shown, wall),
            self.down(self.splines.corner_thickness),
        ]

    @property
    def bottom(self) -> float:
        """The lowest place of the walls on the page."""
        points = [*self.wall(1), *self.wall(-1)]
        return max(y for _, y in points)

    def texts(self) -> tuple[str, str]:
        show = self.page.show
        thick = show(self.splines.thickness)
        return (
            f"shows {show(self.splines.visible)} on each face",
            f"wall {show(self.splines.wall)}, spline {thick} thick",
        )
