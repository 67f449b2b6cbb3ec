"""The carcass drawn: front, section, a side with its dadoes, joints, pin template.

Places are millimetres of the page (``PAGE_MM`` wide), so that texts have room.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from app.core.drawing import Drawing, Label, Line, Pen, Shape
from app.core.forms._carcass import Carcass
from app.core.forms._carcass_details import details
from app.core.forms._page import XY, Page
from app.core.inputs import typed
from app.core.length import Length
from app.core.shop import Shop
from app.core.template import template

LEADING = 5.0  # from line to line of quiet text
MOST_HOLES = 6  # on one template


def drawings(carcass: Carcass, shop: Shop) -> tuple[Drawing, ...]:
    """Front, section, dado layout, joints, and a template for the pins."""
    found = [
        _front(carcass, shop),
        _section(carcass, shop),
        _layout(carcass, shop),
        details(carcass, shop),
    ]
    if carcass.pinned and (true := _template(carcass, shop)):
        found.append(true)
    return tuple(found)


class _Upright:
    """A view of the standing carcass: where its lower left corner is on the page."""

    def __init__(self, page: Page, left: float, floor: float) -> None:
        self.page, self.left, self.floor = page, left, floor

    def at(self, x: Length, z: Length) -> XY:
        return self.left + self.page.mm(x.nm), self.floor - self.page.mm(z.nm)

    def box(
        self, x: tuple[Length, Length], z: tuple[Length, Length], wood: str, name: str
    ) -> Shape:
        left, low = self.at(x[0], z[0])
        right, high = self.at(x[1], z[1])
        box = self.page.box(left, high, right - left, low - high)
        return self.page.shape(box, wood, name)


NOTHING = Length(0)


def _front(carcass: Carcass, shop: Shop) -> Drawing:
    page = Page(shop, max(carcass.width.nm / 50, carcass.height.nm / 90))
    left = 40.0 + (50 - page.mm(carcass.width.nm)) / 2
    view = _Upright(page, left, 5.0 + page.mm(carcass.height.nm))
    right, high = carcass.width, carcass.height
    low, up = carcass.openings[0]
    thick = carcass.thickness
    measures = [
        page.measure(
            view.at(NOTHING, NOTHING), view.at(right, NOTHING), page.show(right), -8
        ),
        page.measure(
            view.at(right, NOTHING), view.at(right, high), page.show(high), -8
        ),
        page.measure(
            view.at(NOTHING, low), view.at(NOTHING, up), page.show(carcass.opening), 8
        ),
    ]
    texts = [
        f"boards {page.show(thick)} thick",
        f"inside {page.show(carcass.inside_width)} wide",
    ]
    if carcass.shelves:
        texts.append("all spaces between fixed boards are equal")
    return Drawing(
        key="front",
        title="From the front",
        description=f"A carcass {page.show(right)} wide and {page.show(high)} high "
        f"with {carcass.shelves} fixed shelves, {page.show(carcass.opening)} apart.",
        shapes=tuple(_front_shapes(carcass, view)),
        measures=tuple(measures),
        labels=tuple(_notes(page, view.floor + 19, texts)),
        width=page.width,
        height=page.offset(view.floor + 16 + LEADING * len(texts)),
    )


def _front_shapes(carcass: Carcass, view: _Upright) -> Iterable[Shape]:
    wide, high, thick = carcass.width, carcass.height, carcass.thickness
    if carcass.has_back:
        back = (thick, wide - thick), (thick, high - thick)
        yield view.box(*back, carcass.back_species, "Back")
    wood = carcass.edge_species if carcass.edge else carcass.species
    for x in ((NOTHING, thick), (wide - thick, wide)):
        yield view.box(x, (NOTHING, high), wood, "Side")
    # A strip on the edges hides the dadoes; without it they show.
    into = NOTHING if carcass.edge else carcass.dado
    for z in carcass.levels:
        yield view.box((thick - into, wide - thick + into), z, wood, "Shelf")
    between = thick + carcass.play, wide - thick - carcass.play
    for low in carcass.loose_heights:
        z = low, low + thick
        yield view.box(between, z, carcass.species, "Adjustable shelf")


def _section(carcass: Carcass, shop: Shop) -> Drawing:
    """Cut from front to back: the front is to the left."""
    page = Page(shop, max(carcass.depth.nm / 50, carcass.height.nm / 90))
    left = 20.0 + (50 - page.mm(carcass.depth.nm)) / 2
    view = _Upright(page, left, 5.0 + page.mm(carcass.height.nm))
    deep, high = carcass.depth, carcass.height
    measures = [
        page.measure(
            view.at(NOTHING, NOTHING), view.at(deep, NOTHING), page.show(deep), -8
        ),
        page.measure(view.at(deep, NOTHING), view.at(deep, high), page.show(high), -8),
    ]
    texts = [f"boards {page.show(carcass.board_depth)} deep as cut"]
    if carcass.shelves:
        texts = [f"shelves {page.show(carcass.shelf_depth)} deep as cut"]
    if carcass.has_back:
        wide, tall = page.show(carcass.back_width), page.show(carcass.back_height)
        texts.append(f"back {wide} wide, {tall} high,")
        texts.append(f"{page.show(carcass.back_thickness)} thick, in its rebate")
    if carcass.edge:
        texts.append(f"strips {page.show(carcass.edge)} on the front edges")
    return Drawing(
        key="section",
        title="Cut from front to back",
        description=f"The carcass cut through, its front to the left: "
        f"{page.show(deep)} deep, the back in a rebate.",
        shapes=tuple(_section_shapes(carcass, view)),
        measures=tuple(measures),
        labels=tuple(_notes(page, view.floor + 19, texts)),
        width=page.width,
        height=page.offset(view.floor + 16 + LEADING * len(texts)),
    )


def _section_shapes(carcass: Carcass, view: _Upright) -> Iterable[Shape]:
    deep, high, thick = carcass.depth, carcass.height, carcass.thickness
    front, behind = carcass.edge, carcass.depth - carcass.behind
    for number, z in enumerate(carcass.levels):
        # Bottom and top reach over the back's edge, less the rebate.
        yield view.box((front, behind), z, carcass.species, "Board")
        if carcass.edge:
            yield view.box((NOTHING, front), z, carcass.edge_species, "Strip")
        if carcass.has_back and number in (0, carcass.shelves + 1):
            lip = carcass.thickness - carcass.dado
            end = (NOTHING, lip) if not number else (high - lip, high)
            yield view.box((behind, deep), end, carcass.species, "Board")
    if carcass.has_back:
        low = thick - carcass.dado + carcass.back_room
        z = low, low + carcass.back_height
        yield view.box((behind, deep), z, carcass.back_species, "Back")
    for low in carcass.loose_heights:
        y = carcass.play, carcass.play + carcass.loose_depth
        yield view.box(y, (low, low + thick), carcass.species, "Adjustable shelf")


def _layout(carcass: Carcass, shop: Shop) -> Drawing:
    """The left side's inner face, every dado measured from its lower end."""
    # Each place has a line of text beside it.
    tall = max(90.0, 5.5 * len(_places(carcass)))
    page = Page(shop, max(carcass.board_depth.nm / 40, carcass.height.nm / tall))
    # A size wider than the side stands under its middle.
    left = max(8.0, 25 - page.mm(carcass.board_depth.nm) / 2)
    view = _Upright(page, left, 8.0 + page.mm(carcass.height.nm))
    deep = carcass.board_depth
    right = view.at(deep, NOTHING)[0]
    measures = [
        page.measure(
            view.at(NOTHING, NOTHING), view.at(deep, NOTHING), page.show(deep), -8
        )
    ]
    lines, labels = _story_stick(carcass, view, right)
    texts = ["front edge to the right; up from the lower end to each lower edge"]
    texts.append(f"dadoes and rebates {page.show(carcass.dado)} deep")
    if carcass.pinned:
        texts.append(f"holes {page.show(carcass.pin_pitch)} apart, rows")
        texts.append(f"{page.show(carcass.pin_inset)} in from front and back")
    return Drawing(
        key="layout",
        title="A side from inside, its dadoes up from the lower end",
        description="The inner face of the left side, its front edge to the right: "
        + ", ".join(f"{name} at {page.show(up)}" for name, up in _places(carcass))
        + ".",
        shapes=tuple(_layout_shapes(carcass, view)),
        lines=tuple(lines),
        measures=tuple(measures),
        labels=(*labels, *_notes(page, view.floor + 19, texts)),
        width=page.width,
        height=page.offset(view.floor + 16 + LEADING * len(texts)),
    )


