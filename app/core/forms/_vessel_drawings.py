"""The straight vessel drawn: from above, from the front, unrolled, its base.

Coordinates are made in millimetres of the page (``PAGE_MM`` wide) and scaled up
to real nanometres at the end, so that texts have room.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from itertools import accumulate, pairwise

from app.core import geometry
from app.core.drawing import (
    Drawing,
    Label,
    Line,
    Measure,
    Pen,
    Shape,
)
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.length import Length
from app.core.shop import Shop


def drawings(vessel: Vessel, shop: Shop) -> tuple[Drawing, ...]:
    """Plan, elevation, unrolled walls and, where there is one, the base."""
    found = [_plan(vessel, shop), _elevation(vessel, shop), _unrolled(vessel, shop)]
    if vessel.has_base:
        found.append(_base(vessel, shop))
    return tuple(found)


def _placed(page: Page, side: Length, middle: XY) -> list[XY]:
    points = geometry.corners(page.vessel.sides, side)
    return [(middle[0] + page.mm(x), middle[1] + page.mm(y)) for x, y in points]


def _plan(vessel: Vessel, shop: Shop) -> Drawing:
    """Cut level above the base and looked at from above."""
    wide, high = geometry.extent(geometry.corners(vessel.sides, vessel.outside_side))
    scale = max(wide.nm / 74, high.nm / 74)
    page = Page(vessel, shop, scale)
    top = 6.0
    drop = max(y for _, y in geometry.corners(vessel.sides, vessel.outside_side))
    middle = (46.0, top + page.mm(high.nm - drop))
    outer = _placed(page, vessel.outside_side, middle)
    inner = _placed(page, vessel.inside_side, middle)
    bottom = max(y for _, y in outer)
    flat = outer[0], outer[-1]
    measures = [page.measure(*flat, page.show(vessel.outside_side), -8)]
    if vessel.sides % 2 == 0:
        measures.append(_across_flats(page, outer))
    return Drawing(
        key="plan",
        title="From above",
        description=_plan_words(vessel, page),
        shapes=tuple(_walls(page, outer, inner)),
        lines=tuple(_hidden_base(page, middle)),
        measures=tuple(measures),
        labels=tuple(_plan_labels(page, middle)),
        width=page.width,
        height=page.offset(bottom + 14),
    )


def _across_flats(page: Page, outer: list[XY]) -> Measure:
    right = max(x for x, _ in outer)
    top, bottom = min(y for _, y in outer), max(y for _, y in outer)
    half = page.mm(page.vessel.outside_side.nm) / 2
    middle = sum(x for x, _ in outer) / len(outer)
    start, end = (middle + half, bottom), (middle + half, top)
    text = page.show(page.vessel.outside_inscribed)
    return page.measure(start, end, text, -(right - middle - half + 12))


def _walls(page: Page, outer: list[XY], inner: list[XY]) -> Iterable[Shape]:
    species = page.vessel.rows[-1][0]
    count = len(outer)
    for i in range(count):
        j = (i + 1) % count
        points = [outer[i], outer[j], inner[j], inner[i]]
        yield page.shape(points, species, f"Wall {(count - i - 1) % count + 1}")


def _hidden_base(page: Page, middle: XY) -> list[Line]:
    if not page.vessel.housed:
        return []
    return page.dashed(_placed(page, page.vessel.base_side, middle))


def _plan_labels(page: Page, middle: XY) -> list[Label]:
    x, y = middle
    vessel = page.vessel
    texts = [f"inside {page.show(vessel.inside_inscribed)}"]
    texts.append(f"wall {page.show(vessel.wall)}")
    if vessel.housed:
        texts.append("dashed: the base")
    start = y - 5.5 * (len(texts) - 1) / 2
    return [
        page.label(x, start + 5.5 * i, text, quiet=i > 0)
        for i, text in enumerate(texts)
    ]


def _plan_words(vessel: Vessel, page: Page) -> str:
    words = (
        f"{vessel.sides} mitred walls seen from above. Each outside side is "
        f"{page.show(vessel.outside_side)}, the wall {page.show(vessel.wall)}; across "
        f"the flats {page.show(vessel.outside_inscribed)} outside and "
        f"{page.show(vessel.inside_inscribed)} inside."
    )
    if vessel.housed:
        words += f" The base reaches into a {vessel.base} and is drawn dashed."
    return words


def _faces(vessel: Vessel) -> list[tuple[float, float]]:
    """Left and right edges, in nm from the middle, of the faces seen in front."""
    front = geometry.corners(vessel.sides, vessel.outside_side)
    edges: dict[int, float] = {}
    widest = max(x for x, _ in front)
    # Going round from the front flat until the silhouette: what is behind is hidden.
    half = vessel.outside_side.nm / 2
    turn = 2 * math.pi / vessel.sides
    x, angle = half, 0.0
    edges[0] = half
    while x < widest - 1:
        angle += turn
        x += vessel.outside_side.nm * math.cos(angle)
        edges[len(edges)] = x
    right = list(edges.values())
    return list(pairwise([-x for x in reversed(right)] + right))


def _elevation(vessel: Vessel, shop: Shop) -> Drawing:
    faces = _faces(vessel)
    wide = faces[-1][1] - faces[0][0]
    under = vessel.base_thickness.nm if vessel.base == "under" else 0
    scale = max(wide / 65, (vessel.height.nm + under) / 90)
    page = Page(vessel, shop, scale)
    left, top = 33.0 + (65 - page.mm(wide)) / 2, 6.0
    middle = left + page.mm(wide) / 2
    high = page.mm(vessel.height.nm)
    right = left + page.mm(wide)
    ends = (right, top + high), (right, top)
    row = top + high - page.mm(vessel.rows[0][1].nm)
    measures = [page.measure(*ends, page.show(vessel.height), -9)]
    if len(vessel.rows) > 1:
        first = (left, row), (left, top + high)
        measures.append(page.measure(*first, page.show(vessel.strip_width), -9))
    bottom = top + high + page.mm(under)
    lines, labels = _hidden_floor(page, left, right, top + high)
    return Drawing(
        key="elevation",
        title="From the front",
        description=_elevation_words(vessel, page),
        shapes=(
            *_bands(page, faces, middle, top + high),
            *_under(page, left, right, top + high),
            *_spline_ends(page, faces, middle, top + high),
        ),
        lines=tuple(lines),
        measures=tuple(measures),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(bottom + 11),
    )


def _bands(
    page: Page, faces: list[tuple[float, float]], middle: float, floor: float
) -> Iterable[Shape]:
    rises = list(accumulate((w.nm for _, w in page.vessel.rows), initial=0))
    for left, right in faces:
        for (name, width), rise in zip(page.vessel.rows, rises, strict=False):
            high = page.mm(width.nm)
            x, y = middle + page.mm(left), floor - page.mm(rise) - high
            points = page.box(x, y, page.mm(right - left), high)
            yield page.shape(points, name, name)


def _under(page: Page, left: float, right: float, floor: float) -> Iterable[Shape]:
    if page.vessel.base == "under":
        thick = page.mm(page.vessel.base_thickness.nm)
        points = page.box(left, floor, right - left, thick)
        yield page.shape(points, page.vessel.base_species, "Base")


def _spline_ends(
    page: Page, faces: list[tuple[float, float]], middle: float, floor: float
) -> Iterable[Shape]:
    vessel = page.vessel
    side, high = vessel.outside_side.nm, page.mm(vessel.spline_thickness.nm)
    for left, right in faces:
        reach = vessel.spline_visible.nm * (right - left) / side
        for up in vessel.spline_heights:
            y = floor - page.mm(up.nm) - high / 2
            for x in (left, right - reach):
                points = page.box(middle + page.mm(x), y, page.mm(reach), high)
                yield page.shape(points, vessel.spline_species, "Spline")


def _hidden_floor(
    page: Page, left: float, right: float, floor: float
) -> tuple[list[Line], list[Label]]:
    vessel = page.vessel
    middle = (left + right) / 2
    if not vessel.housed:
        words = {"under": "base under the walls", "none": "no base"}[vessel.base]
        below = page.mm(vessel.base_thickness.nm) if vessel.base == "under" else 0
        return [], [page.label(middle, floor + below + 6, words, quiet=True)]
    shrink = page.mm(vessel.base_inscribed.nm - vessel.outside_inscribed.nm)
    inset = -shrink / 2
    low = floor - page.mm(vessel.groove_up.nm)
    thick = page.mm(vessel.base_thickness.nm)
    box = page.box(left + inset, low - thick, right - left - 2 * inset, thick)
    up = f"{page.show(vessel.groove_up)} up" if vessel.groove_up else "at the bottom"
    text = f"dashed: base {page.show(vessel.base_thickness)}, {up}"
    return page.dashed(box), [page.label(middle, floor + 6, text, quiet=True)]


def _elevation_words(vessel: Vessel, page: Page) -> str:
    rows = ", ".join(name for name, _ in vessel.rows)
    return (
        f"One flat side in front, {page.show(vessel.height)} high, in "
        f"{len(vessel.rows)} rows of {page.show(vessel.strip_width)}. From the bottom "
        f"up: {rows}."
    )


def _unrolled(vessel: Vessel, shop: Shop) -> Drawing:
    """The walls side by side on their panel, with the saw's kerfs and the trim."""
    walls = vessel.walls_per_panel
    whole = vessel.each_panel_length + shop.over_length
    # To the left the width of a strip needs room, in both systems.
    long = 82.0
    page = Page(vessel, shop, whole.nm / long)
    left, top = 36.0, 6.0
    high = page.mm(vessel.height.nm)
    side, kerf = page.mm(vessel.outside_side.nm), page.mm(vessel.kerf.nm)
    starts = [left + i * (side + kerf) for i in range(walls)]
    trim_at = starts[-1] + side + kerf
    trim = page.box(trim_at, top, left + long - trim_at, high)
    row = top + high - page.mm(vessel.rows[0][1].nm)
    end = starts[-1] + side
    floor = top + high
    one = page.show(vessel.outside_side)
    measures = [
        page.measure((starts[0], floor), (starts[0] + side, floor), one, -7),
        page.measure(
            (starts[0], floor), (end, floor), page.show(vessel.each_panel_length), -16
        ),
        page.measure((left, row), (left, floor), page.show(vessel.strip_width), -11),
    ]
    return Drawing(
        key="unrolled",
        title="The walls unrolled",
        description=_unrolled_words(vessel, page, walls),
        shapes=(
            *(shape for x in starts for shape in _wall_rows(page, x, side, floor)),
            *(
                [page.shape(trim, title="Trim", scrap=True)]
                if trim_at < left + long - 1
                else []
            ),
        ),
        measures=tuple(measures),
        labels=tuple(
            page.label(x + side / 2, top - 2.2, str(i + 1), quiet=True)
            for i, x in enumerate(starts)
        ),
        width=page.width,
        height=page.offset(floor + 21.5),
    )


