"""The straight vessel's glue lines, what a finish covers, what the air moves."""

from __future__ import annotations

from fractions import Fraction

from app.core import geometry
from app.core.design import Joint, Moving
from app.core.forms._spline_work import spline_joint
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_plate import Plate
from app.core.length import Length
from app.core.part import GlueUp


def joints(vessel: Vessel, glue_ups: tuple[GlueUp, ...]) -> tuple[Joint, ...]:
    """Every glue line, alike ones together."""
    found = [_panel_joint(one) for one in glue_ups]
    found.append(Joint("corner mitres", _mitres(vessel), end_grain=True))
    if vessel.splines:
        found.append(spline_joint(vessel.splines))
    if vessel.lid.kind == "plug":
        found.append(Joint("plug under the lid", round(vessel.plate("plug").area)))
    return tuple(found)


def _panel_joint(glue_up: GlueUp) -> Joint:
    lines = sum(strip.quantity for strip in glue_up.strips) - 1
    panel = glue_up.panel
    area = lines * panel.length.nm * panel.thickness.nm * glue_up.quantity
    return Joint(f"strips in the {glue_up.name.lower()}", area)


def _mitres(vessel: Vessel) -> int:
    """All corners, without what the groove and the slots have taken, nm²."""
    corner = vessel.corner_thickness.nm * vessel.height.nm
    if vessel.housed:
        groove = vessel.groove_depth.nm / geometry.cos(vessel.sides)
        corner -= round(groove * vessel.base_thickness.nm)
    if vessel.splines:
        slots = len(vessel.splines.heights) * vessel.splines.thickness.nm
        corner -= vessel.splines.depth.nm * slots
    return vessel.sides * corner


def finish_area(vessel: Vessel) -> int:
    """All that a finish covers, nm²: what stays in a groove or in glue is left out."""
    sides, high = vessel.sides, vessel.height.nm
    outside = _area(vessel.outside_inscribed, sides)
    inside = _area(vessel.inside_inscribed, sides)
    hidden = vessel.base_thickness.nm if vessel.housed else 0
    found: Fraction = Fraction(sides * vessel.outside_side.nm * high)
    found += sides * vessel.inside_side.nm * (high - hidden)
    # The upper and the lower end: rims, and a base seen from above and below.
    found += 2 * (outside - inside)
    if vessel.has_base:
        found += 2 * inside
    if vessel.base == "under":
        found += _edges(vessel.plate("base"))
    if vessel.has_lid:
        found += 2 * vessel.plate("lid").area
        found += (
            sides
            * geometry.side_of_inscribed(vessel.lid_inscribed, sides).nm
            * (vessel.lid.thickness.nm)
        )
        plug = geometry.side_of_inscribed(vessel.plug_inscribed, sides)
        found += sides * plug.nm * vessel.lid.lip.nm
    return round(found)


def _area(inscribed: Length, sides: int) -> Fraction:
    return geometry.area_of_inscribed(inscribed, sides)


def _edges(plate: Plate) -> int:
    return plate.sides * plate.side.nm * plate.thickness.nm


def moving(vessel: Vessel) -> tuple[Moving, ...]:
    """Sizes across the grain: the base, the lid, the height of the walls."""
    found = []
    if vessel.has_base:
        found.append(
            Moving(
                "base",
                "Base, across its grain",
                vessel.base_species,
                vessel.base_inscribed,
                room=vessel.clearance * 2 if vessel.housed else None,
                input="base_clearance" if vessel.housed else "",
            )
        )
    if vessel.has_lid:
        lid = vessel.lid
        across = vessel.lid_inscribed
        found.append(Moving("lid", "Lid, across its grain", lid.species, across))
        found.append(
            Moving(
                "lid_plug",
                "What drops inside, across its grain",
                lid.species,
                vessel.plug_inscribed,
                room=lid.room * 2,
                input="lid_room",
            )
        )
    return (*found, *_rows(vessel))


def _rows(vessel: Vessel) -> list[Moving]:
    """What each wood has in the height of the first wall: its grain runs round."""
    found: dict[str, Length] = {}
    for name, width in zip(vessel.column(0), vessel.widths, strict=True):
        found[name] = found.get(name, Length(0)) + width
    several = len(found) > 1
    return [
        Moving(
            f"walls_{i}" if i > 1 else "walls",
            "Height of the walls" + (f" in {name}" if several else ""),
            name,
            size,
        )
        for i, (name, size) in enumerate(found.items(), 1)
    ]
