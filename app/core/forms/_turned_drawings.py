"""Rings and staves drawn: from above, one piece at a larger scale, true templates.

Coordinates are made in millimetres of the page (``PAGE_MM`` wide) and scaled up
to real nanometres at the end, so that texts have room. What is told in words stands
in rows under the picture, where nothing crosses it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from app.core import geometry
from app.core.drawing import PAGE_MM, Drawing, Label, Line, Pen, Shape
from app.core.forms._page import XY, Page
from app.core.forms._turned import Bottom, circle
from app.core.length import Length
from app.core.shop import Shop
from app.core.template import template

ROW = 5.5
MIDDLE = PAGE_MM / 2


@dataclass(frozen=True, slots=True)
class Seen:
    """A piece seen from above: its corners in nm, x right and y to the back."""

    points: tuple[XY, ...]
    species: str
    title: str


@dataclass(frozen=True, slots=True)
class Around:
    """Equal pieces that close round a middle, and what is turned out of them."""

    count: int
    outside: Length
    outer_edge: Length
    inner_edge: Length
    depth: Length
    turned_outside: Length
    turned_inside: Length

    @property
    def through_corners(self) -> Length:
        return geometry.circumscribed(self.outer_edge, self.count)


def on_flats(count: int) -> str:
    """What lies across the outer flats: an odd count has none opposite another."""
    return "outer flats" if count % 2 == 0 else "circle touching the outer flats"


def rows(page: Page, top: float, texts: Sequence[str]) -> tuple[list[Label], float]:
    """Quiet lines of text under a picture, and where the page ends."""
    found = [
        page.label(MIDDLE, top + ROW * i, text, quiet=True)
        for i, text in enumerate(texts)
    ]
    return found, top + ROW * max(len(texts) - 1, 0) + 3


def plan(
    around: Around, seen: Sequence[Seen], words: str, told: Sequence[str], shop: Shop
) -> Drawing:
    """From above, the turned circles dashed inside the glued pieces."""
    reach = around.through_corners.nm
    page = Page(shop, reach / 72)
    middle, top = (46.0, 5.0 + 36), 5.0
    floor = middle[1] + page.mm(around.outside.nm / 2)
    half = page.mm(around.outer_edge.nm / 2)
    low = (middle[0] - half, floor), (middle[0] + half, floor)
    measures = [page.measure(*low, page.show(around.outer_edge), -9)]
    if around.count % 2 == 0:
        ceiling = middle[1] - page.mm(around.outside.nm / 2)
        out = page.mm(reach / 2) - half + 15
        upright = (middle[0] + half, floor), (middle[0] + half, ceiling)
        measures.append(page.measure(*upright, page.show(around.outside), -out))
    labels, bottom = rows(page, max(top + 72, floor) + 21, told)
    return Drawing(
        key="plan",
        title="From above",
        description=words,
        shapes=(
            *(_placed(page, one, middle) for one in seen),
            _circle(page, around.turned_outside, middle),
            _circle(page, around.turned_inside, middle),
        ),
        measures=tuple(measures),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(bottom),
    )


def _placed(page: Page, seen: Seen, middle: XY) -> Shape:
    points = [(middle[0] + page.mm(x), middle[1] - page.mm(y)) for x, y in seen.points]
    return page.shape(points, seen.species, seen.title)


def _circle(page: Page, diameter: Length, middle: XY) -> Shape:
    around = page.shape(circle(page.mm(diameter.nm), middle))
    return replace(around, pen=Pen.HIDDEN)


def piece(
    around: Around,
    species: str,
    key: str,
    title: str,
    words: str,
    told: Sequence[str],
    shop: Shop,
) -> Drawing:
    """One piece from above at a larger scale, with its edges and its angle."""
    outer, inner, depth = (
        one.nm for one in (around.outer_edge, around.inner_edge, around.depth)
    )
    page = Page(shop, max(outer / 62, depth / 48))
    left, top = (84 - page.mm(outer)) / 2 + 4, 15.0
    floor, right = top + page.mm(depth), left + page.mm(outer)
    inset = page.mm(outer - inner) / 2
    ends = (left, floor), (right, floor)
    far = (left + inset, top), (right - inset, top)
    labels, bottom = rows(page, floor + 21, told)
    return Drawing(
        key=key,
        title=title,
        description=words,
        shapes=(page.shape([*ends, *reversed(far)], species, title),),
        lines=(
            *_arcs(page, around, (left + right) / 2, floor),
            *(page.line((x, floor), (x, top), Pen.HIDDEN) for x in (left, right)),
        ),
        measures=(
            page.measure(*ends, page.show(around.outer_edge), -9),
            page.measure(*far, page.show(around.inner_edge), 7),
            page.measure((right, floor), (right, top), page.show(around.depth), -9),
        ),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(bottom),
    )


def _arcs(page: Page, around: Around, x: float, floor: float) -> list[Line]:
    """The turned circles within one piece, thin."""
    y = floor - page.mm(around.outside.nm / 2)
    found: list[Line] = []
    for diameter in (around.turned_outside, around.turned_inside):
        radius, half = page.mm(diameter.nm / 2), math.pi / around.count
        turns = [half * (i / 12 - 1) for i in range(25)]
        places = [(x + radius * math.sin(t), y + radius * math.cos(t)) for t in turns]
        found += _path(page, places)
    return found


def _path(page: Page, places: Sequence[XY]) -> list[Line]:
    return [page.line(a, b, Pen.GRAIN) for a, b in pairwise(places)]


def front(
    faces: Sequence[tuple[float, float, float, float, str]],
    high: Length,
    wide: float,
    words: str,
    told: Sequence[str],
    shop: Shop,
) -> Drawing:
    """From the front: flats as left, right, low, high in nm and their species."""
    page = Page(shop, max(wide / 72, high.nm / 90))
    middle, top = 44.0, 6.0
    floor = top + page.mm(high.nm)
    shapes = [
        page.shape(
            page.box(
                middle + page.mm(left),
                floor - page.mm(up),
                page.mm(right - left),
                page.mm(up - low),
            ),
            species,
            species,
        )
        for left, right, low, up, species in faces
    ]
    right = middle + page.mm(wide / 2)
    labels, bottom = rows(page, floor + 9, told)
    return Drawing(
        key="elevation",
        title="From the front",
        description=words,
        shapes=tuple(shapes),
        measures=(page.measure((right, floor), (right, top), page.show(high), -10),),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(bottom),
    )


def flats(
    count: int, outer_edge: Length, first: float
) -> list[tuple[int, float, float]]:
    """The flats seen from the front: number going round, left and right in nm.

    The first piece's flat looks towards the viewer where ``first``, its turn in
    degrees anticlockwise, is nothing.
    """
    apothem = outer_edge.nm / 2 / math.tan(math.pi / count)
    found = []
    for i in range(count):
        turn = math.radians(first + 360 / count * i)
        if math.cos(turn) > 1e-6:
            x, half = apothem * math.sin(turn), outer_edge.nm / 2 * math.cos(turn)
            found.append((i, x - half, x + half))
    return found


def true_size(
    around: Around,
    key: str,
    title: str,
    species: str,
    told: Sequence[str],
    *,
    grain: float | None = 0,
) -> list[Drawing]:
    """The piece as a template, where paper is large enough."""
    outer, inner, depth = (
        one.nm for one in (around.outer_edge, around.inner_edge, around.depth)
    )
    inset = (outer - inner) / 2
    made = template(
        key,
        title,
        f"{title} at true size, the longer edge at the bottom.",
        [[(0, depth), (outer, depth), (outer - inset, 0), (inset, 0)]],
        species=species,
        sizes=told,
        centre=False,
        grain=grain,
    )
    return [made] if made else []


def bottom_template(bottom: Bottom, shop: Shop) -> list[Drawing]:
    """The bottom's eight sides with its middle, to trace or to check by."""
    page = Page(shop, 1)
    made = template(
        "template-bottom",
        "Bottom, true size",
        "The bottom's eight sides at true size with its middle marked.",
        [list(bottom.points)],
        species=bottom.species,
        sizes=(
            f"across the flats {page.show(bottom.across)}",
            f"from the square's corner {page.show(bottom.corner)} along both edges",
        ),
    )
    return [made] if made else []
