"""The stave cylinder drawn: from above, a stave, from the front, unrolled."""

from __future__ import annotations

from dataclasses import replace

from app.core.drawing import Drawing, Pen
from app.core.forms import _turned_drawings as round_about
from app.core.forms._page import Page
from app.core.forms._stave import Cylinder
from app.core.forms._stave_parts import outline
from app.core.forms._turned_drawings import Around, Seen, rows
from app.core.shop import Shop


def drawings(made: Cylinder, shop: Shop) -> tuple[Drawing, ...]:
    """Every picture that the cylinder is made by."""
    found = [
        _plan(made, shop),
        _front(made, shop),
        _stave(made, shop),
        _unrolled(made, shop),
        *_template(made, shop),
    ]
    if made.bottom is not None:
        found += round_about.bottom_template(made.bottom, shop)
    return tuple(found)


def _around(made: Cylinder) -> Around:
    both = made.turning * 2
    return Around(
        made.staves,
        made.outside,
        made.width,
        made.inner_width,
        made.thickness,
        made.outside - both,
        made.inside + both,
    )


def _plan(made: Cylinder, shop: Shop) -> Drawing:
    page, around = Page(shop, 1), _around(made)
    seen = [
        Seen(outline(made, i), wood, f"Stave {i + 1}, {wood}")
        for i, wood in enumerate(made.woods)
    ]
    flats, thick = page.show(made.outside), page.show(made.thickness)
    outside, inside = (
        page.show(around.turned_outside),
        page.show(around.turned_inside),
    )
    told = [
        f"{made.staves} staves, {thick} thick",
        f"glued: {round_about.on_flats(made.staves)} {flats}",
        f"glued: inner corners {page.show(made.inner_corners)}",
        f"dashed: turned outside {outside}",
        f"dashed: turned inside {inside}",
    ]
    words = (
        f"{made.staves} staves from above, each {page.show(made.width)} wide outside "
        f"and {thick} thick, {flats} across the outer flats. Dashed inside them the "
        f"turned circles, {outside} and {inside} across."
    )
    return round_about.plan(around, seen, words, told, shop)


def _front(made: Cylinder, shop: Shop) -> Drawing:
    low, high = made.floor.nm, made.profile.height
    faces = [
        (left, right, low, high.nm, made.woods[i])
        for i, left, right in round_about.flats(made.staves, made.width, 0)
    ]
    if made.bottom is not None:
        faces += [
            (left, right, 0, low, made.bottom.species)
            for _, left, right in round_about.flats(8, made.bottom.side, 0)
        ]
    page = Page(shop, 1)
    told = ["glued, before it is turned"]
    if made.bottom is not None:
        told.append(f"bottom {page.show(made.bottom.thickness)} thick")
    words = (
        f"The glued blank from the front, {page.show(high)} high: {made.staves} "
        f"staves, {', '.join(made.kinds)}."
    )
    wide = 2 * max(right for _, right, *_ in faces)
    return round_about.front(faces, high, wide, words, told, shop)


def _stave(made: Cylinder, shop: Shop) -> Drawing:
    page = Page(shop, 1)
    told = [
        f"both edges bevelled {made.bevel} from square (dashed)",
        "thin: the turned circles",
        f"length {page.show(made.height)}, grain along it",
    ]
    if made.bevel <= shop.most_tilt:
        fence = page.show(made.second_fence)
        told += [f"last bevel: fence {fence} from the blade,", "inner face down"]
    words = (
        f"The end of one stave: outer face {page.show(made.width)}, inner face "
        f"{page.show(made.inner_width)}, {page.show(made.thickness)} thick, both edges "
        f"{made.bevel} from square."
    )
    return round_about.piece(
        _around(made), made.woods[0], "stave", "One stave, its end", words, told, shop
    )


def _template(made: Cylinder, shop: Shop) -> list[Drawing]:
    page = Page(shop, 1)
    return round_about.true_size(
        _around(made),
        "template-stave",
        "End of a stave, true size",
        made.woods[0],
        (
            f"outer face {page.show(made.width)}",
            f"inner face {page.show(made.inner_width)}",
            f"thickness {page.show(made.thickness)}, edges {made.bevel} from square",
        ),
        grain=None,
    )


def _unrolled(made: Cylinder, shop: Shop) -> Drawing:
    """The staves side by side, outer faces up, as they are taped."""
    all_wide, high = made.width * made.staves, made.height
    page = Page(shop, max(all_wide.nm / 80, high.nm / 80))
    wide, tall = page.mm(all_wide.nm), page.mm(high.nm)
    left, top = (84 - wide) / 2 + 6, 6.0
    floor, right, each = top + tall, left + wide, page.mm(made.width.nm)
    shapes = [
        replace(
            page.shape(
                page.box(left + each * i, top, each, tall), wood, f"Stave {i + 1}"
            ),
            pen=Pen.GRAIN,
        )
        for i, wood in enumerate(made.woods)
    ]
    told = [
        f"{made.staves} staves of {page.show(made.width)}",
        f"side by side {page.show(all_wide)}",
        "outer faces up, taped across every joint",
    ]
    labels, bottom = rows(page, floor + 20, told)
    middle = left + each * (made.staves // 2)
    first = (middle, floor), (middle + each, floor)
    return Drawing(
        key="unrolled",
        title="The staves side by side",
        description=f"{', '.join(told)}. In order: {', '.join(made.woods)}.",
        shapes=tuple(shapes),
        measures=(
            page.measure(*first, page.show(made.width), -8),
            page.measure((right, floor), (right, top), page.show(high), -9),
        ),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(bottom),
    )
