"""The dividers' faces, the lid's section, and the fingers at their true size."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from app.core.drawing import Drawing, Measure
from app.core.forms._box import Box, Dividers, Lid
from app.core.forms._box_fingers import Fingers
from app.core.forms._box_inner_setups import slot_places
from app.core.forms._box_page import Page, fit
from app.core.forms._box_parts import divider_outline
from app.core.forms._page import XY
from app.core.length import Length
from app.core.shop import Shop
from app.core.template import template


def dividers_drawn(box: Box, dividers: Dividers, way: str, shop: Shop) -> Drawing:
    """The face of a divider with its slots."""
    across = way == "across"
    held = dividers.across if across else dividers.along
    places = slot_places(box, dividers, way)
    page = Page(box, shop, fit(held.length.nm, dividers.height.nm, (58.0, 56.0)))
    left = 30 + (58.0 - page.mm(held.length.nm)) / 2
    top = 17.0 if places else 8.0
    floor = top + page.mm(dividers.height.nm)

    def at(x: float, z: float) -> XY:
        return left + page.mm(x), floor - page.mm(z)

    points = [at(x.nm, z.nm) for x, z in divider_outline(box, dividers, across)]
    show, long, high = page.show, held.length.nm, dividers.height.nm
    measures = [
        page.measure(at(0, 0), at(long, 0), show(held.length), -9),
        page.measure(at(long, 0), at(long, high), show(dividers.height), -9),
    ]
    if places:
        start = at(0, high), at(places[0].nm, high)
        measures.append(page.measure(*start, show(places[0]), 7))
    texts = _slot_notes(dividers, way, len(held.starts), places, page)
    labels, end = page.notes(texts, floor + 21)
    return Drawing(
        key=f"divider-{way}",
        title=f"Divider {way}",
        description=" ".join(texts),
        shapes=(page.shape(points, dividers.species, f"Divider {way}"),),
        measures=tuple(measures),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


def _slot_notes(
    dividers: Dividers, way: str, count: int, places: list[Length], page: Page
) -> list[str]:
    show = page.show
    found = [f"Make {count}, {show(dividers.thickness)} thick."]
    if places:
        deep = dividers.slot_down if way == "across" else dividers.slot_up
        edge = "from above" if way == "across" else "from below"
        listed = ", ".join(show(place) for place in places)
        found.append(
            f"Slots {show(dividers.slot)} wide and {show(deep)} deep {edge}; near "
            f"sides from the left end: {listed}."
        )
    return found


def lid_section(box: Box, lid: Lid, shop: Shop) -> Drawing:
    """The lid over the back, cut across its grain and seen from the right, larger."""
    section = _Section(box, lid)
    page = Page(box, shop, fit(section.wide, section.high, (52.0, 48.0)))
    left, top = 32.0, 9.0
    floor = top + page.mm(section.high)

    def at(x: float, z: float) -> XY:
        return left + page.mm(x), floor - page.mm(z - section.low)

    wood = box.pattern.column(0)[-1]
    outlines = [(section.wall(), wood, "Side")]
    outlines += [(one, lid.species, "Lid") for one in section.lid()]
    shapes = [
        page.shape([at(*place) for place in points], species, title)
        for points, species, title in outlines
    ]
    texts = section.notes(page)
    labels, end = page.notes(texts, floor + 21)
    return Drawing(
        key="lid",
        title="The lid on its side, larger",
        description=f"Cut across the box through one side and the lid. "
        f"{' '.join(texts)}",
        shapes=tuple(shapes),
        measures=tuple(_section_measures(page, section, at)),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


class _Section:
    """One side's top and the lid's edge: x from the side's outer face, z up, nm."""

    def __init__(self, box: Box, lid: Lid) -> None:
        self.box, self.lid_of = box, lid
        top = box.wall_height.nm
        below = top - (lid.groove.low.nm if lid.groove else top - lid.lip.nm)
        thick = lid.size.thickness.nm
        self.low = top - below - max(thick, box.wall.nm)
        self.top = top if lid.groove else top + thick - self.sunk
        self.wide = box.wall.nm * 3
        self.high = self.top - self.low

    @property
    def sunk(self) -> int:
        """How much of the lid's own thickness lies below the walls' top."""
        return self.lid_of.lip.nm if self.lid_of.kind == "rebated" else 0

    def wall(self) -> list[tuple[int, int]]:
        box, wall, top = self.box, self.box.wall.nm, self.box.wall_height.nm
        points = [(0, self.low), (wall, self.low)]
        if groove := box.lid_groove:
            floor = wall - box.groove_depth.nm
            low, high = groove.low.nm, groove.high.nm
            points += [(wall, low), (floor, low), (floor, high), (wall, high)]
        return [*points, (wall, top), (0, top)]

    def lid(self) -> list[list[tuple[int, int]]]:
        box, lid, top = self.box, self.lid_of, self.box.wall_height.nm
        if lid.groove:
            start = box.wall.nm - box.groove_depth.nm + lid.room.nm
            low, high = lid.groove.low.nm, lid.groove.high.nm
            return [_rect(start, self.wide, low, high)]
        inner = box.wall.nm + lid.room.nm
        if lid.kind == "rebated":
            low = top - lid.lip.nm
            return [
                [
                    *((inner, low), (self.wide, low), (self.wide, self.top)),
                    *((0, self.top), (0, top), (inner, top)),
                ]
            ]
        return [
            _rect(0, self.wide, top, self.top),
            _rect(inner, self.wide, top - lid.lip.nm, top),
        ]

    def notes(self, page: Page) -> list[str]:
        box, lid, show = self.box, self.lid_of, page.show
        found = [f"Room {show(lid.room)} at each edge."]
        if lid.groove:
            found.append(f"Groove {show(box.groove_depth)} deep.")
        elif lid.kind == "rebated":
            wide = show(box.wall + lid.room)
            found.append(f"Rebate {wide} wide and {show(lid.lip)} deep all round.")
        else:
            size = lid.batten
            found.append(
                f"Two battens {show(size.length)} × {show(size.width)} × "
                f"{show(size.thickness)}, their middles a quarter of the "
                "inside length off the box's, screwed in slots."
            )
        return found


