"""A base, lid or plug on its blank, as it is cut, and as a template."""

from __future__ import annotations

import math
from collections.abc import Iterable

from app.core.drawing import Drawing, Label, Line, Measure, Pen
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_gauge_drawing import on_gauge
from app.core.forms._vessel_page import XY, Page
from app.core.forms._vessel_plate import Plate
from app.core.shop import Shop
from app.core.template import template

LEFT, TOP, SIDE = 22.0, 5.0, 66.0


def plate_drawings(plate: Plate, vessel: Vessel, shop: Shop) -> list[Drawing]:
    """On its blank, on the gauge, and at true size where paper is large enough."""
    found = [_on_blank(plate, vessel, shop), on_gauge(plate, vessel, shop)]
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
