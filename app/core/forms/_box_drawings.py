"""Every drawing of a box, in the order a maker wants them."""

from __future__ import annotations

from app.core.drawing import Drawing
from app.core.forms._box import Box
from app.core.forms._box_elevation_drawing import elevation, finger_detail
from app.core.forms._box_inner_drawings import (
    dividers_drawn,
    finger_template,
    lid_section,
)
from app.core.forms._box_inside_drawing import inside
from app.core.forms._box_plan_drawing import corner, plan
from app.core.forms._spline_drawing import spline_drawing
from app.core.shop import Shop


def drawings(box: Box, shop: Shop) -> tuple[Drawing, ...]:
    """Plan, elevations, joint, walls laid flat, dividers, lid, template."""
    found = [plan(box, shop), elevation(box, 0, shop), elevation(box, 1, shop)]
    found.append(
        finger_detail(box, box.fingers, shop) if box.fingers else corner(box, shop)
    )
    if box.splines:
        top = box.pattern.column(0)[-1], box.pattern.column(1)[-1]
        found.append(spline_drawing(box.splines, shop, top))
    found += [inside(box, 2, shop), inside(box, 3, shop)]
    if box.dividers:
        for way, held in (
            ("across", box.dividers.across),
            ("along", box.dividers.along),
        ):
            if held.starts:
                found.append(dividers_drawn(box, box.dividers, way, shop))
    if box.lid:
        found.append(lid_section(box, box.lid, shop))
    if box.fingers:
        printed = finger_template(box, box.fingers, shop)
        found += [printed] if printed else []
    return tuple(found)