def _wall_rows(page: Page, x: float, side: float, floor: float) -> Iterable[Shape]:
    rise = 0.0
    for name, width in page.vessel.rows:
        high = page.mm(width.nm)
        rise += high
        box = page.shape(page.box(x, floor - rise, side, high), name, name)
        # Thin, so that the kerf stays open between two walls.
        yield replace(box, pen=Pen.GRAIN)


def _unrolled_words(vessel: Vessel, page: Page, walls: int) -> str:
    panels = f" One of {vessel.panels} panels." if vessel.panels > 1 else ""
    return (
        f"{walls} walls in order along {page.show(vessel.each_panel_length)}, a kerf "
        f"of {page.show(vessel.kerf)} between them, outside faces up, trim at the end "
        f"crossed out.{panels}"
    )


def _base(vessel: Vessel, shop: Shop) -> Drawing:
    """The base on its square blank."""
    blank = vessel.base_blank
    page = Page(vessel, shop, blank.nm / 70)
    left, top, side = 12.0, 5.0, 70.0
    points = geometry.corners(vessel.sides, vessel.base_side)
    _, high = geometry.extent(points)
    drop = max(y for _, y in points)
    middle = (left + side / 2, top + side / 2 + page.mm(high.nm) / 2 - page.mm(drop))
    base = _placed(page, vessel.base_side, middle)
    floor = top + side
    below = floor - base[0][1] + 7
    measures = [
        page.measure(base[0], base[-1], page.show(vessel.base_side), -below),
        page.measure((left, floor), (left + side, floor), page.show(blank), -17),
    ]
    if vessel.sides % 2 == 0:
        half = page.mm(vessel.base_side.nm) / 2
        upright = (
            (middle[0] + half, base[0][1]),
            (middle[0] + half, min(y for _, y in base)),
        )
        out = left + side - middle[0] - half + 12
        measures.append(page.measure(*upright, page.show(vessel.base_inscribed), -out))
    grain = [
        Line(page.point(left, y), page.point(left + side, y), Pen.GRAIN)
        for y in _joints(vessel, top, side)
    ]
    return Drawing(
        key="base",
        title="The base on its blank",
        description=f"A base of {vessel.sides} sides of {page.show(vessel.base_side)} "
        f"on a square blank of {page.show(blank)}; what falls away is crossed out. The "
        "grain runs from left to right.",
        shapes=(
            page.shape(page.box(left, top, side, side), title="Falls away", scrap=True),
            page.shape(base, vessel.base_species, "Base"),
        ),
        lines=tuple(grain),
        measures=tuple(measures),
        labels=(page.label(middle[0], middle[1] - 4, "grain ↔", quiet=True),),
        width=page.width,
        height=page.offset(floor + 22),
    )


def _joints(vessel: Vessel, top: float, side: float) -> list[float]:
    count = vessel.base_strip_count
    return [top + side * i / count for i in range(1, count)]
