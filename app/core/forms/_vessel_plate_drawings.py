"""A base, lid or plug on its blank, as it is cut, and as a template."""

from __future__ import annotations

import math
from collections.abc import Iterable

from app.core.drawing import Drawing, Label, Line, Measure, Pen
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page, clipped
from app.core.forms._vessel_plate import Plate
from app.core.forms._vessel_setups import plate_gauge
from app.core.shop import Shop
from app.core.template import template

LEFT, TOP, SIDE = 22.0, 5.0, 66.0


def plate_drawings(plate: Plate, vessel: Vessel, shop: Shop) -> list[Drawing]:
    """On its blank, on the gauge, and at true size where paper is large enough."""
    found = [_on_blank(plate, vessel, shop), _on_gauge(plate, vessel, shop)]
    true = _template(plate, shop, vessel)
    return [*found, true] if true else found


def _on_blank(plate: Plate, vessel: Vessel, shop: Shop) -> Drawing:
    page = Page(vessel, shop, plate.blank.nm / SIDE)
    name, floor = plate.name.lower(), TOP + SIDE
    points = _upright(plate, page, (LEFT + SIDE / 2, floor))
    middle = _middle(points)
    corner, other = points[0], points[-1]
    blank = page.show(plate.blank)
    measures = [
        page.measure(corner, other, page.show(plate.side), -8),
        page.measure((LEFT, floor), (LEFT + SIDE, floor), blank, -18),
        _across(plate, page, points),
    ]
    labels, end = page.notes(
        floor + 27,
        [
            (
                "Numbers: the sides in the order they are cut; side 1 is the blank's "
                "jointed edge."
            ),
            f"{plate.strip_count} strips, grain along side 1. Crossed out falls away."
            if plate.panel_key
            else "Grain along side 1. Crossed out falls away.",
        ],
    )
    return Drawing(
        key=plate.key,
        title=f"The {name} on its blank",
        description=f"A {name} of {plate.sides} sides of {page.show(plate.side)} on a "
        f"square blank of {blank}, side 1 on its lower edge; what falls away is "
        "crossed out. The grain runs from left to right.",
        shapes=(
            page.shape(page.box(LEFT, TOP, SIDE, SIDE), title="Falls away", scrap=True),
            page.shape(points, plate.species, plate.name),
        ),
        lines=tuple(_joints(plate, page, points)),
        measures=tuple(measures),
        labels=(*_numbers(page, points, middle), *labels),
        width=page.width,
        height=page.offset(end),
    )


def _upright(plate: Plate, page: Page, foot: XY) -> list[XY]:
    """The plate with the middle of side 1 at ``foot``; its left corner first."""
    corners = plate.corners
    drop = max(y for _, y in corners)
    return [(foot[0] + page.mm(x), foot[1] + page.mm(y - drop)) for x, y in corners]


def _middle(points: list[XY]) -> XY:
    count = len(points)
    return sum(x for x, _ in points) / count, sum(y for _, y in points) / count


def _across(plate: Plate, page: Page, points: list[XY]) -> Measure:
    """From side 1 to the side or the corner across."""
    top = min(y for _, y in points)
    floor = points[0][1]
    even = plate.sides % 2 == 0
    x = points[-1][0] if even else (points[0][0] + points[-1][0]) / 2
    length = plate.inscribed if even else plate.flat_to_corner
    off = -(LEFT + SIDE - x + 16)
    return page.measure((x, floor), (x, top), page.show(length), off)


def _numbers(page: Page, points: list[XY], middle: XY) -> Iterable[Label]:
    """Each side's number inside of its middle: 1 below, then as they are cut."""
    count = len(points)
    for i in range(count):
        # The last edge is side 1; cut by cut the piece turns the other way round.
        a, b = points[i], points[(i + 1) % count]
        at = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        out = math.dist(at, middle) or 1.0
        part = max(out - 4.2, out * 0.55) / out
        x, y = (m + (p - m) * part for m, p in zip(middle, at, strict=True))
        number = (count - 1 - i) % count + 1
        yield page.label(x, y + 1.2, str(number), quiet=True)


def _joints(plate: Plate, page: Page, points: list[XY]) -> Iterable[Line]:
    """Glue lines between the strips, across the blank."""
    count = plate.strip_count
    for i in range(1, count):
        y = TOP + SIDE - SIDE * i / count
        yield page.line((LEFT, y), (LEFT + SIDE, y), Pen.GRAIN)


