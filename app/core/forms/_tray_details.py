"""The tray's joints at a larger scale, and its rails on the mitre gauge."""

from __future__ import annotations

import math
from collections.abc import Iterable

from app.core.drawing import Drawing, Line, Measure, Pen, Shape
from app.core.forms._page import XY, Page
from app.core.forms._tray import Tray
from app.core.length import Length
from app.core.shop import Shop


def section(tray: Tray, shop: Shop) -> Drawing:
    """A rail cut through, the panel in its groove."""
    wide, high = tray.rail_width, tray.rail_height
    page = Page(shop, max(wide.nm / 30, high.nm / 54))
    left, top = 32.0, 5.0
    right, floor = left + page.mm(wide.nm), top + page.mm(high.nm)
    measures = [
        page.measure((left, floor), (right, floor), page.show(wide), -8),
        page.measure((left, top), (left, floor), page.show(high), -9),
    ]
    shapes = [page.shape(_cut_rail(tray, page, left, top), tray.species, "Rail")]
    if tray.has_panel:
        panel, end, upper = _panel_end(tray, page, right, floor)
        shapes.append(panel)
        depth = page.show(tray.inside_depth)
        measures.append(page.measure((end, upper), (end, top), depth, -9))
    texts = _section_notes(tray, page)
    return Drawing(
        key="section",
        title="A rail cut through",
        description=_section_words(tray, page),
        shapes=tuple(shapes),
        measures=tuple(measures),
        labels=tuple(
            page.label(60, floor + 20 + 5 * i, text, quiet=True)
            for i, text in enumerate(texts)
        ),
        width=page.width,
        height=page.offset(floor + 17 + 5 * len(texts)),
    )


def _section_notes(tray: Tray, page: Page) -> list[str]:
    """The small sizes, which would crowd each other on the drawing."""
    if not tray.has_panel:
        return []
    show = page.show
    size = f"{show(tray.groove_depth)} deep, {show(tray.panel_thickness)} wide"
    up = f"{show(tray.groove_up)} up from the lower edge"
    return [
        f"{tray.housing} {size},",
        up if tray.groove_up else "along the lower edge",
        f"room for the panel: {show(tray.room)} at each side",
    ]


def _section_words(tray: Tray, page: Page) -> str:
    words = (
        f"A rail {page.show(tray.rail_width)} wide and {page.show(tray.rail_height)} "
        "high, cut through, its outer face to the left"
    )
    if tray.has_panel:
        words += (
            f"; the {tray.housing} is {page.show(tray.groove_depth)} deep for a panel "
            f"{page.show(tray.panel_thickness)} thick"
        )
    return words + "."


def _cut_rail(tray: Tray, page: Page, left: float, top: float) -> list[XY]:
    right = left + page.mm(tray.rail_width.nm)
    floor = top + page.mm(tray.rail_height.nm)
    if not tray.has_panel:
        return [(left, top), (right, top), (right, floor), (left, floor)]
    deep = right - page.mm(tray.groove_depth.nm)
    low = floor - page.mm(tray.groove_up.nm)
    high = low - page.mm(tray.panel_thickness.nm)
    groove = [(right, high), (deep, high), (deep, low)]
    foot = [(right, low), (right, floor)] if tray.groove_up else []
    start = [(left, top), (right, top)]
    return [*start, *groove, *foot, (left, floor)]


def _panel_end(
    tray: Tray, page: Page, right: float, floor: float
) -> tuple[Shape, float, float]:
    """The panel to where the drawing breaks off; where that and its top are."""
    start, end = right - page.mm(tray.reach.nm), right + 14
    thick = page.mm(tray.panel_thickness.nm)
    high = floor - page.mm(tray.groove_up.nm) - thick
    box = page.box(start, high, end - start, thick)
    return page.shape(box, tray.panel_species, "Panel"), end, high


def corner(tray: Tray, shop: Shop) -> Drawing:
    """Two rails where they meet, seen from above."""
    wide = tray.rail_width
    page = Page(shop, max(tray.mitre_length.nm / 34, wide.nm / 22))
    turn = tray.gauge.radians
    # The outer corner at the right, the mitre running level to the left.
    reach = 46.0
    point = (84.0, 0.0)
    across = page.mm(tray.mitre_length.nm)
    along = math.cos(math.pi / 2 - turn), math.sin(math.pi / 2 - turn)
    back = (-along[0], along[1])
    drop = reach * back[1]
    point = (84.0, 6.0 + drop)
    inner = (point[0] - across, point[1])
    thick = page.mm(wide.nm)
    shapes, lines = [], []
    for up in (1, -1):
        way = (back[0], back[1] * up)
        inwards = (-back[1], back[0] * up)
        end = (point[0] + way[0] * reach, point[1] + way[1] * reach)
        foot = (end[0] + inwards[0] * thick, end[1] + inwards[1] * thick)
        shapes.append(page.shape([point, end, foot, inner], tray.species, "Rail"))
        if tray.has_panel:
            lines.append(_floor(tray, page, point, way, inwards, reach))
    shapes += _spline(tray, page, point, back)
    floor = point[1] + drop
    return _corner_drawing(tray, page, shapes, lines, point, inner, floor)


