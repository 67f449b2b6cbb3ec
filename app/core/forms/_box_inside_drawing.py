"""A side and an end laid flat, inside up: joints, grooves and dados, a story stick."""

from __future__ import annotations

from collections.abc import Iterator

from app.core.drawing import Drawing, Line, Measure, Shape
from app.core.forms._box import Box, Groove
from app.core.forms._box_page import Page, fit, levels
from app.core.forms._box_parts import outline
from app.core.forms._box_walls import Wall
from app.core.forms._page import XY
from app.core.length import Length
from app.core.shop import Shop

# How much darker a groove's floor is drawn, percent.
SUNK = 30


def inside(box: Box, number: int, shop: Shop) -> Drawing:
    """The back (2) or the left end (3) as it lies on the bench, inside up."""
    name = "end" if number % 2 else "side"
    long = box.cut_length(number).nm
    top = 17.0 if Wall(box, number, 0, 1).dados() else 8.0
    page = Page(box, shop, fit(long, box.wall_height.nm, (56.0, 62.0)))
    drawer = _Inside(page, number, top)
    labels, end = page.notes(drawer.notes(), drawer.floor + 21)
    return Drawing(
        key=f"{name}-inside",
        title=f"The {name}, inside up",
        description=f"The {name} laid flat, its lower edge below. "
        f"{' '.join(drawer.notes())}",
        shapes=tuple(drawer.shapes()),
        lines=tuple(drawer.lines()),
        measures=tuple(drawer.measures()),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


class _Inside:
    """The wall on the page, turned over so that its left end lies right."""

    def __init__(self, page: Page, number: int, top: float) -> None:
        self.page, self.box, self.number = page, page.built, number
        self.wall = Wall(page.built, number, 0, page.built.wall_height.nm)
        self.outer = page.built.outer(number).nm
        self.least = (self.outer - page.built.cut_length(number).nm) // 2
        self.long = page.built.cut_length(number).nm
        self.left = 32 + (56.0 - page.mm(self.long)) / 2
        self.floor = top + page.mm(page.built.wall_height.nm)

    def at(self, u: float, z: float) -> XY:
        """``u`` along the wall from its left end as seen from outside."""
        x = self.outer - u - self.least
        return self.left + self.page.mm(x), self.floor - self.page.mm(z)

    def shapes(self) -> Iterator[Shape]:
        page, box = self.page, self.box
        points = [self.at(self.least + u.nm, z.nm) for u, z in outline(self.wall)]
        column = box.pattern.column(self.number)
        for low, high, row in levels(box):
            start = self.wall.start((low, high), 0, 0)
            rect = page.box_between(
                self.at(self.outer - start, low), self.at(start, high)
            )
            yield page.thin(rect, column[row], column[row])
        yield page.empty(points)
        for groove in (box.base_groove, box.lid_groove):
            if groove:
                rect, wood = self._groove(groove), self._species(groove.low)
                yield page.shaded(rect, wood, SUNK, "Groove")
        for low, high in self.wall.dados():
            top = self.at(low, box.wall_height.nm)
            rect = page.box_between(self.at(high, 0), top)
            yield page.shaded(rect, column[0], SUNK, "Dado")

    def _species(self, height: Length) -> str:
        rows = (row for low, high, row in levels(self.box) if height.nm < high)
        return self.box.pattern.column(self.number)[next(rows)]

    def _groove(self, groove: Groove) -> list[XY]:
        near, far = self.wall.grooved(groove)
        layer = groove.low.nm, groove.low.nm + 1
        inner = self.box.wall.nm
        start = self.wall.start(layer, inner, inner)
        near, far = max(near, start), min(far, self.outer - start)
        return self.page.box_between(
            self.at(far, groove.low.nm), self.at(near, groove.high.nm)
        )

    def lines(self) -> Iterator[Line]:
        """Where a mitre's or a rebate's inner edge runs."""
        box, page, high = self.box, self.page, self.box.wall_height.nm
        carries = box.joint == "rebate" and box.carries(self.number)
        if box.joint == "mitre" or carries:
            for u in (box.wall.nm, self.outer - box.wall.nm):
                yield page.line(self.at(u, 0), self.at(u, high))

    def measures(self) -> Iterator[Measure]:
        page, box, show = self.page, self.box, self.page.show
        ends = self.outer - self.least, self.least
        low = self.at(ends[0], 0), self.at(ends[1], 0)
        yield page.measure(*low, show(box.cut_length(self.number)), -9)
        side = self.at(ends[1], 0), self.at(ends[1], box.wall_height.nm)
        yield page.measure(*side, show(box.wall_height), -9)
        if box.base_groove and box.base_up:
            up = self.at(ends[0], 0), self.at(ends[0], box.base_up.nm)
            yield page.measure(*up, show(box.base_up), 7)
        dados = self.wall.dados()
        if dados:
            high = box.wall_height.nm
            nearest = max(dados)
            place = ends[0] - nearest[1]
            top = self.at(ends[0], high), self.at(nearest[1], high)
            yield page.measure(*top, show(Length(place)), 7)

    def notes(self) -> list[str]:
        box, show, found = self.box, self.page.show, list[str]()
        deep = show(box.groove_depth)
        for groove, thing in ((box.base_groove, "base"), (box.lid_groove, "lid")):
            if not groove:
                continue
            name = "Rebate" if box.base == "rebate" and thing == "base" else "Groove"
            size = show(groove.high - groove.low)
            stopped = (
                f", stopped {show(box.groove_end)} from the outer corners"
                if box.shows(self.number, groove)
                else ", run through"
            )
            if thing == "lid" and not self.number % 2:
                stopped += "; open at the lowered end"
            found.append(
                f"{name} for the {thing} {size} wide, {deep} deep, "
                f"{show(groove.low)} up{stopped}."
            )
        if self.wall.dados() and box.dividers:
            found.append(
                f"Dados {show(box.dividers.thickness)} wide, "
                f"{show(box.dividers.dado)} deep, right across."
            )
        return found + self._joint_notes()

    def _joint_notes(self) -> list[str]:
        box, show = self.box, self.page.show
        if box.fingers:
            first = "notch" if self.number % 2 else "finger"
            return [
                (
                    f"From the lower edge: {first} first, each "
                    f"{show(box.fingers.width)}, {box.fingers.count} in all."
                )
            ]
        if box.joint == "mitre":
            return [f"Bevelled at 45° over {show(box.wall)} at both ends."]
        if box.carries(self.number):
            return [
                (
                    f"Corner rebates {show(box.wall)} wide, "
                    f"{show(box.rebate_depth)} deep at both ends."
                )
            ]
        return ["Both ends square: they sit in the other walls' rebates."]