def _places(carcass: Carcass) -> list[tuple[str, Length]]:
    """What is marked on the story stick, lowest first."""
    found = [("on the bottom", carcass.thickness)]
    found += [(f"shelf {i}", up) for i, up in enumerate(carcass.shelf_heights, 1)]
    found.append(("top", carcass.height - carcass.thickness))
    return [*found, ("end", carcass.height)]


def _story_stick(
    carcass: Carcass, view: _Upright, right: float
) -> tuple[list[Line], list[Label]]:
    """A line from each place to its text, the texts kept apart."""
    page, lines, labels = view.page, [], []
    last = view.floor + 6.0
    for name, up in _places(carcass):
        y = view.floor - page.mm(up.nm)
        text_y = min(y, last - LEADING)
        last = text_y
        lines.append(page.line((right + 1, y), (right + 6, text_y), Pen.GRAIN))
        text = f"{page.show(up)}  {name}"
        at = page.point(right + 7, text_y + 1.1)
        labels.append(Label(at, text, quiet=True, anchor="start"))
    return lines, labels


def _layout_shapes(carcass: Carcass, view: _Upright) -> Iterable[Shape]:
    deep, high = carcass.board_depth, carcass.height
    yield view.box((NOTHING, deep), (NOTHING, high), carcass.species, "Side")
    # The left side seen from inside: its back edge is to the left.
    behind = carcass.behind
    for number, z in enumerate(carcass.levels):
        ends = number in (0, carcass.shelves + 1)
        start = NOTHING if ends else behind
        yield view.box((start, deep), z, "", "Rebate" if ends else "Dado")
    if carcass.has_back:
        inside = carcass.thickness, high - carcass.thickness
        yield view.box((NOTHING, behind), inside, "", "Rebate")
    yield from _holes(carcass, view)


