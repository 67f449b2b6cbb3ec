"""The box's parts."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from fractions import Fraction

from app.core import geometry
from app.core.allowance import Allowances, Over, read
from app.core.forms._box import Box, Dividers, Lid
from app.core.forms._box_wall_panels import wall_lots, wall_panels
from app.core.forms._box_walls import Wall
from app.core.forms._spline_work import spline_parts
from app.core.forms._strip_panels import panel_key
from app.core.geometry import Outline
from app.core.length import Length
from app.core.part import Dimensions, Grain, Part
from app.core.shop import Shop

WALLS = ("side", "end", "lowered_end", "lid_strip")
KEYS = (
    *WALLS,
    *("base", "lid", "batten", "divider_across", "divider_along", "spline"),
)
NAMES = {
    "side": "Side",
    "end": "End",
    "lowered_end": "Lowered end",
    "lid_strip": "Strip on the lid",
}
PLACES = ("front", "right", "back", "left")
BASE_PANEL, LID_PANEL = "base_panel", "lid_panel"


def stood_walls(box: Box) -> tuple[Wall, ...]:
    """Every wall; with a sliding lid the right end in two, the lower one first."""
    top = box.wall_height.nm
    found = []
    for number in range(4):
        if number == 1 and box.lid_groove:
            cut = box.lid_groove.low.nm
            found += [Wall(box, 1, 0, cut), Wall(box, 1, cut, top)]
        else:
            found.append(Wall(box, number, 0, top))
    return tuple(found)


def _kind(wall: Wall) -> str:
    if wall.low:
        return "lid_strip"
    if wall.high < wall.box.wall_height.nm:
        return "lowered_end"
    return "end" if wall.number % 2 else "side"


def part_keys(box: Box) -> dict[Wall, str]:
    """Each wall with the key of its part; opposite walls from one panel are one."""
    lots = [lot for _, lot in wall_lots(box)] if len(box.rows) > 1 else [(0, 1, 2, 3)]
    found = {}
    for wall in stood_walls(box):
        kind, opposite = _kind(wall), (wall.number + 2) % 4
        differs = not any(wall.number in lot and opposite in lot for lot in lots)
        halved = kind == "side" or (kind == "end" and not box.lid_groove)
        found[wall] = f"{kind}_{PLACES[wall.number]}" if differs and halved else kind
    return found


def allowances(box: Box, text: str | None, shop: Shop) -> Allowances:
    """The shop's allowances with what the design says of its parts and panels."""
    keys = (*KEYS, "wall_panel", BASE_PANEL, LID_PANEL)
    return read(text, (*dict.fromkeys((*part_keys(box).values(), *keys)),), shop)


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes the parts of one box with its allowances."""

    box: Box
    over: Allowances

    def parts(self) -> tuple[Part, ...]:
        """Every part, the walls first; spares after what they are spares of."""
        box = self.box
        found = [*self._walls(), self._base()]
        if box.lid:
            found += self._lid(box.lid)
        if box.dividers:
            found += self._dividers(box.dividers)
        if box.splines:
            found += spline_parts(box.splines, self.over.of("spline"))
        return tuple(found)

    def _walls(self) -> list[Part]:
        keys = part_keys(self.box)
        counts: dict[str, int] = {}
        for key in keys.values():
            counts[key] = counts.get(key, 0) + 1
        found: list[Part] = []
        for wall, key in keys.items():
            if any(part.key == key for part in found):
                continue
            part = self._wall(wall, key, counts[key])
            found.append(part)
            if key.startswith("end") and self.box.spares:
                found += self._spare(part, found)
        return found

    def _spare(self, part: Part, found: list[Part]) -> list[Part]:
        if any(one.spare for one in found):
            return []
        count = self.box.spares
        return [
            replace(part, key="end-spare", name="Spare end", quantity=count, spare=True)
        ]

    def _wall(self, wall: Wall, key: str, quantity: int) -> Part:
        box = self.box
        finished = Dimensions(
            box.cut_length(wall.number), Length(wall.high - wall.low), box.wall
        )
        woods = _woods(wall)
        whole = sum(woods.values())
        kind = _kind(wall)
        panel = len(box.rows) > 1 and kind != "lid_strip"
        place = key.removeprefix(kind).replace("_", " ")
        return Part(
            key=key,
            name=NAMES[kind] + place,
            quantity=quantity,
            species=", ".join(woods),
            finished=finished,
            blank=self._wall_blank(wall, finished, panel),
            glue_up=self._panel_of(wall.number) if panel else "",
            outline=outline(wall),
            solid=round(Fraction(whole, 2)),
            woods=tuple((name, Fraction(part, whole)) for name, part in woods.items())
            if len(woods) > 1
            else (),
        )

    def _panel_of(self, number: int) -> str:
        panels = wall_panels(self.box, self.over.of("wall_panel"))
        panel = next(one for one in panels if number in one.sides)
        return panel_key(panels, panel)

    def _wall_blank(self, wall: Wall, finished: Dimensions, panel: bool) -> Dimensions:
        sawn = self.box.sawn_length(wall.number)
        over = self.over.of(part_keys(self.box)[wall])
        if not panel:
            blank = over.on(finished)
            return replace(blank, length=max(blank.length, sawn))
        # Length and width lie in the panel, whose kerfs and trim are its own.
        thick = finished.thickness + self.over.of("wall_panel").thickness
        return Dimensions(sawn, self.box.wall_height, thick)

    def _base(self) -> Part:
        box = self.box
        over = self.over.of("base")
        if box.plywood:
            # A sheet comes at its thickness: nothing is planed off it.
            over = replace(over, thickness=Length(0))
        return _board(
            "base",
            "Base",
            box.base_size,
            box.base_species,
            over,
            BASE_PANEL if box.base_strips > 1 else "",
            Grain.NONE if box.plywood else Grain.LENGTH,
        )

    def _lid(self, lid: Lid) -> list[Part]:
        panel = LID_PANEL if lid.strips > 1 else ""
        over = self.over.of("lid")
        made = _board("lid", "Lid", lid.size, lid.species, over, panel)
        if lid.kind == "rebated":
            thick = lid.size.thickness - lid.lip
            solid = made.finished.length.nm * made.finished.width.nm * thick.nm
            solid += lid.plug[0].nm * lid.plug[1].nm * lid.lip.nm
            made = replace(made, solid=solid)
        if lid.kind != "battened":
            return [made]
        over = self.over.of("batten")
        batten = _board("batten", "Batten", lid.batten, lid.species, over)
        return [made, replace(batten, quantity=2)]

    def _dividers(self, dividers: Dividers) -> list[Part]:
        found = []
        for key, held, other in (
            ("divider_across", dividers.across, dividers.along),
            ("divider_along", dividers.along, dividers.across),
        ):
            if not held.starts:
                continue
            across = key == "divider_across"
            size = Dimensions(held.length, dividers.height, dividers.thickness)
            deep = dividers.slot_down if across else dividers.slot_up
            slots = len(other.starts) * dividers.slot.nm * deep.nm
            part = _board(
                key,
                "Divider across" if across else "Divider along",
                size,
                dividers.species,
                self.over.of(key),
            )
            made = replace(
                part,
                quantity=len(held.starts),
                solid=size.volume - slots * size.thickness.nm,
                outline=divider_outline(self.box, dividers, across),
            )
            found.append(made)
        return found


def _woods(wall: Wall) -> dict[str, int]:
    """Twice each wood's volume in a wall, the slots for splines taken out."""
    box, found = wall.box, wall.by_species
    if not box.splines or wall.low:
        return found
    deep, half = box.splines.depth.nm, box.splines.thickness.nm // 2
    thick = box.splines.thickness.nm
    column = box.pattern.column(wall.number)
    for height in box.splines.heights:
        start, floor = height.nm - half, 0
        for name, row in zip(column, box.rows, strict=True):
            top = floor + row.nm
            share = min(start + thick, top) - max(start, floor)
            if share > 0:
                # Half a slot at either end.
                found[name] -= 2 * deep**2 * share
            floor = top
    return found


