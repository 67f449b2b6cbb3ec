"""Carcass: two sides, top, bottom, shelves in dadoes, a back in a rebate."""

from __future__ import annotations

from app.core.design import Design
from app.core.forms._carcass import Carcass
from app.core.forms._carcass_build import assembly
from app.core.forms._carcass_drawings import drawings
from app.core.forms._carcass_inputs import (
    BACK_GROUP,
    BOARD_GROUP,
    LOOSE_GROUP,
    SHAPE_GROUP,
    SHELF_GROUP,
    Inputs,
)
from app.core.forms._carcass_parts import finish_area, glue_ups, joints, moving, parts
from app.core.forms._carcass_resolve import resolve
from app.core.forms._carcass_sag import sag_sizes, sag_table
from app.core.forms._carcass_setups import set_ups
from app.core.forms._carcass_sizes import sizes
from app.core.forms._carcass_steps import steps
from app.core.forms._carcass_tables import tables
from app.core.forms._carcass_warnings import warnings
from app.core.forms._common import FINISH_GROUP, WOOD_GROUP
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop

TITLE = "Carcass"
SUMMARY = (
    "A case of two sides, top and bottom, with fixed shelves in dadoes, a back in a "
    "rebate, and shelves on pins where wanted; says how far its shelves sag."
)
METRIC = {
    "width": "350 mm",
    "height": "380 mm",
    "depth": "160 mm",
    "thickness": "18 mm",
    "dado_depth": "6 mm",
    "back_thickness": "6 mm",
    "shelves": "1",
    "pin_pitch": "32 mm",
    "pin_inset": "40 mm",
    "pin_clear": "50 mm",
}
GROUPS = {
    "Shape": SHAPE_GROUP,
    "Boards": (*BOARD_GROUP, *WOOD_GROUP),
    "Fixed shelves": SHELF_GROUP,
    "Back": BACK_GROUP,
    "Adjustable shelves": LOOSE_GROUP,
    "Finish": FINISH_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    if unit is Unit.MILLIMETRE:
        return METRIC
    return {"width": "14 in", "height": "15 in", "depth": "6 in", "shelves": "1"}


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the carcass needs, from its inputs.

    Raises WorkshopError, naming the input, for a carcass that cannot be built.
    """
    carcass = resolve(inputs, shop)
    made, glued = parts(carcass, inputs.spares), glue_ups(carcass, inputs.spares, shop)
    settings = set_ups(carcass, glued, inputs.spares, shop)
    return Design(
        form="carcass",
        title=f"Carcass with {carcass.shelves + carcass.loose} shelves",
        inputs=_understood(inputs, carcass, shop),
        sizes=(*sizes(carcass, shop), *sag_sizes(carcass, shop)),
        parts=made,
        glue_ups=glued,
        set_ups=settings,
        steps=steps(carcass, inputs, made, glued, settings, shop),
        warnings=warnings(carcass, shop),
        tables=tuple(filter(None, (*tables(carcass, shop), sag_table(carcass, shop)))),
        joints=joints(carcass, glued),
        moving=moving(carcass),
        finish_area=finish_area(carcass),
        draw=lambda: drawings(carcass, shop),
        build=lambda: assembly(carcass),
    )


def _understood(inputs: Inputs, carcass: Carcass, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["shelf_load"] = f"{float(carcass.load):.9f}".rstrip("0").rstrip(".")
    found["dado_depth"] = typed(carcass.dado, shop.unit)
    found["back_room"] = typed(carcass.back_room, shop.unit)
    found["pins"] = "yes" if carcass.pinned else "no"
    found["edge_species"] = carcass.edge_species
    if carcass.solid:
        found["strips"] = str(carcass.strips)
    if carcass.solid_back:
        found["back_species"] = carcass.back_species
    return found
