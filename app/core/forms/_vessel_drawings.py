"""The straight vessel's drawings, in the order they are looked at."""

from __future__ import annotations

from app.core.drawing import Drawing
from app.core.forms._pattern_drawing import Flat, pattern_drawing
from app.core.forms._spline_drawing import spline_drawing
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_corner import corner
from app.core.forms._vessel_front import front
from app.core.forms._vessel_panels_drawing import unrolled
from app.core.forms._vessel_plan import plan
from app.core.forms._vessel_plate_drawings import plate_drawings
from app.core.forms._vessel_section import sections
from app.core.shop import Shop


def drawings(vessel: Vessel, shop: Shop) -> tuple[Drawing, ...]:
    """The whole, the joints at a larger scale, the panels, and what is cut out."""
    found = [plan(vessel, shop), front(vessel, shop), unrolled(vessel, shop)]
    if not vessel.pattern.same_all_round:
        found.append(_pattern(vessel, shop))
    found += [corner(vessel, shop), *sections(vessel, shop)]
    if vessel.splines:
        woods = vessel.column(0)[-1], vessel.column(1)[-1]
        found.append(spline_drawing(vessel.splines, shop, woods))
    for plate in vessel.plates:
        found += plate_drawings(plate, vessel, shop)
    return tuple(found)


def _pattern(vessel: Vessel, shop: Shop) -> Drawing:
    side = vessel.outside_side
    flat = Flat(vessel.pattern, side, side, vessel.widths, vessel.panels, "wall")
    return pattern_drawing(flat, shop, title="The walls laid flat")
