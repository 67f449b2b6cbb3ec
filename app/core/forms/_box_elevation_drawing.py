"""The box from the front and from the right end, and its fingers larger."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from app.core.drawing import Drawing, Line, Measure, Shape
from app.core.forms._box import Box
from app.core.forms._box_fingers import Fingers
from app.core.forms._box_page import Page, fit, levels
from app.core.forms._box_walls import Wall
from app.core.forms._page import XY
from app.core.shop import Shop

# How much darker end grain is drawn, percent.
END = 35
VIEWS = (("front", "From the front"), ("end", "From the right end"))


def elevation(box: Box, number: int, shop: Shop) -> Drawing:
    """Wall 0 or 1 seen from outside, with the ends of its neighbours."""
    key, title = VIEWS[number]
    above = _on_top(box)
    outer = box.outer(number).nm
    scale = fit(outer, box.height.nm + above, (56.0, 62.0))
    page = Page(box, shop, scale)
    drawer = _Elevation(page, number, above)
    labels, end = page.notes(drawer.notes(), drawer.floor + 21)
    return Drawing(
        key=key,
        title=title,
        description=drawer.words(title),
        shapes=tuple(drawer.shapes()),
        lines=tuple(drawer.hidden()),
        measures=tuple(drawer.measures()),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


def _on_top(box: Box) -> int:
    """How much of a lid stands above the walls, nm."""
    if not box.lid or box.lid.groove:
        return 0
    sunk = box.lid.lip.nm if box.lid.kind == "rebated" else 0
    return box.lid.size.thickness.nm - sunk


class _Elevation:
    """One view on the page; z runs up from the walls' lower edge."""

    def __init__(self, page: Page, number: int, above: int) -> None:
        self.page, self.box, self.number = page, page.built, number
        self.above = above
        self.outer = page.built.outer(number).nm
        self.left = 32 + (56.0 - page.mm(self.outer)) / 2
        self.zero = 8 + page.mm(page.built.wall_height.nm + above)
        self.floor = self.zero + page.mm(page.built.under.nm)

    def at(self, u: float, z: float) -> XY:
        return self.left + self.page.mm(u), self.zero - self.page.mm(z)

    def rect(self, u: float, z: float, wide: float, high: float) -> list[XY]:
        low, top = self.at(u, z), self.at(u + wide, z + high)
        return self.page.box_between(low, top)

    def shapes(self) -> Iterator[Shape]:
        box, page = self.box, self.page
        wall = Wall(box, self.number, 0, box.wall_height.nm)
        neighbour = box.pattern.column(self.number + 1)
        for low, high, row in levels(box):
            start = wall.start((low, high), 0, 0)
            own = box.pattern.column(self.number)[row]
            wide = self.outer - 2 * start
            yield page.thin(self.rect(start, low, wide, high - low), own, own)
            for u in (0, self.outer - start) if start else ():
                rect = self.rect(u, low, start, high - low)
                wood = neighbour[row]
                yield page.shaded(rect, wood, END, f"{wood}, end grain")
        yield from self._splines()
        yield from self._base_and_lid()
        yield page.empty(self.rect(0, 0, self.outer, box.wall_height.nm))

    def _splines(self) -> Iterator[Shape]:
        splines = self.box.splines
        if not splines:
            return
        thick, shown = splines.thickness.nm, splines.visible.nm
        for height, wood in zip(splines.heights, splines.species, strict=True):
            for u in (0, self.outer - shown):
                rect = self.rect(u, height.nm - thick / 2, shown, thick)
                yield self.page.shape(rect, wood, "Spline")

    def _base_and_lid(self) -> Iterator[Shape]:
        box = self.box
        if box.base == "under":
            rect = self.rect(0, -box.under.nm, self.outer, box.under.nm)
            yield self.page.shape(rect, box.base_species, "Base")
        if self.above and box.lid:
            rect = self.rect(0, box.wall_height.nm, self.outer, self.above)
            yield self.page.shape(rect, box.lid.species, "Lid")

    def hidden(self) -> list[Line]:
        """The base in its groove, and where a sliding lid lies or comes out."""
        box, found = self.box, list[Line]()
        if box.base_groove:
            size = box.base_size
            wide = (size.width if self.number else size.length).nm
            rect = self.rect(
                (self.outer - wide) / 2, box.base_up.nm, wide, size.thickness.nm
            )
            found += self.page.dashed(rect)
        groove = box.lid_groove
        if groove and box.lid:
            size = box.lid.size
            wide, high = (size.width if self.number else size.length).nm, groove.low.nm
            rect = self.rect((self.outer - wide) / 2, high, wide, groove.high.nm - high)
            found += self.page.dashed(rect)
            if self.number:
                # The strip on the lid stands apart from the lowered end.
                wall = Wall(box, 1, 0, box.wall_height.nm)
                start = wall.start((high, high + 1), 0, 0)
                line = self.at(start, high), self.at(self.outer - start, high)
                found.append(self.page.line(*line))
        return found

    def measures(self) -> Iterator[Measure]:
        page, box, show = self.page, self.box, self.page.show
        low = self.at(0, -box.under.nm), self.at(self.outer, -box.under.nm)
        yield page.measure(*low, show(box.outer(self.number)), -9)
        right = (
            self.at(self.outer, -box.under.nm),
            self.at(self.outer, box.wall_height.nm),
        )
        yield page.measure(*right, show(box.height), -9)
        if box.fingers:
            wide = box.fingers.width.nm
            first = self.at(0, 0), self.at(0, wide)
            yield page.measure(*first, show(box.fingers.width), 7)
        elif self.number and box.lid_groove:
            lowered = self.at(0, 0), self.at(0, box.lid_groove.low.nm)
            yield page.measure(*lowered, show(box.lid_groove.low), 7)

    def notes(self) -> list[str]:
        """What the sizes on the drawing do not say."""
        box, show, found = self.box, self.page.show, list[str]()
        if box.fingers:
            count = box.fingers.count
            found.append(f"{count} fingers of {show(box.fingers.width)}")
        if box.base_groove:
            found.append(f"dashed: base {show(box.base_up)} up")
        if box.lid_groove:
            strip = box.wall_height - box.lid_groove.low
            found.append(
                f"lid slides out to the right, its strip {show(strip)} high"
                if not self.number
                else f"lowered end {show(box.lid_groove.low)}, strip on the lid "
                f"{show(strip)} high"
            )
        elif box.lid and self.above:
            found.append(f"lid {show(box.lid.size.thickness)} thick")
        if box.splines:
            heights = ", ".join(show(height) for height in box.splines.heights)
            found.append(f"middles of the splines {heights} up")
        return found

    def words(self, title: str) -> str:
        show = self.page.show
        return (
            f"{title}: {show(self.box.outer(self.number))} wide, "
            f"{show(self.box.height)} high. {'; '.join(self.notes())}."
        )


