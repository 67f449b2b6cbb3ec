"""Upright sections at a larger scale: the base in the wall, the lid on it."""

from __future__ import annotations

from collections.abc import Iterable

from app.core.drawing import Drawing, Measure, Shape
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.length import Length
from app.core.shop import Shop

LEFT, TOP, WIDE, HIGH = 44.0, 13.0, 40.0, 52.0


def sections(vessel: Vessel, shop: Shop) -> list[Drawing]:
    """The base and the lid where they meet the front wall, as far as there are."""
    found = [_base(vessel, shop)] if vessel.has_base else []
    return [*found, _lid(vessel, shop)] if vessel.has_lid else found


class _Section:
    """A section on its page: x nm in from the wall's outside, z nm up from ``low``."""

    def __init__(
        self, vessel: Vessel, shop: Shop, wide: int, low: int, high: int, left: int = 0
    ) -> None:
        scale = max((wide + left) / WIDE, (high - low) / HIGH)
        self.page = Page(vessel, shop, scale)
        self.high, self.left = high, left
        self.floor = TOP + self.page.mm(high - low)

    def at(self, x: int, z: int) -> XY:
        mm = self.page.mm
        return LEFT + mm(x + self.left), TOP + mm(self.high - z)

    def box(self, x0: int, x1: int, z0: int, z1: int, wood: str, title: str) -> Shape:
        return self.shape([(x0, z0), (x1, z0), (x1, z1), (x0, z1)], wood, title)

    def shape(self, points: list[tuple[int, int]], wood: str, title: str) -> Shape:
        return self.page.shape([self.at(x, z) for x, z in points], wood, title)

    def across(self, x0: int, x1: int, z: int, y: float) -> Measure:
        """A size across, its line at ``y`` on the page."""
        start, end = self.at(x0, z), self.at(x1, z)
        text = self.page.show(Length(abs(x1 - x0)))
        return self.page.measure(start, end, text, start[1] - y)

    def up(self, x: int, z0: int, z1: int, at: float) -> Measure:
        """An upright size, its line at ``at`` on the page."""
        start, end = self.at(x, z0), self.at(x, z1)
        text = self.page.show(Length(z1 - z0))
        return self.page.measure(start, end, text, start[0] - at)

    def drawing(
        self,
        key: str,
        title: str,
        told: str,
        shapes: Iterable[Shape],
        measures: Iterable[Measure],
    ) -> Drawing:
        labels, end = self.page.notes(self.floor + 19, [told])
        return Drawing(
            key=key,
            title=title,
            description=f"{title}. {told}",
            shapes=tuple(shapes),
            measures=tuple(measures),
            labels=tuple(labels),
            width=self.page.width,
            height=self.page.offset(end),
        )


def _base(vessel: Vessel, shop: Shop) -> Drawing:
    wall, thick = vessel.wall.nm, vessel.base_thickness.nm
    up = vessel.groove_up.nm if vessel.housed else -thick
    top = min(max(up + thick, 0) + round(wall * 0.9), vessel.height.nm)
    low, end = min(up, 0), wall + round(wall * 0.9)
    part = _Section(vessel, shop, end, low, top)
    # Under the walls it is flush with their outside.
    deep = vessel.groove_depth.nm - vessel.clearance.nm if vessel.housed else wall
    base = part.box(wall - deep, end, up, up + thick, vessel.base_species, "Base")
    measures = [
        part.across(0, wall, low, part.floor + 8),
        part.up(end, up, up + thick, part.at(end, 0)[0] + 6),
    ]
    if vessel.housed:
        groove = wall - vessel.groove_depth.nm
        measures.append(part.across(groove, wall, top, TOP - 4))
    if vessel.housed and up:
        measures.append(part.up(0, 0, up, LEFT - 6))
    outline = _housed(vessel, top) if vessel.housed else _block(wall, top)
    walls = part.shape(outline, vessel.column(0)[0], "Wall")
    title = "The base at the wall, cut upright"
    told = _base_told(vessel, part.page)
    return part.drawing("base_joint", title, told, [walls, base], measures)


def _block(wall: int, top: int) -> list[tuple[int, int]]:
    return [(0, 0), (wall, 0), (wall, top), (0, top)]


def _housed(vessel: Vessel, top: int) -> list[tuple[int, int]]:
    """The wall's outline with the groove or rebate on its inside."""
    wall, up = vessel.wall.nm, vessel.groove_up.nm
    floor, high = wall - vessel.groove_depth.nm, up + vessel.base_thickness.nm
    lower = [(0, 0), (wall, 0), (wall, up)] if up else [(0, 0)]
    return [*lower, (floor, up), (floor, high), (wall, high), (wall, top), (0, top)]


def _base_told(vessel: Vessel, page: Page) -> str:
    show = page.show
    if not vessel.housed:
        return "The base lies under the walls, flush; fixed so that it can move."
    what = "A groove" if vessel.base == "groove" else "A rebate"
    share = round(100 * vessel.groove_depth.nm / vessel.wall.nm)
    return (
        f"{what} {show(vessel.groove_depth)} deep, {share} % of the wall; "
        f"{show(vessel.clearance)} of room before the base, which is not glued."
    )


def _lid(vessel: Vessel, shop: Shop) -> Drawing:
    lid, wall = vessel.lid, vessel.wall.nm
    high, lip, over = lid.thickness.nm, lid.lip.nm, lid.overhang.nm
    low = max(-max(lip * 3 // 2, lip + wall * 2 // 5), -vessel.height.nm)
    end = wall + round(wall * 0.9) + lid.room.nm
    part = _Section(vessel, shop, end, low, high, over)
    measures = [
        part.across(0, wall, low, part.floor + 8),
        part.up(-over, 0, high, LEFT - 6),
        part.up(end, -lip, 0, part.at(end, 0)[0] + 6),
    ]
    if over:
        measures.append(part.across(-over, 0, high, TOP - 4))
    walls = part.box(0, wall, low, 0, vessel.column(0)[-1], "Wall")
    title = "The lid on the wall, cut upright"
    shapes = [walls, *_lid_shapes(vessel, part, end)]
    told = _lid_told(vessel, part.page)
    return part.drawing("lid_joint", title, told, shapes, measures)


def _lid_shapes(vessel: Vessel, part: _Section, end: int) -> list[Shape]:
    """One rebated plate, or a plate and its plug."""
    lid = vessel.lid
    high, lip, over = lid.thickness.nm, lid.lip.nm, lid.overhang.nm
    edge = vessel.wall.nm + lid.room.nm
    if lid.kind == "plug":
        return [
            part.box(-over, end, 0, high, lid.species, "Lid"),
            part.box(edge, end, -lip, 0, lid.species, "Plug"),
        ]
    under = [(-over, 0), (edge, 0), (edge, -lip), (end, -lip)]
    outline = [*under, (end, high), (-over, high)]
    return [part.shape(outline, lid.species, "Lid")]


def _lid_told(vessel: Vessel, page: Page) -> str:
    kind = {
        "plug": "the plug is glued under the lid, grain along grain",
        "rebate": f"the rebate is {page.show(vessel.lid_rebate)} wide",
    }[vessel.lid.kind]
    return f"{page.show(vessel.lid.room)} of room between plug and wall; {kind}."
