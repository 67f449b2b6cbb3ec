"""A mitred corner from above, at a larger scale."""

from __future__ import annotations

import math

from app.core import geometry
from app.core.drawing import Drawing, Line, Measure, Pen, Shape
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.shop import Shop

MIDDLE, TOP, WIDE, HIGH = 60.0, 6.0, 64.0, 48.0


def corner(vessel: Vessel, shop: Shop) -> Drawing:
    """Two walls that meet, the outer corner up the page."""
    drawn = _Corner(vessel, shop)
    page, bevel = drawn.page, geometry.edge_bevel(vessel.sides)
    dashed = " (dashed: square)" if drawn.lines() else ""
    told = (
        f"Each edge is bevelled {bevel} from square{dashed}; the walls, "
        f"{page.show(vessel.wall)} thick, meet at "
        f"{geometry.interior_angle(vessel.sides)} inside."
    )
    labels, end = page.notes(drawn.floor + 7, [told])
    return Drawing(
        key="corner",
        title="A corner at a larger scale",
        description=f"Two walls meet in a mitre, each edge bevelled {bevel}. The wood "
        f"at the corner, along the joint, is {page.show(vessel.corner_thickness)}.",
        shapes=drawn.shapes(),
        lines=drawn.lines(),
        measures=(drawn.measure(),),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


class _Corner:
    """Places of the corner on its page; 1 is the right wall and -1 the left."""

    def __init__(self, vessel: Vessel, shop: Shop) -> None:
        self.vessel = vessel
        self.lean = math.pi / 2 - math.pi / vessel.sides
        wall = vessel.wall.nm
        # So much of each face: up to its inner edge, and more to see the wall by.
        shown = min(wall / math.tan(self.lean) + 1.6 * wall, vessel.outside_side.nm)
        self.tip = wall / math.sin(self.lean)
        self.ends = [self._along(shown, 0), self._along(shown, wall)]
        wide = 2 * max(x for x, _ in self.ends)
        high = max(self.tip, *(y for _, y in self.ends))
        self.page = Page(vessel, shop, max(wide / WIDE, high / HIGH))
        self.half = self.page.mm(wide) / 2
        self.floor = TOP + self.page.mm(high)

    def _along(self, nm: float, inwards: float) -> XY:
        """So far along the right face and so far into the wood; y down."""
        sin, cos = math.sin(self.lean), math.cos(self.lean)
        return nm * sin - inwards * cos, nm * cos + inwards * sin

    def _place(self, side: int, at: XY) -> XY:
        return MIDDLE + side * self.page.mm(at[0]), TOP + self.page.mm(at[1])

    def shapes(self) -> tuple[Shape, ...]:
        """The left wall and the right one."""
        found = []
        for side, wall in ((-1, 0), (1, 1)):
            points = [(0.0, 0.0), *self.ends, (0.0, self.tip)]
            placed = [self._place(side, at) for at in points]
            wood = self.vessel.column(wall)[-1]
            found.append(self.page.shape(placed, wood, "Wall"))
        return tuple(found)

    def lines(self) -> tuple[Line, ...]:
        """Where an edge cut square would run, where that lies in the wood."""
        if self.vessel.sides < 5:
            return ()
        end = self._along(0, self.vessel.wall.nm)
        ends = self._place(1, (0, 0)), self._place(1, end)
        return (self.page.line(*ends, Pen.HIDDEN),)

    def measure(self) -> Measure:
        """The wood at the corner, along the joint."""
        text = self.page.show(self.vessel.corner_thickness)
        ends = self._place(1, (0, 0)), self._place(1, (0, self.tip))
        return self.page.measure(*ends, text, self.half + 13)