def _on_gauge(plate: Plate, vessel: Vessel, shop: Shop) -> Drawing:
    """Side 1 on the gauge's fence and the blade about to cut side 2, from above."""
    turned = _turned(plate)
    blade, points, blank = turned
    xs = [x for x, _ in blank]
    ys = [y for _, y in blank]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    page = Page(vessel, shop, max(wide / 56, high / 56))
    shift = 60 - page.mm(max(xs) + min(xs)) / 2, 12 - page.mm(min(ys))

    def place(at: XY) -> XY:
        return shift[0] + page.mm(at[0]), shift[1] + page.mm(at[1])

    square, piece = [place(at) for at in blank], [place(at) for at in points]
    x = place(blade)[0]
    fence = _fence(piece[0], piece[-1], page)
    gauge = plate_gauge(plate.sides)
    name = plate.name.lower()
    low = max(y for _, y in (*square, *fence)) + 3
    labels, end = page.notes(
        low + 14,
        [
            (
                f"From above, fed up the page. Gauge {gauge} from square, side 1 on "
                f"its fence, the mark {page.show(plate.side)} from the blade; beyond "
                "the blade falls away."
            ),
        ],
    )
    return Drawing(
        key=f"{plate.key}_cut",
        title=f"Cutting the {name}",
        description=f"The {name}'s blank from above, side 1 on the mitre gauge's "
        f"fence, which is turned {gauge} from square. The corner of side 1 stands at "
        f"a mark {page.show(plate.side)} from the blade, which cuts side 2.",
        shapes=(
            page.shape(
                clipped(square, x, keep_left=False), title="Falls away", scrap=True
            ),
            page.shape(clipped(square, x, keep_left=True), "", "Blank"),
            page.shape(piece, plate.species, plate.name),
            page.shape(fence, "", "Fence of the gauge"),
        ),
        lines=(
            page.line((x, 7), (x, piece[-1][1] + 5), Pen.CUT),
            page.line(piece[0], _out(piece[0], fence, 7), Pen.GRAIN),
        ),
        labels=(
            page.label(x, 5, "blade", quiet=True),
            _mark(page, _out(piece[0], fence, 10)),
            *labels,
        ),
        width=page.width,
        height=page.offset(end),
    )


def _turned(plate: Plate) -> tuple[XY, list[XY], list[XY]]:
    """Blade corner, plate and blank in nm, turned so that side 2 stands upright."""
    corners = list(plate.corners)
    drop = max(y for _, y in corners)
    side, blank = plate.side.nm, plate.blank.nm
    square = [(-blank / 2, drop), (-blank / 2, drop - blank)]
    square += [(blank / 2, drop - blank), (blank / 2, drop)]
    # From the right end of side 1 the next side rises by the outer angle.
    turn = math.pi / 2 - 2 * math.pi / plate.sides

    def move(at: XY) -> XY:
        x, y = at[0] - side / 2, at[1] - drop
        cos, sin = math.cos(turn), math.sin(turn)
        return x * cos + y * sin, y * cos - x * sin

    return (0.0, 0.0), [move(at) for at in corners], [move(at) for at in square]


def _fence(far: XY, near: XY, page: Page) -> list[XY]:
    """A bar along side 1 on the side away from the plate, short of the blade."""
    long = math.dist(far, near)
    along = (near[0] - far[0]) / long, (near[1] - far[1]) / long
    # Down the page from the plate: to the right of the way from far to near.
    out = -along[1], along[0]
    start = far[0] - along[0] * 12, far[1] - along[1] * 12
    end = (
        near[0] - along[0] * min(3.0, long / 3),
        near[1] - along[1] * min(3.0, long / 3),
    )
    thick = 3.5
    return [
        start,
        end,
        (end[0] + out[0] * thick, end[1] + out[1] * thick),
        (start[0] + out[0] * thick, start[1] + out[1] * thick),
    ]


def _out(at: XY, fence: list[XY], far: float) -> XY:
    """A place so far beyond the fence, square to it."""
    (x, y), (x2, y2) = fence[0], fence[3]
    thick = math.dist(fence[0], fence[3])
    return at[0] + (x2 - x) * far / thick, at[1] + (y2 - y) * far / thick


def _mark(page: Page, at: XY) -> Label:
    return page.label(at[0], at[1] + 1.2, "mark", quiet=True)


def _template(plate: Plate, shop: Shop, vessel: Vessel) -> Drawing | None:
    name = plate.name.lower()
    show = Page(vessel, shop, 1).show
    return template(
        f"{plate.key}_template",
        f"Template for the {name}",
        f"The {name} at its true size, {plate.sides} sides of {show(plate.side)}, with "
        "its middle and the way of the grain.",
        [list(plate.corners)],
        sizes=(
            (
                f"{plate.sides} sides of {show(plate.side)}, "
                f"{show(plate.inscribed)} across the flats, "
                f"{show(plate.thickness)} thick"
            ),
        ),
    )
