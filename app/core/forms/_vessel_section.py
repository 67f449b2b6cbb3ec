"""Upright sections at a larger scale: the base in the wall, the lid on it."""

from __future__ import annotations

from collections.abc import Iterable

from app.core.drawing import Drawing, Measure, Shape
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import XY, Page
from app.core.length import Length
from app.core.shop import Shop

LEFT, TOP, WIDE, HIGH = 44.0, 13.0, 40.0, 52.0
NOTHING = Length(0)


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
        words: str,
        shapes: Iterable[Shape],
        measures: Iterable[Measure],
        notes: list[str],
        below: float,
    ) -> Drawing:
        labels, end = self.page.notes(self.floor + below, notes)
        return Drawing(
            key=key,
            title=title,
            description=words,
            shapes=tuple(shapes),
            measures=tuple(measures),
            labels=tuple(labels),
            width=self.page.width,
            height=self.page.offset(end),
        )


def _base(vessel: Vessel, shop: Shop) -> Drawing:
    wall, thick = vessel.wall.nm, vessel.base_thickness.nm
    up = vessel.groove_up.nm if vessel.housed else -thick
    deep = vessel.groove_depth.nm if vessel.housed else 0
    top = min(max(up + thick, 0) + round(wall * 0.9), vessel.height.nm)
    low, inwards = min(up, 0), round(wall * 0.9)
    part = _Section(vessel, shop, wall + inwards, low, top)
    room = vessel.clearance.nm if vessel.housed else 0
    edge = wall - deep + room if vessel.housed else 0
    walls = [(0, 0), (wall, 0), (wall, top), (0, top)]
    if vessel.housed:
        step = [(wall - deep, up), (wall - deep, up + thick), (wall, up + thick)]
        lower = [(0, 0), (wall, 0), (wall, up)] if up else [(0, 0)]
        start = step if up else [(wall - deep, 0), *step[1:]]
        walls = [*lower, *start, (wall, top), (0, top)]
    wood = vessel.column(0)[0]
    shapes = [
        part.shape(walls, wood, "Wall"),
        part.box(edge, wall + inwards, up, up + thick, vessel.base_species, "Base"),
    ]
    right = part.at(wall + inwards, 0)[0]
    measures = [
        part.across(0, wall, low, part.floor + 8),
        part.up(wall + inwards, up, up + thick, right + 6),
    ]
    notes = [_base_told(vessel, part.page)]
    if vessel.housed:
        measures.append(part.across(wall - deep, wall, top, TOP - 4))
        if up:
            measures.append(part.up(0, 0, up, LEFT - 6))
    return part.drawing(
        "base_joint",
        "The base at the wall, cut upright",
        f"The front wall cut upright. {notes[0]}",
        shapes,
        measures,
        notes,
        19,
    )


def _base_told(vessel: Vessel, page: Page) -> str:
    show = page.show
    if not vessel.housed:
        return "The base lies under the walls, flush; fixed so that it can move."
    what = "A groove" if vessel.base == "groove" else "A rebate"
    share = f"{float(vessel.groove_depth.nm / vessel.wall.nm):.2g}"
    return (
        f"{what} {show(vessel.groove_depth)} deep, {share} of the wall; "
        f"{show(vessel.clearance)} of room before the base, which is not glued."
    )


def _lid(vessel: Vessel, shop: Shop) -> Drawing:
    lid, wall = vessel.lid, vessel.wall.nm
    high, lip, over = lid.thickness.nm, lid.lip.nm, lid.overhang.nm
    inwards = round(wall * 0.9) + lid.room.nm
    low = -max(round(lip * 1.5), lip + round(wall * 0.4))
    low = max(low, -vessel.height.nm)
    end = wall + inwards
    part = _Section(vessel, shop, end, low, high, over)
    edge = wall + lid.room.nm
    plate = [
        (-over, 0),
        (edge, 0),
        (edge, -lip),
        (end, -lip),
        (end, high),
        (-over, high),
    ]
    shapes = [part.box(0, wall, low, 0, vessel.column(0)[-1], "Wall")]
    if lid.kind == "rebate":
        shapes.append(part.shape(plate, lid.species, "Lid"))
    else:
        shapes.append(part.box(-over, end, 0, high, lid.species, "Lid"))
        shapes.append(part.box(edge, end, -lip, 0, lid.species, "Plug"))
    right = part.at(end, 0)[0]
    measures = [
        part.across(0, wall, low, part.floor + 8),
        part.up(-over, 0, high, LEFT - 6),
        part.up(end, -lip, 0, right + 6),
    ]
    if over:
        measures.append(part.across(-over, 0, high, TOP - 4))
    show = part.page.show
    kind = {
        "plug": "the plug is glued under the lid, grain along grain",
        "rebate": f"the rebate is {show(vessel.lid_rebate)} wide",
    }[lid.kind]
    notes = [f"{show(lid.room)} of room between plug and wall; {kind}."]
    return part.drawing(
        "lid_joint",
        "The lid on the wall, cut upright",
        f"The lid, {show(lid.thickness)} thick, lies on the wall and reaches "
        f"{show(lid.lip)} inside. {notes[0]}",
        shapes,
        measures,
        notes,
        19,
    )