def _holes(carcass: Carcass, view: _Upright) -> Iterable[Shape]:
    radius = max(view.page.mm(carcass.pin_diameter.nm) / 2, 0.4)
    front = carcass.depth - carcass.pin_inset
    back = carcass.behind + carcass.pin_inset
    for row in carcass.holes:
        for up in row:
            for y in (front, back):
                x, z = view.at(y, up)
                yield view.page.shape(_ring(x, z, radius), "", "Hole")


def _ring(x: float, y: float, radius: float) -> list[XY]:
    turns = [math.pi * i / 6 for i in range(12)]
    return [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in turns]


def _notes(page: Page, top: float, texts: list[str]) -> list[Label]:
    return [
        page.label(60, top + LEADING * i, text, quiet=True)
        for i, text in enumerate(texts)
    ]


def _template(carcass: Carcass, shop: Shop) -> Drawing | None:
    """A row of holes at true size, as many as a sheet takes."""
    page = Page(shop, 1)
    most = max(map(len, carcass.holes))
    pitch, radius = carcass.pin_pitch.nm, carcass.pin_diameter.nm / 2
    inset = carcass.pin_inset.nm
    # A drill goes by its own size: 5 mm is no 3/16 in.
    size = typed(carcass.pin_diameter, shop.unit)
    for count in range(min(most, MOST_HOLES), 0, -1):
        long = pitch * count
        strip = [(0, 0), (2 * inset, 0), (2 * inset, long), (0, long)]
        rings = [_ring(inset, pitch * (i + 0.5), radius) for i in range(count)]
        found = template(
            "pins-template",
            "Template for the pins at true size",
            f"{count} holes {size} wide, "
            f"{page.show(carcass.pin_pitch)} apart, "
            f"{page.show(carcass.pin_inset)} in from either edge of the strip.",
            [[(float(x), float(y)) for x, y in strip], *rings],
            grain=None,
            centre=False,
            lines=[
                line
                for i in range(count)
                for line in _cross(page, inset, pitch * (i + 0.5))
            ],
            sizes=(
                f"holes {size} wide",
                f"{page.show(carcass.pin_pitch)} from hole to hole",
                f"{page.show(carcass.pin_inset)} in from the edge",
            ),
        )
        if found:
            return found
    return None


def _cross(page: Page, x: float, y: float) -> Iterable[Line]:
    """Where the drill's point goes."""
    arm = 4e6
    yield page.line((x - arm, y), (x + arm, y), Pen.GRAIN)
    yield page.line((x, y - arm), (x, y + arm), Pen.GRAIN)