def _board(
    key: str,
    name: str,
    finished: Dimensions,
    species: str,
    over: Over,
    glue_up: str = "",
    grain: Grain = Grain.LENGTH,
) -> Part:
    return Part(
        key=key,
        name=name,
        quantity=1,
        species=species,
        finished=finished,
        blank=over.on(finished),
        grain=grain,
        glue_up=glue_up,
        outline=geometry.rectangle(finished.length, finished.width),
    )


def outline(wall: Wall) -> Outline:
    """The outer face, seen from outside, up the right end and down the left."""
    box, out = wall.box, wall.box.outer(wall.number).nm
    right: list[tuple[int, int]] = []
    for z in _outer_levels(wall):
        start = wall.start(z, 0, 0)
        right += [(out - start, z[0] - wall.low), (out - start, z[1] - wall.low)]
    least = (out - box.cut_length(wall.number).nm) // 2
    left = [(out - u, z) for u, z in reversed(right)]
    points = [(u - least, z) for u, z in (*right, *left)]
    kept = [
        point
        for i, point in enumerate(points)
        if not (points[i - 1][0] == point[0] == points[(i + 1) % len(points)][0])
        and point != points[i - 1]
    ]
    return tuple((Length(u), Length(z)) for u, z in kept)


def _outer_levels(wall: Wall) -> list[tuple[int, int]]:
    marks = wall.box.fingers.marks if wall.box.fingers else ()
    inner = [mark for mark in marks if wall.low < mark < wall.high]
    levels = [wall.low, *inner, wall.high]
    return list(itertools.pairwise(levels))


def divider_outline(box: Box, dividers: Dividers, across: bool) -> Outline:
    """A divider's face, seen from the front or from the right, with its slots."""
    held, other = dividers.across, dividers.along
    room = box.inside_width
    if not across:
        held, other, room = other, held, box.inside_length
    long, high = held.length.nm, dividers.height.nm
    # Its own end lies so far beyond, or short of, the wall's inside face.
    reach = (long - room.nm) // 2
    edge: list[tuple[int, int]] = []
    deep = (dividers.slot_down if across else dividers.slot_up).nm
    for start in other.starts:
        low = reach + start.nm - dividers.room.nm // 2
        top = low + dividers.slot.nm
        edge += [(low, 0), (low, deep), (top, deep), (top, 0)]
    if across:
        # The slots come down from the top; y runs up.
        points = [(0, 0), (long, 0), (long, high)]
        points += [(x, high - y) for x, y in reversed(edge)] + [(0, high)]
    else:
        points = [(0, 0), *edge, (long, 0), (long, high), (0, high)]
    return tuple((Length(x), Length(y)) for x, y in points)
