"""The straight vessel's parts, and the panels they are cut from."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from app.core import geometry
from app.core.forms._vessel import Vessel
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Grain, Part, Strip
from app.core.shop import Shop
from app.core.volume import share

WALL_PANEL = "wall_panel"
BASE_PANEL = "base_panel"


def parts(vessel: Vessel, shop: Shop) -> tuple[Part, ...]:
    """The walls, the base and the splines."""
    found = [_wall(vessel, shop)]
    if vessel.has_base:
        found.append(_base(vessel, shop))
    if vessel.splines:
        found.append(_spline(vessel, shop))
    return tuple(found)


def glue_ups(vessel: Vessel, shop: Shop) -> tuple[GlueUp, ...]:
    """The wall panel where it has rows, the base panel where it has strips."""
    found = []
    if len(vessel.rows) > 1:
        found.append(_wall_panel(vessel, shop))
    if vessel.has_base and vessel.base_strip_count > 1:
        found.append(_base_panel(vessel, shop))
    return tuple(found)


def wall_volume(vessel: Vessel) -> int:
    """One finished wall in nm³: mitred, with groove and spline slots taken out."""
    sides, side, wall = vessel.sides, vessel.outside_side, vessel.wall
    volume = geometry.mitred_slab(side, wall, sides) * vessel.height.nm
    if vessel.housed:
        depth = vessel.groove_depth
        floor = geometry.mitred_slab(side, wall - depth, sides)
        groove = geometry.mitred_slab(side, wall, sides) - floor
        volume -= groove * vessel.base_thickness.nm
    # Each wall has half a slot at either end of every spline.
    return round(volume - vessel.splines * _spline_volume(vessel))


def _spline_volume(vessel: Vessel) -> Fraction:
    face = vessel.spline_depth.nm**2 / geometry.tan(vessel.sides)
    return face * vessel.spline_thickness.nm


def _wall(vessel: Vessel, shop: Shop) -> Part:
    finished = Dimensions(vessel.outside_side, vessel.height, vessel.wall)
    species = tuple(dict.fromkeys(name for name, _ in vessel.rows))
    glued = len(vessel.rows) > 1
    blank = Dimensions(
        vessel.outside_side if glued else vessel.outside_side + shop.over_length,
        vessel.height if glued else vessel.height + shop.over_width,
        vessel.wall + shop.over_thickness,
    )
    return Part(
        key="wall",
        name="Wall",
        quantity=vessel.sides,
        species=", ".join(species),
        finished=finished,
        blank=blank,
        glue_up=WALL_PANEL if glued else "",
        outline=geometry.rectangle(finished.length, finished.width),
        solid=wall_volume(vessel),
    )


def _base(vessel: Vessel, shop: Shop) -> Part:
    points = geometry.corners(vessel.sides, vessel.base_side)
    long, wide = geometry.extent(points)
    thick = vessel.base_thickness
    area = geometry.area_of_inscribed(vessel.base_inscribed, vessel.sides)
    blank = vessel.base_blank
    return Part(
        key="base",
        name="Base",
        quantity=1,
        species=vessel.base_species,
        finished=Dimensions(long, wide, thick),
        blank=Dimensions(blank, blank, thick + shop.over_thickness),
        glue_up=BASE_PANEL if vessel.base_strip_count > 1 else "",
        outline=geometry.outline(points),
        solid=round(area * thick.nm),
    )


def _spline(vessel: Vessel, shop: Shop) -> Part:
    long, deep, none = vessel.spline_long, vessel.spline_depth, Length(0)
    thick = vessel.spline_thickness
    return Part(
        key="spline",
        name="Spline",
        quantity=vessel.sides * vessel.splines,
        species=vessel.spline_species,
        finished=Dimensions(long, deep, thick),
        blank=Dimensions(
            vessel.rough(long + shop.over_length / 2),
            vessel.rough(deep + shop.over_width),
            thick + shop.over_thickness,
        ),
        grain=Grain.LENGTH,
        outline=((none, none), (long, none), (long / 2, deep)),
        solid=round(_spline_volume(vessel)),
    )


def _wall_panel(vessel: Vessel, shop: Shop) -> GlueUp:
    length = vessel.each_panel_length + shop.over_length
    thickness = vessel.wall + shop.over_thickness
    width = vessel.strip_width + shop.over_width
    strips = tuple(
        Strip(name, len(list(rows)), Dimensions(length, width, thickness), finished)
        for (name, finished), rows in groupby(vessel.rows)
    )
    panel = Dimensions(length, vessel.height, thickness)
    return GlueUp(WALL_PANEL, "Wall panel", vessel.panels, strips, panel)


def _base_panel(vessel: Vessel, shop: Shop) -> GlueUp:
    blank, count = vessel.base_blank, vessel.base_strip_count
    thickness = vessel.base_thickness + shop.over_thickness
    length = blank + shop.over_length
    rough = Dimensions(length, vessel.rough(blank / count + shop.over_width), thickness)
    strips = tuple(
        Strip(vessel.base_species, len(list(same)), rough, Length(width))
        for width, same in groupby(share(blank.nm, [1] * count))
    )
    panel = Dimensions(length, blank, thickness)
    return GlueUp(BASE_PANEL, "Base panel", 1, strips, panel)
