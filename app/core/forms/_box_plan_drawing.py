"""The box from above, and its joint at one corner at a larger scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from app.core.drawing import Drawing, Measure, Shape
from app.core.forms._box import Box
from app.core.forms._box_page import Page, fit, in_plan, plan_outline
from app.core.forms._box_walls import Wall
from app.core.forms._page import XY
from app.core.shop import Shop

PLACES = ("Front", "Right end", "Back", "Left end")


def plan(box: Box, shop: Shop) -> Drawing:
    """Cut level above the base and looked at from above."""
    along = bool(box.dividers and box.dividers.along.starts)
    across = bool(box.dividers and box.dividers.across.starts)
    left, room = (28.0, 58.0) if across else (10.0, 70.0)
    left, room = (34.0, 52.0) if along else (left, room)
    top = 17.0 if across else 6.0
    page = Page(box, shop, fit(box.length.nm, box.width.nm, (room, 74.0)))
    left += (room - page.mm(box.length.nm)) / 2
    drawer = _Plan(page, (left, top))
    floor = top + page.mm(box.width.nm)
    labels, end = page.notes(_notes(page), floor + 21)
    return Drawing(
        key="plan",
        title="From above",
        description=_words(page),
        shapes=tuple(drawer.shapes()),
        lines=tuple(page.dashed(drawer.base())),
        measures=tuple(drawer.measures()),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


class _Plan:
    """Places of the plan on the page."""

    def __init__(self, page: Page, corner: XY) -> None:
        self.page, self.box, self.corner = page, page.built, corner

    def at(self, x: float, y: float) -> XY:
        """From the box's left and back, nm."""
        return self.corner[0] + self.page.mm(x), self.corner[1] + self.page.mm(y)

    def rect(self, x: float, y: float, wide: float, high: float) -> list[XY]:
        return [
            self.at(x, y),
            self.at(x + wide, y),
            self.at(x + wide, y + high),
            self.at(x, y + high),
        ]

    def shapes(self) -> Iterator[Shape]:
        box, row = self.box, len(self.box.rows) - 1
        finger = box.fingers.count // 2 if box.fingers else 0
        for number in range(4):
            wall = Wall(box, number, 0, box.wall_height.nm)
            points = [
                self.at(*in_plan(box, number, u, t))
                for u, t in plan_outline(wall, finger)
            ]
            species = box.pattern.column(number)[row]
            yield self.page.shape(points, species, PLACES[number])
        yield from self._dividers()

    def _dividers(self) -> Iterator[Shape]:
        box, dividers = self.box, self.box.dividers
        if not dividers:
            return
        wall, thick = box.wall.nm, dividers.thickness.nm
        for start in dividers.along.starts:
            long = dividers.along.length.nm
            y = box.width.nm - wall - start.nm - thick
            rect = self.rect((box.length.nm - long) / 2, y, long, thick)
            yield self.page.shape(rect, dividers.species, "Divider along")
        for start in dividers.across.starts:
            long = dividers.across.length.nm
            rect = self.rect(wall + start.nm, (box.width.nm - long) / 2, thick, long)
            yield self.page.shape(rect, dividers.species, "Divider across")

    def base(self) -> list[XY]:
        box, size = self.box, self.box.base_size
        x = (box.length.nm - size.length.nm) / 2
        y = (box.width.nm - size.width.nm) / 2
        return self.rect(x, y, size.length.nm, size.width.nm)

    def measures(self) -> Iterator[Measure]:
        page, box, show = self.page, self.box, self.page.show
        long, wide, wall = box.length.nm, box.width.nm, box.wall.nm
        below = self.at(0, wide), self.at(long, wide)
        yield page.measure(*below, show(box.length), -9)
        right = self.at(long, wide), self.at(long, 0)
        yield page.measure(*right, show(box.width), -9)
        dividers = box.dividers
        if dividers and dividers.across.starts:
            end = wall + dividers.across.starts[0].nm
            start = self.at(wall, 0), self.at(end, 0)
            yield page.measure(*start, show(dividers.across.compartment), 7)
        if dividers and dividers.along.starts:
            end = wide - wall - dividers.along.starts[0].nm
            start = self.at(0, wide - wall), self.at(0, end)
            yield page.measure(*start, show(dividers.along.compartment), 7)


