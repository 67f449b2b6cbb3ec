"""Straight vessel: mitred walls round a polygon, with or without base and lid."""

from __future__ import annotations

from app.core import closing
from app.core.design import Design
from app.core.forms._common import CLOSING_GROUP, FINISH_GROUP, WOOD_GROUP
from app.core.forms._panel_tables import panel_tables
from app.core.forms._patterned import PATTERN_GROUP, pattern_warnings
from app.core.forms._spline_work import spline_table
from app.core.forms._splined import SPLINE_GROUP, understood_splines
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_amounts import finish_area, joints, moving
from app.core.forms._vessel_build import assembly
from app.core.forms._vessel_drawings import drawings
from app.core.forms._vessel_inputs import ACROSS, BASE_GROUP, LID_GROUP, Inputs
from app.core.forms._vessel_parts import glue_ups, parts
from app.core.forms._vessel_resolve import resolve
from app.core.forms._vessel_setups import set_ups
from app.core.forms._vessel_sizes import sizes
from app.core.forms._vessel_steps import steps
from app.core.forms._vessel_warnings import warnings
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop
from app.core.table import Table

TITLE = "Straight vessel"
SUMMARY = (
    "A box, planter or bin with 3 to 16 equal upright sides, mitred at the corners, "
    "its walls glued up from strips that run round it."
)
METRIC = {
    "outside_side": "100 mm",
    "height": "150 mm",
    "wall": "12 mm",
    "base_thickness": "6 mm",
    "groove_up": "6 mm",
    "base_clearance": "1.5 mm",
    "lid_thickness": "10 mm",
    "lid_lip": "6 mm",
    "lid_room": "1.5 mm",
    "spline_thickness": "3 mm",
}
# Inputs of which exactly one is filled in.
ONE_OF = {"One size across, or what it holds": ACROSS}
GROUPS = {
    "Shape": ("sides", *ACROSS, "height", "wall"),
    "Wood of the walls": (*PATTERN_GROUP, "panels", "kerf"),
    "Base": BASE_GROUP,
    "Lid": LID_GROUP,
    "Splines": SPLINE_GROUP,
    "Boards and spares": WOOD_GROUP,
    "Finish": FINISH_GROUP,
    "The last joint": CLOSING_GROUP,
}

__all__ = ["GROUPS", "ONE_OF", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    return METRIC if unit is Unit.MILLIMETRE else {"outside_side": "4 in"}


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the vessel needs, from its inputs.

    Raises WorkshopError, naming the input, for a vessel that cannot be built.
    """
    vessel = resolve(inputs, shop)
    panels = glue_ups(vessel)
    made = set_ups(vessel, panels, shop)
    return Design(
        form="straight_vessel",
        title=f"Vessel with {vessel.sides} sides",
        inputs=_understood(inputs, vessel, shop),
        sizes=sizes(vessel, shop),
        parts=parts(vessel),
        glue_ups=panels,
        set_ups=made,
        steps=steps(vessel, inputs, panels, made, shop),
        warnings=(*warnings(vessel, shop), *_pattern_warnings(inputs, vessel)),
        tables=_tables(vessel, shop),
        joints=joints(vessel, panels),
        moving=moving(vessel),
        finish_area=finish_area(vessel),
        draw=lambda: drawings(vessel, shop),
        build=lambda: assembly(vessel),
    )


def _pattern_warnings(inputs: Inputs, vessel: Vessel) -> list[str]:
    found = pattern_warnings(inputs, vessel.pattern)
    if vessel.ways and inputs.panels > 1:
        found.append(
            "The walls differ, so their panels follow from the pattern: "
            f"{vessel.panel_count}, the way that takes least wood, and not "
            f"{inputs.panels}."
        )
    return found


def _tables(vessel: Vessel, shop: Shop) -> tuple[Table, ...]:
    """The last joint, the rows of splines, the panels where walls differ."""
    gap = vessel.widest_gap
    found = [closing.table(vessel.outside_side, vessel.sides, shop, widest_gap=gap)]
    if vessel.splines:
        found.append(spline_table(vessel.splines, vessel.kerf, shop))
    if vessel.ways:
        found += panel_tables(vessel.ways, shop, "Wall")
    return tuple(found)


def _understood(inputs: Inputs, vessel: Vessel, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(vessel.kerf, shop.unit)
    found["groove_depth"] = typed(vessel.groove_depth, shop.unit)
    found["base_species"] = vessel.base_species
    if vessel.has_base:
        found["base_strips"] = str(vessel.plate("base").strip_count)
    found["lid_species"] = vessel.lid.species
    return found | understood_splines(inputs, vessel.splines)
