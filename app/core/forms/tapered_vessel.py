"""Tapered vessel: mitred walls that lean, round a polygon, splaying out or in."""

from __future__ import annotations

from app.core import closing
from app.core.design import Design
from app.core.forms._common import CLOSING_GROUP, FINISH_GROUP, WOOD_GROUP
from app.core.forms._panel_tables import panel_tables
from app.core.forms._patterned import PATTERN_GROUP
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_build import assembly
from app.core.forms._tapered_drawings import drawings
from app.core.forms._tapered_face_sizes import faces_table
from app.core.forms._tapered_inputs import Inputs
from app.core.forms._tapered_parts import glue_ups, parts
from app.core.forms._tapered_resolve import resolve
from app.core.forms._tapered_setups import set_ups
from app.core.forms._tapered_sizes import sizes
from app.core.forms._tapered_steps import steps
from app.core.forms._tapered_surfaces import finish_area, joints, moving
from app.core.forms._tapered_warnings import warnings
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop
from app.core.table import Table

TITLE = "Tapered vessel"
SUMMARY = (
    "A planter, bowl or shade with 3 to 16 equal sides that splay out or lean in, "
    "mitred at the corners, with a bevelled base inside or one under it."
)
METRIC = {
    "top_inscribed": "200 mm",
    "bottom_inscribed": "150 mm",
    "height": "130 mm",
    "wall": "12 mm",
    "base_thickness": "6 mm",
    "base_up": "12 mm",
    "base_clearance": "1.5 mm",
}
GROUPS = {
    "Shape": (
        "sides",
        "top_inscribed",
        "bottom_inscribed",
        "height",
        "wall",
        "edges",
    ),
    "Wood of the walls": (*PATTERN_GROUP, "cut_from", "kerf"),
    "Base": (
        "base",
        "base_thickness",
        "base_up",
        "base_clearance",
        "base_species",
        "base_strips",
    ),
    "Stock": WOOD_GROUP,
    "Finish": FINISH_GROUP,
    "The last joint": CLOSING_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    return METRIC if unit is Unit.MILLIMETRE else {"top_inscribed": "8 in"}


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the vessel needs, from its inputs.

    Raises WorkshopError, naming the input, for a vessel that cannot be built.
    """
    vessel = resolve(inputs, shop)
    panels = glue_ups(vessel)
    made = set_ups(vessel, panels, shop)
    return Design(
        form="tapered_vessel",
        title=f"Tapered vessel with {vessel.sides} sides",
        inputs=_understood(inputs, vessel, shop),
        sizes=sizes(vessel, inputs, shop),
        parts=parts(vessel),
        glue_ups=panels,
        set_ups=made,
        steps=steps(vessel, inputs, panels, made, shop),
        warnings=warnings(vessel, inputs, shop),
        tables=_tables(vessel, inputs, shop),
        joints=joints(vessel),
        moving=moving(vessel),
        finish_area=finish_area(vessel),
        draw=lambda: drawings(vessel, shop),
        build=lambda: assembly(vessel),
    )


def _tables(vessel: Tapered, inputs: Inputs, shop: Shop) -> tuple[Table, ...]:
    last = closing.table(
        vessel.face_long,
        vessel.sides,
        shop,
        bevel=vessel.tilt,
        widest_gap=inputs.widest_gap,
    )
    panels = panel_tables(vessel.ways, shop) if vessel.glued else ()
    return (faces_table(vessel, shop), *panels, last)


def _understood(inputs: Inputs, vessel: Tapered, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(vessel.kerf, shop.unit)
    found["cut_from"] = "head to tail" if vessel.head_to_tail else "one by one"
    if vessel.has_base:
        found["base_species"] = vessel.base_species
        found["base_strips"] = str(vessel.base_strip_count)
    if vessel.inside_base:
        found["base_up"] = typed(vessel.base_up, shop.unit)
    return found