def _notes(page: Page) -> list[str]:
    box, show = page.built, page.show
    size = box.base_size
    how = "base under the walls:" if box.base == "under" else "dashed: base"
    found = [
        f"inside {show(box.inside_length)} × {show(box.inside_width)}",
        f"walls {show(box.wall)} thick",
        (f"{how} {show(size.length)} × {show(size.width)}"),
        f"base {show(size.thickness)} thick",
    ]
    if box.dividers:
        found.append(f"dividers {show(box.dividers.thickness)} thick, evenly spaced")
    return found


def _words(page: Page) -> str:
    box, show = page.built, page.show
    joint = {
        "finger": "finger joints",
        "rebate": "rebated corners",
        "mitre": "mitred corners",
    }[box.joint]
    return (
        f"A box with {joint} seen from above, {show(box.length)} by "
        f"{show(box.width)} outside, walls {show(box.wall)} thick. The base is drawn "
        "dashed."
    )


def corner(box: Box, shop: Shop) -> Drawing:
    """The front left corner, level, large: the front below, the left end upright."""
    reach = box.wall.nm * 2.6
    page = Page(box, shop, reach / 44.0)
    left, top, side = 34.0, 8.0, 44.0
    floor = top + side

    def at(x: float, y: float) -> XY:
        # From the box's left and front, up the page.
        return left + page.mm(x), floor - page.mm(y)

    shapes = []
    for number in (0, 3):
        wall = Wall(box, number, 0, box.wall_height.nm)
        species = box.pattern.column(number)[-1]
        points = [at(*place) for place in _corner_outline(wall, number, round(reach))]
        shapes.append(page.shape(points, species, PLACES[number]))
    labels, end = page.notes(_corner_notes(page), floor + 21)
    return Drawing(
        key="corner",
        title="One corner from above, larger",
        description=f"The front left corner cut level. {' '.join(_corner_notes(page))}",
        shapes=tuple(shapes),
        measures=tuple(_corner_measures(page, at)),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


def _corner_outline(wall: Wall, number: int, reach: int) -> list[tuple[int, int]]:
    """One wall's near end and a stretch of it, x right and y up from the corner."""
    points = [(u, t) for u, t in plan_outline(wall, 0) if u <= wall.box.wall.nm]
    # The left end runs from the back, but both its ends are alike.
    points += [(reach, wall.box.wall.nm), (reach, 0)]
    return points if number == 0 else [(t, u) for u, t in points]


def _corner_measures(page: Page, at: Callable[[float, float], XY]) -> Iterator[Measure]:
    box, show, wall = page.built, page.show, page.built.wall.nm
    reach = wall * 2.6
    yield page.measure(at(reach, 0), at(reach, wall), show(box.wall), -9)
    if box.joint != "rebate":
        yield page.measure(at(0, 0), at(wall, 0), show(box.wall), -8)
        return
    lip = wall - box.rebate_depth.nm
    if box.carries(0):
        yield page.measure(at(0, 0), at(wall, 0), show(box.wall), -8)
        yield page.measure(at(0, wall), at(0, lip), show(box.rebate_depth), -8)
    else:
        yield page.measure(at(lip, 0), at(wall, 0), show(box.rebate_depth), -8)
        yield page.measure(at(0, wall), at(0, 0), show(box.wall), -8)


def _corner_notes(page: Page) -> list[str]:
    box, show = page.built, page.show
    if box.joint == "mitre":
        return ["Both walls are bevelled at 45°; the outside keeps its length."]
    what = box.rebate_on
    return [
        (
            f"A rebate {show(box.wall)} wide and {show(box.rebate_depth)} deep in the "
            f"{what}; the lip left is {show(box.wall - box.rebate_depth)} thick."
        )
    ]