def _rect(left: int, right: int, low: int, high: int) -> list[tuple[int, int]]:
    return [(left, low), (right, low), (right, high), (left, high)]


def _section_measures(
    page: Page, section: _Section, at: Callable[[float, float], XY]
) -> Iterator[Measure]:
    box, lid, show = section.box, section.lid_of, page.show
    top, wide, low = box.wall_height.nm, section.wide, section.low
    yield page.measure(at(0, low), at(box.wall.nm, low), show(box.wall), -8)
    if groove := lid.groove:
        ends = groove.low.nm, groove.high.nm
        above = at(0, groove.high.nm), at(0, top)
        yield page.measure(*above, show(box.wall_height - groove.high), 7)
    else:
        ends = section.top - lid.size.thickness.nm, section.top
        yield page.measure(at(0, top - lid.lip.nm), at(0, top), show(lid.lip), 7)
    thick = at(wide, ends[0]), at(wide, ends[1])
    yield page.measure(*thick, show(lid.size.thickness), -8)


def finger_template(box: Box, fingers: Fingers, shop: Shop) -> Drawing | None:
    """The end of a side and of an end with their fingers, to trace or to check by."""
    page = Page(box, shop, 1)
    wall, reach, high = box.wall.nm, box.wall.nm * 2, fingers.height.nm
    gap = wall
    side = _comb(fingers, wall, reach, 0)
    end = [(x + reach + gap, y) for x, y in _comb(fingers, wall, reach, 1)]
    size, count = page.show(fingers.width), fingers.count
    outlines = [[(x, float(high - y)) for x, y in one] for one in (side, end)]
    return template(
        "finger-template",
        "Fingers of a side and of an end",
        f"The ends of a side and of an end at full size: {count} fingers of {size}, "
        f"{page.show(box.wall)} long.",
        outlines,
        centre=False,
        species="",
        sizes=(
            (
                f"Left: a side, right: an end; lower edges below. {count} fingers of "
                f"{size}."
            ),
            f"Fingers {page.show(box.wall)} long, as the wall is thick.",
        ),
    )


def _comb(
    fingers: Fingers, wall: int, reach: int, first: int
) -> list[tuple[float, float]]:
    """The left end of a board with its fingers, up its edge."""
    points: list[tuple[float, float]] = [(reach, 0)]
    marks = fingers.marks
    edge: list[tuple[float, float]] = []
    for i in range(fingers.count):
        x = 0 if i % 2 == first else wall
        edge += [(x, marks[i]), (x, marks[i + 1])]
    points += [(reach, fingers.height.nm), *reversed(edge)]
    return points
