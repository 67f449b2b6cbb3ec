"""The tray drawn: from above, from the front, a rail cut through, and its panel.

Places are millimetres of the page (``PAGE_MM`` wide), so that texts have room.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.core import geometry
from app.core.drawing import Drawing, Label, Line, Measure, Pen, Shape
from app.core.forms._page import XY, Page
from app.core.forms._spline_drawing import spline_drawing
from app.core.forms._tray import Tray
from app.core.forms._tray_details import corner, rails, section
from app.core.forms._tray_layout import layout
from app.core.forms._tray_mouldings import Rails
from app.core.forms._tray_parts import panel_blank
from app.core.length import Length
from app.core.shop import Shop
from app.core.template import template

LINE = 5.0  # from line to line of the notes under a drawing


def drawings(tray: Tray, laid: tuple[Rails, ...], shop: Shop) -> tuple[Drawing, ...]:
    """Plan, elevation, section, corner, rails and their mouldings, the panel."""
    found = [
        _plan(tray, shop),
        _elevation(tray, shop),
        section(tray, shop),
        corner(tray, shop),
        rails(tray, shop),
        layout(tray, laid, shop),
    ]
    if tray.splines:
        woods = tray.species, tray.species
        found.append(spline_drawing(tray.splines, shop, woods))
    if tray.has_panel:
        found.append(_panel(tray, shop))
        if not tray.four and (true := _template(tray, shop)):
            found.append(true)
    return tuple(found)


def notes(page: Page, top: float, texts: Iterable[str]) -> list[Label]:
    """Lines of quiet text under a drawing, each centred on the page."""
    return [
        page.label(60, top + LINE * i, text, quiet=True) for i, text in enumerate(texts)
    ]


def _on(page: Page, points: list[tuple[float, float]], middle: XY) -> list[XY]:
    return [(middle[0] + page.mm(x), middle[1] + page.mm(y)) for x, y in points]


def _rings(tray: Tray, page: Page, middle: XY) -> tuple[list[XY], list[XY]]:
    """The outer and the inner outline on the page."""
    return (
        _on(page, tray.outline(tray.long, tray.short), middle),
        _on(
            page, tray.outline(tray.inside(tray.long), tray.inside(tray.short)), middle
        ),
    )


def _plan(tray: Tray, shop: Shop) -> Drawing:
    """Looked at from above, the panel's edge in the rails dashed."""
    wide, high = geometry.extent(tray.outline(tray.long, tray.short))
    page = Page(shop, max(wide.nm / 74, high.nm / 74))
    drop = max(y for _, y in tray.outline(tray.long, tray.short))
    middle = (46.0, 5.0 + page.mm(high.nm - drop))
    outer, inner = _rings(tray, page, middle)
    floor = max(y for _, y in outer)
    shapes, lines = _seen_from_above(tray, page, middle, outer, inner)
    texts = _plan_notes(tray, page)
    return Drawing(
        key="plan",
        title="From above",
        description=_plan_words(tray, page),
        shapes=tuple(shapes),
        lines=tuple(lines),
        measures=tuple(_plan_measures(tray, page, outer)),
        labels=tuple(notes(page, floor + 20, texts)),
        width=page.width,
        height=page.offset(floor + 17 + LINE * len(texts)),
    )


def _seen_from_above(
    tray: Tray, page: Page, middle: XY, outer: list[XY], inner: list[XY]
) -> tuple[list[Shape], list[Line]]:
    shapes = [
        page.shape(
            [outer[i], outer[i - 1], inner[i - 1], inner[i]], tray.species, "Rail"
        )
        for i in range(tray.sides)
    ]
    if not tray.has_panel:
        return shapes, []
    shapes.append(page.shape(inner, tray.panel_species, "Panel"))
    across = tray.panel_across(tray.long), tray.panel_across(tray.short)
    return shapes, page.dashed(_on(page, tray.outline(*across), middle))


def _plan_measures(tray: Tray, page: Page, outer: list[XY]) -> list[Measure]:
    flat = outer[0], outer[-1]
    if tray.four:
        front = outer[0], outer[3]
        right = outer[3], outer[2]
        return [
            page.measure(*front, page.show(tray.long), -8),
            page.measure(*right, page.show(tray.short), -9),
        ]
    even = tray.sides % 2 == 0
    far = tray.long if even else geometry.flat_to_corner(tray.long, tray.sides)
    x = outer[-1][0] if even else (outer[0][0] + outer[-1][0]) / 2
    low, high = max(y for _, y in outer), min(y for _, y in outer)
    out = max(x for x, _ in outer) - x + page.clear(page.show(far))
    return [
        page.measure(*flat, page.show(tray.long_side), -8),
        page.measure((x, low), (x, high), page.show(far), -out),
    ]


