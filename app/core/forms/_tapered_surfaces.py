"""The tapered vessel's surfaces: what is glued, what is finished, what moves."""

from __future__ import annotations

import math

from app.core import geometry
from app.core.design import Joint, Moving
from app.core.forms._tapered import Tapered


def joints(vessel: Tapered) -> tuple[Joint, ...]:
    """Every glue line: the corners, the strips of the panels, a glued base."""
    found = [Joint("corner mitres", mitre_area(vessel) * vessel.sides, True)]
    if vessel.glued:
        rows, thick = len(vessel.pattern.rows), vessel.cut.thickness.nm
        area = sum(
            panel.length.nm * panel.quantity * (rows - 1) * thick
            for panel in vessel.panels
        )
        found.append(Joint("strips of the wall panels", area))
    if vessel.has_base and vessel.base_strip_count > 1:
        lines, over = vessel.base_strip_count - 1, vessel.allowed.of("base")
        long = (vessel.base_blank + over.length).nm
        thick = (vessel.base_thickness + over.thickness).nm
        found.append(Joint("strips of the base", lines * long * thick))
    if vessel.base == "glued":
        found.append(Joint("base to the walls", _base_edges(vessel)))
    return tuple(found)


def mitre_area(vessel: Tapered) -> int:
    """One mitre face, nm²: the wall's section, cut at tilt and gauge."""
    square = vessel.slant.nm * vessel.wall.nm
    slanted = math.cos(vessel.tilt.radians) * math.cos(vessel.gauge.radians)
    return round(square / slanted)


def _base_edges(vessel: Tapered) -> int:
    """All bevelled edges of the base, nm²."""
    below, above = vessel.base_faces
    mean = (below + above).nm * vessel.part / 2
    return round(vessel.sides * mean * vessel.base_thickness.nm / vessel.cos)


def finish_area(vessel: Tapered) -> int:
    """Both faces and both edges of every wall, and both faces of the base, nm²."""
    tops = (vessel.face_top + vessel.inner_top).nm
    bottoms = (vessel.face_bottom + vessel.inner_bottom).nm
    faces = (tops + bottoms) * vessel.slant.nm / 2
    # An edge is as wide as the section's end: more than the wall where it is level.
    thick = vessel.wall.nm / (float(vessel.cos) if vessel.level else 1.0)
    edges = (tops + bottoms) * thick / 2
    area = vessel.sides * (faces + edges)
    if vessel.has_base:
        for across in vessel.base_faces:
            area += geometry.area_of_inscribed(across, vessel.sides)
    return round(area)


def moving(vessel: Tapered) -> tuple[Moving, ...]:
    """What the air changes across the grain, and the room it has."""
    found = [
        Moving(
            "wall",
            "Width of a wall, up the slope",
            vessel.pattern.species[0],
            vessel.slant,
            woods=vessel.pattern.shares(),
        )
    ]
    if vessel.has_base:
        room = {"loose": vessel.clearance * 2, "glued": vessel.room}.get(vessel.base)
        found.append(
            Moving(
                "base",
                "Base, across its grain",
                vessel.base_species,
                vessel.base_inscribed,
                room=room,
                input="base_clearance" if vessel.base == "loose" else "base",
            )
        )
    return tuple(found)
