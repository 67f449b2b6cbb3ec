"""The vessel seen from the front, with its rows, base, lid and splines."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from itertools import accumulate, pairwise

from app.core import geometry
from app.core.drawing import Drawing, Line, Measure, Pen, Shape
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import Page
from app.core.forms._vessel_plate import Plate
from app.core.length import Length
from app.core.shop import Shop

MIDDLE, WIDE, HIGH, TOP = 60.0, 58.0, 90.0, 5.0
Edges = list[tuple[int, float, float]]


def front(vessel: Vessel, shop: Shop) -> Drawing:
    """Every face that is seen from the front, the lid on."""
    widest = max([vessel.outside_side, *(plate.side for plate in vessel.plates)])
    wide = 2 * faces(vessel.sides, widest)[-1][2]
    whole = vessel.overall_height
    page = Page(vessel, shop, max(wide / WIDE, whole.nm / HIGH))
    bench = TOP + page.mm(whole.nm)
    view = _View(page, bench)
    labels, end = page.notes(bench + 8, _notes(page))
    return Drawing(
        key="elevation",
        title="From the front",
        description=_words(vessel, page),
        shapes=(*view.bands(), *view.plates(), *view.splines()),
        lines=tuple(view.hidden()),
        measures=tuple(view.measures(page.mm(wide) / 2)),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(end),
    )


def faces(sides: int, side: Length) -> Edges:
    """The walls seen in front, left to right: number from 0, left and right edge, nm.

    Edges are from the middle. Wall 0 is in front; numbers go on to the right.
    """
    half, turn = side.nm / 2, 2 * math.pi / sides
    x, angle, right = half, 0.0, [half]
    while (more := side.nm * math.cos(angle := angle + turn)) > 1 and angle < math.pi:
        x += more
        right.append(x)
    edges = [-x for x in reversed(right)] + right
    first = -(len(right) - 1)
    return [((first + i) % sides, a, b) for i, (a, b) in enumerate(pairwise(edges))]


class _View:
    """The front on its page: ``bench`` is the page's y of the bench."""

    def __init__(self, page: Page, bench: float) -> None:
        self.page, self.vessel, self.bench = page, page.vessel, bench
        self.floor = bench - page.mm(self.vessel.lift.nm)
        self.seen = faces(self.vessel.sides, self.vessel.outside_side)

    def bands(self) -> Iterable[Shape]:
        rises = list(accumulate((w.nm for w in self.vessel.widths), initial=0))
        for wall, left, right in self.seen:
            column = self.vessel.column(wall)
            for name, (low, high) in zip(column, pairwise(rises), strict=True):
                band = self._box(left, right, low, high, name)
                thin = (Pen.GRAIN, Pen.OUTLINE, Pen.GRAIN, Pen.OUTLINE)
                yield replace(band, edges=thin)
            whole = self._box(left, right, 0, rises[-1], "")
            yield replace(whole, title=f"Wall {wall + 1}")

    def plates(self) -> Iterable[Shape]:
        """A base under the walls and a lid on them."""
        vessel = self.vessel
        if vessel.base == "under":
            yield from self._plate(vessel.plate("base"), -vessel.lift.nm, 0)
        if vessel.has_lid:
            top = vessel.height.nm
            high = top + vessel.lid.thickness.nm
            yield from self._plate(vessel.plate("lid"), top, high)

    def _plate(self, plate: Plate, low: int, high: int) -> Iterable[Shape]:
        for _, left, right in faces(plate.sides, plate.side):
            yield self._box(left, right, low, high, plate.species, plate.name)

    def splines(self) -> Iterable[Shape]:
        splines = self.vessel.splines
        if splines is None:
            return
        half = splines.thickness.nm / 2
        for _, left, right in self.seen:
            reach = splines.visible.nm * (right - left) / self.vessel.outside_side.nm
            for at, wood in zip(splines.heights, splines.species, strict=True):
                for start in (left, right - reach):
                    ends = start, start + reach, at.nm - half, at.nm + half
                    yield self._box(*ends, wood, "Spline")

    def _box(
        self,
        left: float,
        right: float,
        low: float,
        high: float,
        species: str,
        title: str = "",
    ) -> Shape:
        mm = self.page.mm
        x, y = MIDDLE + mm(left), self.floor - mm(high)
        points = self.page.box(x, y, mm(right - left), mm(high - low))
        return self.page.shape(points, species, title or species)

    def hidden(self) -> Iterable[Line]:
        """What stands inside the walls: a base let in, the lid's plug."""
        vessel = self.vessel
        if vessel.housed:
            low = vessel.groove_up.nm
            side = vessel.plate("base").side
            yield from self._dashed(side, low, low + vessel.base_thickness.nm)
        if vessel.has_lid:
            side = geometry.side_of_inscribed(vessel.plug_inscribed, vessel.sides)
            top = vessel.height.nm
            yield from self._dashed(side, top - vessel.lid.lip.nm, top)

    def _dashed(self, side: Length, low: int, high: int) -> list[Line]:
        ends = faces(self.vessel.sides, side)
        box = self._box(ends[0][1], ends[-1][2], low, high, "")
        points = [(p.x / self.page.scale, p.y / self.page.scale) for p in box.points]
        return self.page.dashed(points)

    def measures(self, half: float) -> Iterable[Measure]:
        page, vessel = self.page, self.vessel
        right, left, wall = MIDDLE + half, MIDDLE - half, self.seen[-1][2]
        top = self.floor - page.mm(vessel.height.nm)
        edge = MIDDLE + page.mm(wall)
        off = -(right - edge + 10)
        ends = (edge, self.floor), (edge, top)
        yield page.measure(*ends, page.show(vessel.height), off)
        if vessel.overall_height != vessel.height:
            whole = (left, self.bench), (left, TOP)
            yield page.measure(*whole, page.show(vessel.overall_height), 10)


def _notes(page: Page) -> list[str]:
    vessel, show = page.vessel, page.show
    found = []
    if vessel.housed:
        up = f"{show(vessel.groove_up)} up" if vessel.groove_up else "at the bottom"
        found.append(f"Dashed below: base {show(vessel.base_thickness)} thick, {up}.")
    elif vessel.base == "under":
        found.append(f"Base {show(vessel.base_thickness)} thick, under the walls.")
    else:
        found.append("No base.")
    if vessel.has_lid:
        lid = vessel.lid
        found.append(
            f"Lid {show(lid.thickness)} thick; dashed: it reaches {show(lid.lip)} "
            "inside."
        )
    if len(vessel.widths) > 1:
        rows = len(vessel.widths)
        found.append(f"{rows} rows of strips, each {show(vessel.strip_width)}.")
    if vessel.splines:
        heights = ", ".join(show(height) for height in vessel.splines.heights)
        found.append(f"Middles of the splines, up from the walls' edge: {heights}.")
    return found


def _words(vessel: Vessel, page: Page) -> str:
    rows = ", ".join(vessel.column(0))
    lid = " A lid lies on it." if vessel.has_lid else ""
    return (
        f"One flat side in front, {page.show(vessel.height)} high, in "
        f"{len(vessel.widths)} rows of {page.show(vessel.strip_width)}. From the "
        f"bottom up: {rows}.{lid}"
    )