def _plan_notes(tray: Tray, page: Page) -> list[str]:
    found = [f"mitres at {tray.gauge}, rails {page.show(tray.rail_width)} wide"]
    if tray.four:
        inside = page.show(tray.inside(tray.long))
        found.append(f"inside {inside} by {page.show(tray.inside(tray.short))}")
        found.append(f"each diagonal {page.show(tray.diagonal)}")
    else:
        found.append(f"inside, across flats: {page.show(tray.inside(tray.long))}")
        found.append(f"outside, across flats: {page.show(tray.long)}")
    if tray.has_panel:
        found.append("dashed: the panel's edge in the rails")
    return found


def _plan_words(tray: Tray, page: Page) -> str:
    words = (
        f"{tray.sides} rails mitred at {tray.gauge}, seen from above, "
        f"{page.show(tray.rail_width)} wide; the longest is "
        f"{page.show(tray.long_side)} from point to point"
    )
    if tray.has_panel:
        words += f". The panel's edge in its {tray.housing} is dashed"
    return words + "."


def _elevation(tray: Tray, shop: Shop) -> Drawing:
    """The front rail, the panel behind it dashed."""
    wide = geometry.extent(tray.outline(tray.long, tray.short))[0].nm
    high = tray.rail_height.nm
    page = Page(shop, max(wide / 74, high / 70))
    left, top = 8.0 + (74 - page.mm(wide)) / 2, 5.0
    floor, right = top + page.mm(high), left + page.mm(wide)
    middle = (left + right) / 2
    half = page.mm(tray.long_side.nm) / 2
    shapes = [
        page.shape(
            page.box(left, top, right - left, floor - top), tray.species, "Rails"
        )
    ]
    shapes += _spline_ends(tray, page, middle - half, middle + half, floor)
    lines = [
        page.line((x, top), (x, floor))
        for x in (middle - half, middle + half)
        if left + 0.1 < x < right - 0.1
    ]
    texts = []
    if tray.has_panel:
        lines += page.dashed(_panel_seen(tray, page, middle, floor))
        texts.append(
            f"dashed: panel {page.show(tray.panel_thickness)}, {_up(tray, page)}"
        )
    upright = (right, floor), (right, top)
    return Drawing(
        key="elevation",
        title="From the front",
        description=f"The front rail, {page.show(tray.long_side)} long and "
        f"{page.show(tray.rail_height)} high.",
        shapes=tuple(shapes),
        lines=tuple(lines),
        measures=(
            page.measure(*upright, page.show(tray.rail_height), -9),
            page.measure(
                (middle - half, floor),
                (middle + half, floor),
                page.show(tray.long_side),
                -8,
            ),
        ),
        labels=tuple(notes(page, floor + 20, texts)),
        width=page.width,
        height=page.offset(floor + 17 + LINE * len(texts)),
    )


def _up(tray: Tray, page: Page) -> str:
    if not tray.groove_up:
        return "at the bottom"
    return f"{page.show(tray.groove_up)} up"


def _panel_seen(tray: Tray, page: Page, middle: float, floor: float) -> list[XY]:
    wide = page.mm(tray.panel_size[0].nm)
    thick = page.mm(tray.panel_thickness.nm)
    top = floor - page.mm(tray.groove_up.nm) - thick
    return page.box(middle - wide / 2, top, wide, thick)


def _spline_ends(
    tray: Tray, page: Page, left: float, right: float, floor: float
) -> Iterable[Shape]:
    splines = tray.splines
    if splines is None:
        return
    reach, high = page.mm(splines.visible.nm), page.mm(splines.thickness.nm)
    for up, wood in zip(splines.heights, splines.species, strict=True):
        y = floor - page.mm(up.nm) - high / 2
        for x in (left, right - reach):
            yield page.shape(page.box(x, y, reach, high), wood, "Spline")


