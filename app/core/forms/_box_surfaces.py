"""What is glued, what is finished and what moves in a box."""

from __future__ import annotations

import math

from app.core.design import Joint, Moving
from app.core.forms._box import Box, Lid
from app.core.forms._spline_work import spline_joint
from app.core.part import GlueUp


def joints(box: Box, panels: tuple[GlueUp, ...]) -> tuple[Joint, ...]:
    """Every glue line of the build."""
    found = [
        Joint(
            f"strips of the {panel.name.lower()}",
            (sum(strip.quantity for strip in panel.strips) - 1)
            * panel.panel.length.nm
            * panel.panel.thickness.nm
            * panel.quantity,
        )
        for panel in panels
    ]
    found += _corners(box)
    if box.splines:
        found.append(spline_joint(box.splines))
    if box.lid_groove:
        # The strip is glued to the middle third of the lid's end.
        third = (box.groove_depth.nm + _thick(box)) * box.inside_width.nm // 3
        found.append(Joint("strip on the lid", third))
    if box.plywood and box.base != "groove":
        found.append(Joint("base", _rim(box)))
    return tuple(found)


def _thick(box: Box) -> int:
    return box.lid.size.thickness.nm if box.lid else 0


def _rim(box: Box) -> int:
    """Where a base lies against the walls."""
    return box.base_size.length.nm * box.base_size.width.nm - (
        box.inside_length.nm * box.inside_width.nm
    )


def _corners(box: Box) -> list[Joint]:
    wall, high = box.wall.nm, box.wall_height.nm
    if box.fingers:
        faces = (box.fingers.count - 1) * wall**2
        return [
            Joint("cheeks of the fingers", 4 * faces),
            # Each finger also ends against the other wall's face or end.
            Joint("shoulders of the fingers", 4 * wall * high),
        ]
    if box.joint == "rebate":
        deep = box.rebate_depth.nm
        return [Joint("corner rebates", 4 * (wall + deep) * high)]
    return [Joint("mitres", 4 * round(wall * math.sqrt(2)) * high, end_grain=True)]


def finish_area(box: Box) -> int:
    """All that a finish covers, inside and outside, nm²."""
    long, wide = box.length.nm, box.width.nm
    inside = box.inside_length.nm, box.inside_width.nm
    total = 2 * (long + wide) * box.wall_height.nm
    total += 2 * (inside[0] + inside[1]) * (box.wall_height - box.base_top).nm
    total += 2 * box.wall.nm * (inside[0] + inside[1] + 2 * box.wall.nm)
    total += 2 * inside[0] * inside[1]
    if box.lid:
        size = box.lid.size
        total += 2 * size.length.nm * size.width.nm
        total += 2 * (size.length.nm + size.width.nm) * size.thickness.nm
    if box.dividers:
        for held in (box.dividers.across, box.dividers.along):
            faces = 2 * held.length.nm * box.dividers.height.nm
            total += len(held.starts) * faces
    return total


def moving(box: Box) -> tuple[Moving, ...]:
    """Every size across the grain that matters."""
    found = [
        Moving(
            "wall_height",
            "Height of the walls",
            box.pattern.rows[0][0],
            box.wall_height,
            woods=box.pattern.shares(),
        )
    ]
    if not box.plywood:
        found.append(_base(box))
    if box.lid:
        found.append(_lid(box.lid))
    return tuple(found)


def _base(box: Box) -> Moving:
    held = box.base != "under"
    return Moving(
        "base_width",
        "Width of the base",
        box.base_species,
        box.base_size.width,
        room=box.clearance * 2 if held else None,
        input="base_clearance" if held else "",
    )


def _lid(lid: Lid) -> Moving:
    """What lies between walls; on battens a lid lies free above them."""
    within, plugged = lid.kind != "battened", lid.kind == "rebated"
    return Moving(
        "lid_width",
        "Width of the lid" + (" inside" if plugged else ""),
        lid.species,
        lid.plug[1] if plugged else lid.size.width,
        room=lid.room * 2 if within else None,
        input="lid_room" if within else "",
    )
