"""Box: four walls with fingers, rebates or mitres, a base, a lid, dividers."""

from __future__ import annotations

from app.core import closing
from app.core.allowance import Allowances
from app.core.design import Design
from app.core.forms._box import Box
from app.core.forms._box_build import assembly
from app.core.forms._box_drawings import drawings
from app.core.forms._box_inputs import (
    BASE_GROUP,
    DIVIDER_GROUP,
    LID_GROUP,
    SHAPE_GROUP,
    Inputs,
)
from app.core.forms._box_panels import panels
from app.core.forms._box_parts import Maker, allowances
from app.core.forms._box_resolve import resolve
from app.core.forms._box_setups import panel_set_ups, spline_set_ups, works
from app.core.forms._box_sizes import sizes
from app.core.forms._box_steps import steps
from app.core.forms._box_surfaces import finish_area, joints, moving
from app.core.forms._box_wall_panels import wall_way
from app.core.forms._box_warnings import warnings
from app.core.forms._box_within_sizes import divider_table, finger_table
from app.core.forms._box_work import Work
from app.core.forms._common import CLOSING_GROUP, FINISH_GROUP, WOOD_GROUP
from app.core.forms._panel_tables import panel_tables
from app.core.forms._patterned import PATTERN_GROUP
from app.core.forms._spline_work import spline_table
from app.core.forms._splined import SPLINE_GROUP, understood_splines
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.table import Table

TITLE = "Box"
SUMMARY = (
    "A box with finger, rebated or mitred corners, its base in a groove, with a "
    "lift-off or sliding lid and dividers, as you like."
)
IMPERIAL = {"length": "8 in", "width": "5 in", "height": "3 1/4 in"}
METRIC = {
    "length": "200 mm",
    "width": "120 mm",
    "height": "78 mm",
    "wall": "12 mm",
    "cutter": "6 mm",
    "base_thickness": "6 mm",
    "groove_up": "6 mm",
}
JOINTS = {
    "finger": "finger joints",
    "rebate": "rebated corners",
    "mitre": "mitred corners",
}
GROUPS = {
    "Shape and joint": SHAPE_GROUP,
    "Wood of the walls": (*PATTERN_GROUP, "kerf", *WOOD_GROUP),
    "Base": BASE_GROUP,
    "Lid": LID_GROUP,
    "Dividers": DIVIDER_GROUP,
    "Splines across mitres": SPLINE_GROUP,
    "How sure are the mitres": CLOSING_GROUP,
    "Finish": FINISH_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    return METRIC if unit is Unit.MILLIMETRE else IMPERIAL


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the box needs, from its inputs.

    Raises WorkshopError, naming the input, for a box that cannot be built.
    """
    box = resolve(inputs, shop)
    over = allowances(box, inputs.over_size, shop)
    made = Maker(box, over).parts()
    glued = panels(box, over, made)
    work = works(box, shop)
    machines = _set_ups(box, glued, work, shop)
    return Design(
        form="box",
        title=f"Box with {JOINTS[box.joint]}",
        inputs=_understood(inputs, box, shop),
        sizes=sizes(box, inputs, over, shop),
        parts=made,
        glue_ups=glued,
        set_ups=machines,
        steps=steps(box, inputs, made, glued, work, machines, shop),
        warnings=warnings(box, inputs, shop),
        tables=_tables(box, inputs, over, shop),
        joints=joints(box, glued),
        moving=moving(box),
        finish_area=finish_area(box),
        draw=lambda: drawings(box, shop),
        build=lambda: assembly(box),
    )


def _set_ups(
    box: Box, glued: tuple[GlueUp, ...], work: list[Work], shop: Shop
) -> tuple[SetUp, ...]:
    """In the order of work."""
    return (
        *panel_set_ups(glued, shop),
        *(one.set_up for one in work),
        *spline_set_ups(box, shop),
    )


def _tables(
    box: Box, inputs: Inputs, over: Allowances, shop: Shop
) -> tuple[Table, ...]:
    found = []
    if box.fingers:
        found.append(finger_table(box.fingers, shop))
    if box.dividers:
        found.append(divider_table(box, box.dividers, shop))
    if len(box.rows) > 1:
        found += panel_tables((wall_way(box, over.of("wall_panel")),), shop, "Wall")
    if box.splines:
        found.append(spline_table(box.splines, box.kerf, shop))
    if box.joint == "mitre":
        lengths = (box.length, box.width) * 2
        gap = inputs.widest_gap
        found.append(
            closing.table(box.length, 4, shop, lengths=lengths, widest_gap=gap)
        )
    return tuple(found)


def _understood(inputs: Inputs, box: Box, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    unit = shop.unit
    found = {
        item.key: typed(getattr(inputs, item.key), unit)
        for item in listed(Inputs, unit)
    }
    found |= understood_splines(inputs, box.splines)
    found["kerf"] = typed(box.kerf, unit)
    found["groove_depth"] = typed(box.groove_depth, unit)
    found["rebate_depth"] = typed(box.rebate_depth, unit)
    found["base_clearance"] = typed(box.clearance, unit)
    found["base_species"] = box.base_species
    found["base_strips"] = str(box.base_strips)
    if box.lid:
        found["lid_species"] = box.lid.species
        found["lid_strips"] = str(box.lid.strips)
        if not box.lid.groove:
            found["lid_lip"] = typed(box.lid.lip, unit)
    if box.dividers:
        found["divider_height"] = typed(box.dividers.height, unit)
        found["divider_species"] = box.dividers.species
        if box.dividers.dado:
            found["dado_depth"] = typed(box.dividers.dado, unit)
    return found