def _panel(tray: Tray, shop: Shop) -> Drawing:
    """The panel, where it is no rectangle on its square blank."""
    blank = panel_blank(tray)
    whole = tray.panel_size if tray.four else (blank.length, blank.width)
    page = Page(shop, max(whole[0].nm / 70, whole[1].nm / 70))
    left, top = 12.0, 5.0
    wide, high = (page.mm(one.nm) for one in whole)
    floor = top + high
    points = tray.outline(tray.panel_across(tray.long), tray.panel_across(tray.short))
    drop = page.mm(max(y for _, y in points))
    # Side 1 is the blank's jointed edge.
    middle = (left + wide / 2, floor - drop)
    outline = _on(page, points, middle)
    shapes = [page.shape(outline, tray.panel_species, "Panel")]
    if not tray.four:
        square = page.box(left, top, wide, high)
        shapes.insert(0, page.shape(square, title="Falls away", scrap=True))
    texts = _panel_notes(tray, page)
    under = floor + (20 if tray.four else 27)
    return Drawing(
        key="panel",
        title="The panel" if tray.four else "The panel on its blank",
        description=f"The panel, {page.show(tray.panel_size[0])} by "
        f"{page.show(tray.panel_size[1])}, its grain from left to right.",
        shapes=tuple(shapes),
        lines=tuple(_strip_lines(tray, page, middle, outline)),
        measures=tuple(_panel_measures(tray, page, outline, whole, (left, floor))),
        labels=tuple(notes(page, under, texts)),
        width=page.width,
        height=page.offset(under - 3 + LINE * len(texts)),
    )


def _panel_measures(
    tray: Tray,
    page: Page,
    outline: list[XY],
    whole: tuple[Length, Length],
    corner: XY,
) -> Iterable[Measure]:
    (left, floor), wide = corner, page.mm(whole[0].nm)
    right = left + wide
    if tray.four:
        ends = (left, floor), (right, floor)
        yield page.measure(*ends, page.show(whole[0]), -8)
        top = floor - page.mm(whole[1].nm)
        yield page.measure((right, floor), (right, top), page.show(whole[1]), -9)
        return
    below = floor - outline[0][1] + 7
    yield page.measure(outline[0], outline[-1], page.show(tray.panel_side), -below)
    yield page.measure((left, floor), (right, floor), page.show(whole[0]), -16)
    even, across = tray.sides % 2 == 0, tray.panel_across(tray.long)
    x = outline[-1][0] if even else left + wide / 2
    far = across if even else geometry.flat_to_corner(across, tray.sides)
    upright = (x, floor), (x, min(y for _, y in outline))
    text = page.show(far)
    yield page.measure(*upright, text, -(right - x + page.clear(text)))


def _panel_notes(tray: Tray, page: Page) -> list[str]:
    thick = page.show(tray.panel_thickness)
    found = [f"{tray.panel_species}, {thick} thick"]
    if tray.material not in ("mdf", "glass"):
        found[0] += ", grain ↔"
    if not tray.four:
        across = page.show(tray.panel_across(tray.long))
        found.append(f"across flats: {across}; gauge {tray.panel_gauge}")
        found.append("side 1 is the blank's jointed edge, along the grain")
    if tray.strips > 1:
        found.append(f"{tray.strips} strips edge to edge")
    return found


def _strip_lines(
    tray: Tray, page: Page, middle: XY, outline: list[XY]
) -> Iterable[Line]:
    wide = page.mm(panel_blank(tray).width.nm)
    low, high = min(y for _, y in outline), max(y for _, y in outline)
    foot = middle[1] + wide / 2 if tray.four else high
    for i in range(1, tray.strips):
        y = foot - wide * i / tray.strips
        if low < y < high:
            xs = _crossing(outline, y)
            yield page.line((min(xs), y), (max(xs), y), Pen.GRAIN)


def _crossing(outline: list[XY], y: float) -> list[float]:
    """Where a level line crosses an outline."""
    found = []
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if min(y1, y2) <= y <= max(y1, y2) and abs(y2 - y1) > 1e-9:
            found.append(x1 + (x2 - x1) * (y - y1) / (y2 - y1))
    return found


def _template(tray: Tray, shop: Shop) -> Drawing | None:
    page = Page(shop, 1)
    across = tray.panel_across(tray.long)
    return template(
        "panel-template",
        "The panel at true size",
        f"A panel of {tray.sides} sides at true size, to trace round.",
        [tray.outline(across, across)],
        species=tray.panel_species,
        sizes=(
            f"each side {page.show(tray.panel_side)}",
            f"across the flats {page.show(across)}",
        ),
    )
