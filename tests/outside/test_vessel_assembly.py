"""Whole vessels sawn from their cut instructions alone, and stood together.

A general solid-geometry library makes every piece from what the parts, the set-ups
and the sizes say: slabs cut at the stop and bevelled at the tilt, plates sawn from
their square blank side by side on the gauge, grooves, rebates and slots taken away.
Nothing of the form's own solids is used. The sum of the pieces must be their union,
and that must be the solid which plane geometry gives in one line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import manifold3d
import pytest
from manifold3d import Manifold

from app.core.angle import Angle
from app.core.design import Design
from app.core.length import Length
from app.core.part import Part
from app.core.setup import SetUp
from tests.core.forms.grids import each
from tests.outside.test_vessel_geometry import sawn_wall

THIN = 1e-3  # a micrometre, in the millimetres that the library reckons in
XY = tuple[float, float]


@dataclass
class Told:
    """What a maker reads off a design."""

    design: Design

    def size(self, key: str) -> float:
        """A length in mm, or an angle in degrees."""
        value = next(one.value for one in self.design.sizes if one.key == key)
        if isinstance(value, Angle):
            return float(value.degrees)
        assert isinstance(value, Length)
        return value.nm / 1e6

    def typed(self, key: str) -> float:
        """An input as it was understood, mm."""
        return Length.read(self.design.inputs[key]).nm / 1e6

    def choice(self, key: str) -> str:
        return self.design.inputs[key]

    def part(self, key: str) -> Part:
        return next(part for part in self.design.parts if part.key == key)

    def set_up(self, key: str) -> SetUp:
        return next(one for one in self.design.set_ups if one.key == key)

    def has(self, key: str) -> bool:
        return any(part.key == key for part in self.design.parts)

    @property
    def sides(self) -> int:
        return int(self.design.inputs["sides"])

    @property
    def wall(self) -> Part:
        return next(one for one in self.design.parts if one.key.startswith("wall"))


def test_every_vessel_of_the_grid_is_the_solid_that_plane_geometry_gives() -> None:
    for typed, design in each("straight_vessel"):
        told = Told(design)
        pieces = stood_together(told)
        alone = sum(piece.volume() for piece in pieces)
        whole = Manifold.batch_boolean(pieces, manifold3d.OpType.Add)
        room = THIN * sum(piece.surface_area() for piece in pieces)
        assert abs(alone - whole.volume()) <= room, f"overlap: {typed}"
        assert abs(whole.volume() - closed_form(told)) <= room, f"volume: {typed}"
        listed = sum(
            part.volume * part.quantity for part in design.parts if not part.spare
        )
        assert abs(listed / 1e18 - alone) <= room, f"parts: {typed}"


def test_a_base_too_large_by_its_room_and_a_hair_is_found() -> None:
    told = Told(next(d for t, d in each("straight_vessel") if t["base"] == "groove"))
    grown = polygon(told, "base").scale((1.05, 1.05, 1))
    wall = stood_together(told)[0]
    placed = grown.translate((0, 0, told.typed("groove_up")))
    assert (wall ^ placed).volume() > 1


def stood_together(told: Told) -> list[Manifold]:
    sides, lift = told.sides, 0.0
    if told.choice("base") == "under":
        lift = told.typed("base_thickness")
    one, out = finished_wall(told), told.size("outside_inscribed") / 2
    placed = one.translate((0, -out, lift))
    found = [placed.rotate((0, 0, 360 * i / sides)) for i in range(sides)]
    if told.choice("base") != "none":
        groove = told.choice("base") == "groove"
        up = told.typed("groove_up") if groove else 0.0
        found.append(polygon(told, "base").translate((0, 0, up)))
    found += [piece.translate((0, 0, lift)) for piece in splines(told)]
    return found + lid(told, lift + told.wall.finished.width.nm / 1e6)


def finished_wall(told: Told) -> Manifold:
    """Cut at the stop, bevelled at the tilt, grooved at the fence, slotted."""
    size, bevel = told.wall.finished, told.set_up("bevel")
    long, high, thick = (
        one.nm / 1e6 for one in (size.length, size.width, size.thickness)
    )
    stop = told.set_up("cut-walls").stop
    assert stop == size.length
    tilt = told.size("edge_bevel")
    if bevel.tilt is not None:
        # In the tall jig the wall stands on its end, the blade leans the rest.
        in_jig = "tall jig" in bevel.cuts
        angle = float(bevel.tilt.degrees)
        assert tilt == pytest.approx(90 - angle if in_jig else angle, abs=1e-9)
    wall = sawn_wall(long, thick, high, tilt)
    if told.choice("base") in ("groove", "rebate"):
        fence = told.set_up("groove").fence
        assert fence is not None
        deep, wide = told.typed("groove_depth"), told.typed("base_thickness")
        cutter = Manifold.cube((4 * long, 2 * deep, wide))
        wall -= cutter.translate((-2 * long, thick - deep, fence.nm / 1e6))
    for place in slot_places(told):
        wall -= place.translate((0, told.size("outside_inscribed") / 2, 0))
    return wall


def rows(told: Told) -> list[float]:
    """Middles of the splines, evenly between the base and the upper edge."""
    count = int(told.choice("splines_per_corner"))
    high, low = told.wall.finished.width.nm / 1e6, 0.0
    if told.choice("base") in ("groove", "rebate"):
        low = told.typed("base_thickness")
        low += told.typed("groove_up") if told.choice("base") == "groove" else 0
    return [low + (high - low) * i / (count + 1) for i in range(1, count + 1)]


def wedge(told: Told, deep: float, thick: float) -> Manifold:
    """A triangle over the front right corner, ``deep`` along the line to the middle."""
    sides = told.sides
    half = deep / math.tan(math.pi / sides)
    around = told.size("outside_circumscribed") / 2
    points = [(around, 0.0), (around - deep, half), (around - deep, -half)]
    flat = manifold3d.CrossSection([points])
    return Manifold.extrude(flat, thick).rotate((0, 0, 180 / sides - 90))


def slot_places(told: Told) -> list[Manifold]:
    if not rows(told):
        return []
    deep, thick = told.size("spline_slot_depth"), told.typed("spline_thickness")
    found = []
    for middle in rows(told):
        one = wedge(told, deep, thick).translate((0, 0, middle - thick / 2))
        found += [one, one.rotate((0, 0, -360 / told.sides))]
    return found


def splines(told: Told) -> list[Manifold]:
    """Every spline as its part is outlined: long edge, depth, thickness."""
    found = []
    for middle in rows(told):
        size = next(
            part.finished for part in told.design.parts if part.key.startswith("spline")
        )
        deep, thick = size.width.nm / 1e6, size.thickness.nm / 1e6
        shown = 2 * deep / math.tan(math.pi / told.sides)
        assert shown == pytest.approx(size.length.nm / 1e6, abs=2e-6)
        one = wedge(told, deep, thick).translate((0, 0, middle - thick / 2))
        found += [one.rotate((0, 0, 360 * i / told.sides)) for i in range(told.sides)]
    return found


def polygon(told: Told, key: str) -> Manifold:
    """Sawn from its blank: side 1 the blank's edge, each next side at the gauge."""
    part, made = told.part(key), told.set_up(key)
    blank, thick = part.blank.length.nm / 1e6, part.finished.thickness.nm / 1e6
    mark = told.size(f"{key}_mark")
    gauge = told.size(f"{key}_gauge_angle")
    if made.gauge is not None:
        assert made.stop is not None
        assert made.stop.nm / 1e6 == mark
        assert float(made.gauge.degrees) == pytest.approx(gauge, abs=1e-9)
    turn = 90 + gauge if told.sides < 4 else 90 - gauge
    plate = Manifold.cube((blank, blank, thick)).translate((-blank / 2, 0, 0))
    x, y, way = mark / 2, 0.0, 0.0
    for _ in range(told.sides - 1):
        way += math.radians(turn)
        # Kept is what lies to the left of the way along the new side.
        left = (-math.sin(way), math.cos(way), 0.0)
        plate = plate.trim_by_plane(left, left[0] * x + left[1] * y)
        x, y = x + mark * math.cos(way), y + mark * math.sin(way)
    # The last cut meets side 1 where it began.
    assert (x, y) == pytest.approx((-mark / 2, 0), abs=1e-3 * THIN * blank)
    middle = mark / 2 / math.tan(math.pi / told.sides)
    return plate.translate((0, -middle, 0))