def _floor(
    tray: Tray, page: Page, point: XY, way: XY, inwards: XY, reach: float
) -> Line:
    """The groove's bottom along one rail, dashed."""
    deep = page.mm((tray.rail_width - tray.groove_depth).nm)
    start = point[0] - deep / math.cos(tray.gauge.radians), point[1]
    end = (
        point[0] + way[0] * reach + inwards[0] * deep,
        point[1] + way[1] * reach + inwards[1] * deep,
    )
    return page.line(start, end, Pen.HIDDEN)


def _spline(tray: Tray, page: Page, point: XY, back: XY) -> Iterable[Shape]:
    if tray.splines is None:
        return
    deep = page.mm(tray.splines.depth.nm)
    half = page.mm(tray.splines.long.nm) / 2
    x = point[0] - deep
    corners = [point, (x, point[1] + half), (x, point[1] - half)]
    yield page.shape(corners, tray.splines.species[0], "Spline")


def _corner_drawing(
    tray: Tray,
    page: Page,
    shapes: list[Shape],
    lines: list[Line],
    point: XY,
    inner: XY,
    floor: float,
) -> Drawing:
    texts = [f"each mitre {page.show(tray.mitre_length)} long, cut at {tray.gauge}"]
    if tray.has_panel:
        texts.append(f"dashed: the {tray.housing}, {page.show(tray.groove_depth)} deep")
    if tray.splines:
        texts.append(f"splines {page.show(tray.splines.depth)} deep from the corner")
    return Drawing(
        key="corner",
        title="A corner",
        description=f"Two rails that meet at a corner, each mitred at {tray.gauge} "
        f"from square; the mitre is {page.show(tray.mitre_length)} long.",
        shapes=tuple(shapes),
        lines=tuple(lines),
        measures=(),
        labels=tuple(
            page.label(60, floor + 9 + 5 * i, text, quiet=True)
            for i, text in enumerate(texts)
        ),
        width=page.width,
        height=page.offset(floor + 7 + 5 * len(texts)),
    )


def rails(tray: Tray, shop: Shop) -> Drawing:
    """Each kind of rail on the gauge, its long point at the stop."""
    sides = list(dict.fromkeys(tray.sides_round))
    page = Page(shop, tray.long_side.nm / 74)
    shapes: list[Shape] = []
    lines: list[Line] = []
    measures: list[Measure] = []
    labels = []
    wide = page.mm(tray.rail_width.nm)
    each = wide + 32
    for row, side in enumerate(sides):
        left, top = 22.0, 18.0 + row * each
        right = left + page.mm(side.nm)
        shapes += _on_the_gauge(tray, page, side, left, top)
        lines.append(_blade(tray, page, right, top, wide))
        shows = page.show(side)
        measures.append(page.measure((left, top), (right, top), shows, 11))
        inner = page.show(side - tray.mitre_back * 2)
        slant = page.mm(tray.mitre_back.nm)
        foot = (left + slant, top + wide), (right - slant, top + wide)
        measures.append(page.measure(*foot, inner, -7))
        under = top + min(wide, 5) + 4
        labels.append(page.label(left - 5, under, "stop", quiet=True))
        labels.append(page.label(min(right + 10, 112), top + 4, "blade", quiet=True))
    floor = 18.0 + each * len(sides) - 18
    text = f"gauge {tray.gauge} from square; outer face on the fence"
    labels.append(page.label(60, floor + 6, text, quiet=True))
    return Drawing(
        key="rails",
        title="The rails on the gauge",
        description="Each kind of rail with its outer face on the gauge's fence, its "
        f"long point at the stop and the blade at {tray.gauge} from square.",
        shapes=tuple(shapes),
        lines=tuple(lines),
        measures=tuple(measures),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(floor + 9),
    )


def _on_the_gauge(
    tray: Tray, page: Page, side: Length, left: float, top: float
) -> Iterable[Shape]:
    right, slant = left + page.mm(side.nm), page.mm(tray.mitre_back.nm)
    wide = page.mm(tray.rail_width.nm)
    yield page.shape(page.box(left - 12, top - 4, right - left + 10, 4), title="Fence")
    thick = min(wide, 5)
    block = [
        (left - 9, top),
        (left, top),
        (left + slant * thick / wide, top + thick),
        (left - 9, top + thick),
    ]
    yield page.shape(block, title="Stop")
    rail = [
        (left, top),
        (right, top),
        (right - slant, top + wide),
        (left + slant, top + wide),
    ]
    yield page.shape(rail, tray.species, "Rail")


def _blade(tray: Tray, page: Page, right: float, top: float, wide: float) -> Line:
    """The saw's line through the long point, a little past the rail."""
    slope = math.tan(tray.gauge.radians)
    return page.line(
        (right + 5 * slope, top - 5),
        (right - (wide + 4) * slope, top + wide + 4),
        Pen.CUT,
    )


__all__ = ["corner", "rails", "section"]
