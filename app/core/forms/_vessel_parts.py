"""The straight vessel's parts, and the panels they are cut from."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from app.core import geometry
from app.core.forms._spline_work import spline_parts
from app.core.forms._strip_panels import Shares, side_parts
from app.core.forms._strip_panels import glue_ups as wall_panels
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_plate import Plate
from app.core.forms._vessel_walls import row_volumes
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.pattern import Column
from app.core.volume import share


def parts(vessel: Vessel) -> tuple[Part, ...]:
    """The walls with their spares, the base, the lid and the splines."""
    found = _walls(vessel)
    found += [_plate(vessel, plate) for plate in vessel.plates]
    if vessel.splines:
        found += spline_parts(vessel.splines, vessel.allow.of("spline"))
    return tuple(found)


def glue_ups(vessel: Vessel) -> tuple[GlueUp, ...]:
    """The wall panels where they have rows, then those of base and lid."""
    found = list(wall_panels(vessel.panels, vessel.cut, vessel.widths))
    found += [_plate_panel(one) for one in vessel.plates if one.panel_key]
    return tuple(found)


def _walls(vessel: Vessel) -> list[Part]:
    finished = Dimensions(vessel.outside_side, vessel.height, vessel.wall)
    over, cut = vessel.allow.of("wall"), vessel.cut
    volumes = row_volumes(vessel)
    plain = Part(
        key="wall",
        name="Wall",
        quantity=vessel.sides,
        species="",
        finished=finished,
        blank=replace(finished, thickness=cut.thickness)
        if vessel.glued
        else over.on(finished),
        outline=geometry.rectangle(finished.length, finished.width),
        solid=round(sum(volumes)),
    )

    def woods(column: Column) -> Shares:
        return _shares(column, volumes)

    found = list(side_parts(plain, vessel.panels, woods=woods))
    if cut.spares and vessel.glued:
        found.append(_spare_strip(vessel))
    return found


def _shares(column: Column, volumes: tuple[Fraction, ...]) -> Shares:
    """Each species' share in a wall, what was cut out of its rows left out."""
    whole, found = 0, dict.fromkeys(column, 0)
    for name, volume in zip(column, map(round, volumes), strict=True):
        found[name] += volume
        whole += volume
    return tuple((name, Fraction(volume, whole)) for name, volume in found.items())


def _spare_strip(vessel: Vessel) -> Part:
    """For trying the groove and the rip: as long as the panel, not glued in."""
    cut, panel = vessel.cut, vessel.longest_panel
    return Part(
        key="strip-spare",
        name="Spare strip",
        quantity=cut.spares,
        species=panel.column[0],
        finished=Dimensions(vessel.each_panel_length, vessel.strip_width, vessel.wall),
        blank=Dimensions(panel.length, cut.strip_width, cut.thickness),
        spare=True,
    )


def _plate(vessel: Vessel, plate: Plate) -> Part:
    long, wide = geometry.extent(plate.corners)
    blank, thick = plate.blank, plate.thickness
    return Part(
        key=plate.key,
        name=plate.name,
        quantity=1,
        species=plate.species,
        finished=Dimensions(long, wide, thick),
        blank=Dimensions(blank, blank, thick + plate.over.thickness),
        glue_up=plate.panel_key,
        outline=geometry.outline(plate.corners),
        solid=round(_plate_volume(vessel, plate)),
    )


def _plate_volume(vessel: Vessel, plate: Plate) -> Fraction:
    if plate.key == "lid" and vessel.lid.kind == "rebate":
        lip = geometry.area_of_inscribed(vessel.plug_inscribed, vessel.sides)
        lid = vessel.lid
        return plate.area * lid.thickness.nm + lip * lid.lip.nm
    return plate.area * plate.thickness.nm


def _plate_panel(plate: Plate) -> GlueUp:
    blank, count, over = plate.blank, plate.strip_count, plate.over
    thickness, length = plate.thickness + over.thickness, plate.blank + over.length
    width = plate.rough(blank / count + over.width)
    rough = Dimensions(length, width, thickness)
    strips = tuple(
        Strip(plate.species, len(list(same)), rough, Length(width))
        for width, same in groupby(share(blank.nm, [1] * count))
    )
    panel = Dimensions(length, blank, thickness)
    return GlueUp(plate.panel_key, f"{plate.name} panel", 1, strips, panel)