def lid(told: Told, top: float) -> list[Manifold]:
    """A plate with its plug, or one thick plate with its rebate cut at each side."""
    kind = told.choice("lid")
    if kind == "none":
        return []
    lip = told.typed("lid_lip")
    if kind == "plug":
        plug = polygon(told, "plug").translate((0, 0, top - lip))
        return [plug, polygon(told, "lid").translate((0, 0, top))]
    plate, wide = polygon(told, "lid"), told.size("lid_rebate_width")
    out = told.size("lid_inscribed") / 2
    long = 4 * out
    cutter = Manifold.cube((2 * long, long, lip)).translate(
        (-long, -long - out + wide, 0)
    )
    for i in range(told.sides):
        plate -= cutter.rotate((0, 0, 360 * i / told.sides))
    return [plate.translate((0, 0, top - lip))]


def area(inscribed: float, sides: int) -> float:
    return sides * inscribed**2 / 4 * math.tan(math.pi / sides)


def closed_form(told: Told) -> float:
    """Walls, base and lid as prisms; a spline fills its slot and adds nothing."""
    sides, high = told.sides, told.wall.finished.width.nm / 1e6
    inside = told.size("inside_inscribed")
    found = (area(told.size("outside_inscribed"), sides) - area(inside, sides)) * high
    base, thick = told.choice("base"), told.typed("base_thickness")
    if base in ("groove", "rebate"):
        floor = inside + 2 * told.typed("groove_depth")
        found -= (area(floor, sides) - area(inside, sides)) * thick
    if base != "none":
        found += area(told.size("base_inscribed"), sides) * thick
    if told.choice("lid") != "none":
        found += area(told.size("lid_inscribed"), sides) * told.typed("lid_thickness")
        found += area(told.size("plug_inscribed"), sides) * told.typed("lid_lip")
    return found
