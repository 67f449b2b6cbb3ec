"""A plate on the mitre gauge, from above, as its second side is cut."""

from __future__ import annotations

import math

from app.core import geometry
from app.core.drawing import Drawing, Label, Line, Pen, Shape
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.forms._vessel_plate import Plate
from app.core.shop import Shop

# The blank's room and middle on the page, and the fence: how thick, how far it runs
# on beyond the mark and how far it stays off the blade; millimetres.
ROOM, MIDDLE, TOP = 56.0, 60.0, 12.0
THICK, BEYOND, SHORT = 3.5, 12.0, 3.0


def on_gauge(plate: Plate, vessel: Vessel, shop: Shop) -> Drawing:
    """Side 1 on the gauge's fence, the blade about to cut side 2."""
    cut = _Cut(plate, vessel, shop)
    page, name, gauge = (
        cut.page,
        plate.name.lower(),
        geometry.polygon_gauge(plate.sides),
    )
    mark = page.show(plate.side)
    told = (
        f"From above, fed up the page. Gauge {gauge} from square, side 1 on its "
        f"fence, the mark {mark} from the blade; beyond the blade falls away."
    )
    labels, end = page.notes(cut.low + 14, [told])
    return Drawing(
        key=f"{plate.key}_cut",
        title=f"Cutting the {name}",
        description=f"The {name}'s blank from above, side 1 on the mitre gauge's "
        f"fence, which is turned {gauge} from square. The corner of side 1 stands at "
        f"a mark {mark} from the blade, which cuts side 2.",
        shapes=cut.shapes(),
        lines=cut.lines(),
        labels=(*cut.labels(), *labels),
        width=page.width,
        height=page.offset(end),
    )


class _Cut:
    """Plate, blank and fence on the page; the blade stands upright at ``blade``."""

    def __init__(self, plate: Plate, vessel: Vessel, shop: Shop) -> None:
        points, blank = _turned(plate)
        xs, ys = [x for x, _ in blank], [y for _, y in blank]
        scale = max(max(xs) - min(xs), max(ys) - min(ys)) / ROOM
        self.plate, self.page = plate, Page(vessel, shop, scale)
        mm = self.page.mm
        # The corner that the blade cuts at lies at nothing, nothing.
        self.blade = MIDDLE - mm(max(xs) + min(xs)) / 2
        top = TOP - mm(min(ys))
        self.piece = [(self.blade + mm(x), top + mm(y)) for x, y in points]
        self.square = [(self.blade + mm(x), top + mm(y)) for x, y in blank]
        self.fence = _fence(self.piece[0], self.piece[-1])
        self.low = max(y for _, y in (*self.square, *self.fence)) + 3

    def shapes(self) -> tuple[Shape, ...]:
        page, plate = self.page, self.plate
        off = _clipped(self.square, self.blade, keep_left=False)
        kept = _clipped(self.square, self.blade, keep_left=True)
        return (
            page.shape(off, title="Falls away", scrap=True),
            page.shape(kept, "", "Blank"),
            page.shape(self.piece, plate.species, plate.name),
            page.shape(self.fence, "", "Fence of the gauge"),
        )

    def lines(self) -> tuple[Line, ...]:
        low = self.piece[-1][1] + 5
        return (
            self.page.line((self.blade, 7), (self.blade, low), Pen.CUT),
            self.page.line(self.piece[0], self._out(7), Pen.GRAIN),
        )

    def labels(self) -> tuple[Label, ...]:
        x, y = self._out(10)
        return (
            self.page.label(self.blade, 5, "blade", quiet=True),
            self.page.label(x, y + 1.2, "mark", quiet=True),
        )

    def _out(self, far: float) -> XY:
        """A place so far from the marked corner, square to the fence."""
        (x, y), (x2, y2) = self.fence[0], self.fence[3]
        at = self.piece[0]
        return at[0] + (x2 - x) * far / THICK, at[1] + (y2 - y) * far / THICK


def _turned(plate: Plate) -> tuple[list[XY], list[XY]]:
    """Plate and blank in nm, turned so that side 2 stands upright at x = 0."""
    drop = max(y for _, y in plate.corners)
    side, blank = plate.side.nm, plate.blank.nm
    square = [(-blank / 2, drop), (-blank / 2, drop - blank)]
    square += [(blank / 2, drop - blank), (blank / 2, drop)]
    # From the right end of side 1 the next side rises by the outer angle.
    turn = math.pi / 2 - 2 * math.pi / plate.sides
    cos, sin = math.cos(turn), math.sin(turn)

    def move(at: XY) -> XY:
        x, y = at[0] - side / 2, at[1] - drop
        return x * cos + y * sin, y * cos - x * sin

    return [move(at) for at in plate.corners], [move(at) for at in square]


def _fence(far: XY, near: XY) -> list[XY]:
    """A bar along side 1 on the side away from the plate, short of the blade."""
    long = math.dist(far, near)
    x, y = (near[0] - far[0]) / long, (near[1] - far[1]) / long
    short = min(SHORT, long / 3)
    start = far[0] - x * BEYOND, far[1] - y * BEYOND
    end = near[0] - x * short, near[1] - y * short
    # Down the page from the plate: to the right of the way from far to near.
    return [
        start,
        end,
        (end[0] - y * THICK, end[1] + x * THICK),
        (start[0] - y * THICK, start[1] + x * THICK),
    ]


def _clipped(points: list[XY], at: float, *, keep_left: bool) -> list[XY]:
    """What an upright line at x leaves of an outline on one of its sides."""
    sign = 1 if keep_left else -1
    found: list[XY] = []
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        a, b = sign * (x1 - at), sign * (x2 - at)
        if a <= 0:
            found.append((x1, y1))
        if (a < 0 < b) or (b < 0 < a):
            found.append((at, y1 + (y2 - y1) * a / (a - b)))
    return found
