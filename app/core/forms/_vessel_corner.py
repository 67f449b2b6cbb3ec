"""A mitred corner from above, at a larger scale."""

from __future__ import annotations

import math
from collections.abc import Callable

from app.core import geometry
from app.core.drawing import Drawing, Line, Pen
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.shop import Shop

# A place of the right or, with -1, the left wall on the page.
Place = Callable[[int, XY], XY]
MIDDLE, TOP, WIDE, HIGH = 60.0, 6.0, 64.0, 48.0


def corner(vessel: Vessel, shop: Shop) -> Drawing:
    """Two walls that meet, the outer corner up the page."""
    lean = math.pi / 2 - math.pi / vessel.sides
    wall = vessel.wall.nm
    # So much of each face: its inner edge, and as much again to see the wall by.
    shown = wall / math.tan(lean) + 1.6 * wall
    shown = min(shown, vessel.outside_side.nm)
    tip = wall / math.sin(lean)
    ends = [_along(lean, shown, 0), _along(lean, shown, wall)]
    wide = 2 * max(x for x, _ in ends)
    high = max(tip, *(y for _, y in ends))
    page = Page(vessel, shop, max(wide / WIDE, high / HIGH))

    def place(side: int, at: XY) -> XY:
        return MIDDLE + side * page.mm(at[0]), TOP + page.mm(at[1])

    inner = place(1, (0, tip))
    shapes = [
        page.shape(
            [place(s, (0, 0)), *(place(s, end) for end in ends), inner], wood, "Wall"
        )
        for s, wood in ((-1, vessel.column(0)[-1]), (1, vessel.column(1)[-1]))
    ]
    out = page.mm(wide) / 2 + 13
    floor = TOP + page.mm(high)
    bevel = geometry.edge_bevel(vessel.sides)
    dashed = " (dashed: square)" if vessel.sides >= 5 else ""
    labels, end = page.notes(
        floor + 7,
        [
            (
                f"Each edge is bevelled {bevel} from square{dashed}; the "
                f"walls, {page.show(vessel.wall)} thick, meet at "
                f"{geometry.interior_angle(vessel.sides)} inside."
            ),
        ],
    )
    thick = page.show(vessel.corner_thickness)
    return Drawing(
        key="corner",
        title="A corner at a larger scale",
        description=f"Two walls meet in a mitre, each edge bevelled {bevel}. The wood "
        f"at the corner, along the joint, is {thick}.",
        shapes=tuple(shapes),
        lines=tuple(_square(page, vessel, place, lean)),
        measures=(page.measure(place(1, (0, 0)), inner, thick, out),),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


def _along(lean: float, nm: float, inwards: float) -> XY:
    """A place so far along the right face and so far into the wood; y down."""
    sin, cos = math.sin(lean), math.cos(lean)
    return nm * sin - inwards * cos, nm * cos + inwards * sin


def _square(page: Page, vessel: Vessel, place: Place, lean: float) -> list[Line]:
    """Where an edge cut square would run, where that lies in the wood."""
    if vessel.sides < 5:
        return []
    end = _along(lean, 0, vessel.wall.nm)
    return [page.line(place(1, (0, 0)), place(1, end), Pen.HIDDEN)]
