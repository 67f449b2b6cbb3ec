"""The vessel seen from above, cut level over its base."""

from __future__ import annotations

from collections.abc import Iterable

from app.core import geometry
from app.core.drawing import Drawing, Line, Measure, Shape
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.length import Length
from app.core.shop import Shop

MIDDLE, WIDE, TOP = 60.0, 60.0, 6.0


def plan(vessel: Vessel, shop: Shop) -> Drawing:
    """Walls, the circle's sizes, and dashed what the base reaches to."""
    wide, high = geometry.extent(geometry.corners(vessel.sides, vessel.outside_side))
    page = Page(vessel, shop, max(wide.nm, high.nm) / WIDE)
    drop = max(y for _, y in geometry.corners(vessel.sides, vessel.outside_side))
    middle = (MIDDLE, TOP + page.mm(high.nm - drop))
    outer = placed(page, vessel.outside_side, middle)
    inner = placed(page, vessel.inside_side, middle)
    floor = outer[0][1]
    flat = outer[0], outer[-1]
    measures = [page.measure(*flat, page.show(vessel.outside_side), -8)]
    labels, end = page.notes(floor + 19, _notes(page))
    return Drawing(
        key="plan",
        title="From above",
        description=_words(vessel, page),
        shapes=tuple(_walls(page, outer, inner)),
        lines=tuple(_base(page, middle)),
        measures=(*measures, *_across(page, outer, inner)),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


def placed(page: Page, side: Length, middle: XY) -> list[XY]:
    """A polygon of this side round a place on the page."""
    points = geometry.corners(page.vessel.sides, side)
    return [(middle[0] + page.mm(x), middle[1] + page.mm(y)) for x, y in points]


def _walls(page: Page, outer: list[XY], inner: list[XY]) -> Iterable[Shape]:
    count = len(outer)
    for i in range(count):
        j = (i + 1) % count
        # The last edge is the front; walls go on to its right, as they stand.
        wall = (count - i - 1) % count
        points = [outer[i], outer[j], inner[j], inner[i]]
        species = page.vessel.column(wall)[-1]
        yield page.shape(points, species, f"Wall {wall + 1}")


def _base(page: Page, middle: XY) -> list[Line]:
    if not page.vessel.housed:
        return []
    return page.dashed(placed(page, page.vessel.plate("base").side, middle))


def _across(page: Page, outer: list[XY], inner: list[XY]) -> Iterable[Measure]:
    """Right the outside, flat to flat or to the far corner; left the inside."""
    vessel = page.vessel
    right, left = max(x for x, _ in outer), min(x for x, _ in outer)
    even = vessel.sides % 2 == 0
    out = vessel.outside_inscribed if even else vessel.flat_to_corner
    for points, length, edge, way in (
        (outer, out, right, -1),
        (inner, vessel.inside_inscribed if even else None, left, 1),
    ):
        if length is None:
            continue
        top, floor = min(y for _, y in points), max(y for _, y in points)
        x = points[-1][0] if way < 0 else points[0][0]
        if not even:
            x = MIDDLE
        off = way * (abs(edge - x) + 15)
        yield page.measure((x, floor), (x, top), page.show(length), off)


def _notes(page: Page) -> list[str]:
    vessel, show = page.vessel, page.show
    inside = show(vessel.inside_inscribed)
    found = [
        f"Walls {show(vessel.wall)} thick; {inside} across the flats inside.",
        f"Through the corners {show(vessel.outside_circumscribed)} outside.",
    ]
    if vessel.sides % 2:
        found[1] = (
            f"Touching every side: {show(vessel.outside_inscribed)} outside. At the "
            "right from a side to the corner across."
        )
    if vessel.housed:
        found.append(f"Dashed: the base in its {vessel.base}.")
    return found


def _words(vessel: Vessel, page: Page) -> str:
    words = (
        f"{vessel.sides} mitred walls seen from above. Each outside side is "
        f"{page.show(vessel.outside_side)}, the wall {page.show(vessel.wall)}; across "
        f"the flats {page.show(vessel.outside_inscribed)} outside and "
        f"{page.show(vessel.inside_inscribed)} inside."
    )
    if vessel.housed:
        words += f" The base reaches into a {vessel.base} and is drawn dashed."
    return words