def finger_detail(box: Box, fingers: Fingers, shop: Shop) -> Drawing:
    """The lower end of the corner, seen from the front, with its first fingers."""
    shown = min(fingers.count, 5)
    high, wide = fingers.marks[shown], round(box.wall.nm * 2.4)
    page = Page(box, shop, fit(wide, high, (42.0, 56.0)))
    left = 34 + (42.0 - page.mm(wide)) / 2
    floor = 8 + page.mm(high)

    def at(u: float, z: float) -> XY:
        return left + page.mm(u), floor - page.mm(z)

    shapes = _fingers_seen(page, fingers, at, (wide, high))
    hidden = []
    if box.base_groove and box.base_top.nm <= high:
        ends = box.wall.nm - box.groove_depth.nm
        for z in (box.base_up, box.base_top):
            hidden += page.dashed([at(ends, z.nm), at(wide, z.nm)])[:1]
    show = page.show
    measures = [
        page.measure(at(0, 0), at(0, fingers.marks[1]), show(fingers.width), 8),
        page.measure(at(0, 0), at(box.wall.nm, 0), show(box.wall), -8),
        page.measure(at(wide, 0), at(wide, high), show(fingers.width * shown), -8),
    ]
    texts = _finger_notes(box, fingers, page, shown)
    labels, foot = page.notes(texts, floor + 21)
    return Drawing(
        key="fingers",
        title="The fingers, larger",
        description=f"The lower corner from the front. {' '.join(texts)}",
        shapes=tuple(shapes),
        lines=tuple(hidden),
        measures=tuple(measures),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(foot),
    )


def _fingers_seen(
    page: Page,
    fingers: Fingers,
    at: Callable[[float, float], XY],
    size: tuple[int, int],
) -> list[Shape]:
    """The side with the ends of the other wall's fingers, so wide and so high."""
    box, (wide, high), shapes = page.built, size, list[Shape]()
    for low, above, row in levels(box):
        top = min(above, high)
        if low >= high:
            break
        side, end = (box.pattern.column(number)[row] for number in (0, 3))
        rect = page.box_between(at(0, low), at(wide, top))
        shapes.append(page.thin(rect, side, side))
        if not fingers.of_sides(low, top):
            rect = page.box_between(at(0, low), at(box.wall.nm, top))
            shapes.append(page.shaded(rect, end, END, f"{end}, end grain"))
    return [*shapes, page.empty(page.box_between(at(0, 0), at(wide, high)))]


def _finger_notes(box: Box, fingers: Fingers, page: Page, shown: int) -> list[str]:
    count = fingers.count
    more = f"The lowest {shown} of {count} fingers." if count > shown else ""
    passes = "one pass" if fingers.passes == 1 else f"{fingers.passes} passes"
    found = [
        more or f"{count} fingers.",
        f"Cutter {page.show(fingers.cutter)}, {passes} to a notch.",
        "The sides have the first and the last finger.",
    ]
    if box.base_groove:
        found.append(f"Dashed: the base, {page.show(box.base_up)} up.")
    return found
