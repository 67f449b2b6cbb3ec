"""Stave cylinder: bevelled staves glued round, to be turned to a cylinder."""

from __future__ import annotations

from app.core.design import Design
from app.core.forms._common import CLOSING_GROUP, FINISH_GROUP, WOOD_GROUP
from app.core.forms._stave import Cylinder
from app.core.forms._stave_drawings import drawings
from app.core.forms._stave_inputs import Inputs
from app.core.forms._stave_parts import assembly, glue_ups, joints, moving, parts
from app.core.forms._stave_resolve import resolve
from app.core.forms._stave_setups import set_ups
from app.core.forms._stave_sizes import sizes, tables
from app.core.forms._stave_steps import steps
from app.core.forms._stave_warnings import warnings
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop

TITLE = "Stave cylinder"
SUMMARY = (
    "3 to 24 upright staves with bevelled edges, glued round and turned to a cylinder, "
    "no thicker than both circles need."
)
METRIC = {
    "outside_diameter": "150 mm",
    "inside_diameter": "132 mm",
    "height": "200 mm",
    "turning_allowance": "2 mm",
    "thickness": "16 mm",
    "bottom_thickness": "12 mm",
}
IMPERIAL = {
    "outside_diameter": "6 in",
    "inside_diameter": "5 1/4 in",
    "height": "8 in",
    "turning_allowance": "1/16 in",
    "thickness": "5/8 in",
}
GROUPS = {
    "Shape": (
        "staves",
        "outside_diameter",
        "inside_diameter",
        "height",
        "turning_allowance",
        "thickness",
    ),
    "Bottom": ("bottom", "bottom_thickness", "bottom_species"),
    "Wood": ("species", "kerf", *WOOD_GROUP),
    "Last joint": CLOSING_GROUP,
    "Finish": FINISH_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    return METRIC if unit is Unit.MILLIMETRE else IMPERIAL


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the cylinder needs, from its inputs.

    Raises WorkshopError, naming the input, for what cannot be ripped or turned.
    """
    made = resolve(inputs, shop)
    found = set_ups(made, shop)
    return Design(
        form="stave_cylinder",
        title=f"Cylinder of {made.staves} staves",
        inputs=_understood(inputs, made, shop),
        sizes=sizes(made, inputs, shop),
        parts=parts(made),
        glue_ups=glue_ups(made),
        set_ups=found,
        steps=steps(made, found, inputs, shop),
        warnings=warnings(made, shop),
        tables=tables(made, inputs, shop),
        joints=joints(made),
        moving=moving(made),
        finish_area=made.profile.surface,
        turned=round(made.profile.volume),
        draw=lambda: drawings(made, shop),
        build=lambda: assembly(made),
    )


def _understood(inputs: Inputs, made: Cylinder, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(made.kerf, shop.unit)
    found["thickness"] = typed(made.thickness, shop.unit)
    if made.bottom is not None:
        found["bottom_species"] = made.bottom.species
    return found
