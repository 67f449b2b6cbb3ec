"""The carcass's joints at a larger scale."""

from __future__ import annotations

from collections.abc import Iterable

from app.core.drawing import Drawing, Measure, Shape
from app.core.forms._carcass import Carcass
from app.core.forms._page import Page
from app.core.shop import Shop


def details(carcass: Carcass, shop: Shop) -> Drawing:
    """A side with the top in its rebate and a board in its dado, from the front."""
    thick = carcass.thickness.nm
    page = Page(shop, thick / 15)
    one, deep = 15.0, page.mm(carcass.dado.nm)
    left, top = 34.0, 16.0
    inner, end = left + one, left + one + 26
    gap = 22.0
    floor = top + one + gap + (one + 12 if carcass.shelves else 0)
    shapes = [
        page.shape(_side(carcass, page, left, top, floor), carcass.species, "Side")
    ]
    tops = [top] + ([top + one + gap] if carcass.shelves else [])
    for y in tops:
        box = page.box(inner - deep, y, end - inner + deep, one)
        shapes.append(page.shape(box, carcass.species, "Board"))
    shapes += _back_corner(carcass, page, floor + 18)
    texts = [
        "above: a side, the top in its rebate"
        + (" and a shelf in its dado" if carcass.shelves else "")
    ]
    bottom = floor
    if carcass.has_back:
        bottom = floor + 18 + page.mm(carcass.behind.nm) + one
        texts.append("below: the back in its rebate, from above")
    measures = [*_measures(carcass, page, left, top, inner, end)]
    if carcass.has_back:
        measures += _back_measures(carcass, page, floor + 18)
    return Drawing(
        key="joints",
        title="The joints",
        description=f"Rebates and dadoes are {page.show(carcass.dado)} deep in boards "
        f"{page.show(carcass.thickness)} thick.",
        shapes=tuple(shapes),
        measures=tuple(measures),
        labels=tuple(
            page.label(60, bottom + 14 + 5 * i, text, quiet=True)
            for i, text in enumerate(texts)
        ),
        width=page.width,
        height=page.offset(bottom + 12 + 5 * len(texts)),
    )


def _side(
    carcass: Carcass, page: Page, left: float, top: float, floor: float
) -> list[tuple[float, float]]:
    """The side's outline, cut away for top and shelf."""
    one, deep = 15.0, page.mm(carcass.dado.nm)
    inner, gap = left + one, 22.0
    cut = inner - deep
    outline = [(left, top), (cut, top), (cut, top + one), (inner, top + one)]
    if carcass.shelves:
        y = top + one + gap
        outline += [(inner, y), (cut, y), (cut, y + one), (inner, y + one)]
    return [*outline, (inner, floor), (left, floor)]


def _measures(
    carcass: Carcass, page: Page, left: float, top: float, inner: float, end: float
) -> Iterable[Measure]:
    deep, one = page.mm(carcass.dado.nm), 15.0
    thick = page.show(carcass.thickness)
    yield page.measure((end, top + one), (end, top), thick, -8)
    yield page.measure((inner - deep, top), (inner, top), page.show(carcass.dado), 6)


def _back_corner(carcass: Carcass, page: Page, top: float) -> Iterable[Shape]:
    """Side and back cut level: the back up the page, the outside to the left."""
    if not carcass.has_back:
        return
    one, deep = 15.0, page.mm(carcass.dado.nm)
    thick, room = page.mm(carcass.behind.nm), page.mm(carcass.back_room.nm)
    left, inner = 34.0, 49.0
    cut = inner - deep
    floor = top + thick + one
    side = [
        (left, top),
        (cut, top),
        (cut, top + thick),
        (inner, top + thick),
        (inner, floor),
        (left, floor),
    ]
    yield page.shape(side, carcass.species, "Side")
    back = page.box(cut + room, top, inner + 26 - cut - room, thick)
    yield page.shape(back, carcass.back_species, "Back")


def _back_measures(carcass: Carcass, page: Page, top: float) -> Iterable[Measure]:
    thick, deep = page.mm(carcass.behind.nm), page.mm(carcass.dado.nm)
    inner, end = 49.0, 75.0
    text = page.show(carcass.back_thickness)
    yield page.measure((end, top + thick), (end, top), text, -8)
    yield page.measure((inner - deep, top), (inner, top), page.show(carcass.dado), 6)
