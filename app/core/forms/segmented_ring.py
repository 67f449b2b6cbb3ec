"""Segmented ring: mitred segments glued into a ring, or rings into a stack, to turn."""

from __future__ import annotations

from app.core.design import Design
from app.core.forms._common import CLOSING_GROUP, FINISH_GROUP, WOOD_GROUP
from app.core.forms._ring import Stack
from app.core.forms._ring_build import assembly
from app.core.forms._ring_drawings import drawings
from app.core.forms._ring_inputs import Inputs
from app.core.forms._ring_parts import glue_ups, joints, moving, parts
from app.core.forms._ring_resolve import resolve
from app.core.forms._ring_setups import set_ups
from app.core.forms._ring_sizes import sizes, tables
from app.core.forms._ring_steps import steps
from app.core.forms._ring_warnings import warnings
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop

TITLE = "Segmented ring"
SUMMARY = (
    "A ring of 3 to 24 mitred segments, or a stack of such rings for a turned profile, "
    "with the wood that the lathe takes off allowed for."
)
METRIC = {
    "segments": "8",
    "outside_diameter": "240 mm",
    "inside_diameter": "200 mm",
    "thickness": "18 mm",
    "turning_allowance": "3 mm",
    "wall": "12 mm",
    "bottom_thickness": "12 mm",
}
IMPERIAL = {
    "segments": "8",
    "outside_diameter": "9 in",
    "inside_diameter": "7 1/2 in",
}
GROUPS = {
    "Ring": (
        "segments",
        "outside_diameter",
        "inside_diameter",
        "thickness",
        "turning_allowance",
    ),
    "Stack for a turned profile": ("profile", "wall"),
    "Bottom": ("bottom", "bottom_thickness", "bottom_species"),
    "Pattern": ("pattern", "species", "blend_rows", "step_rows", "own_pattern"),
    "Wood": ("kerf", *WOOD_GROUP),
    "Last joint": CLOSING_GROUP,
    "Finish": FINISH_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    return METRIC if unit is Unit.MILLIMETRE else IMPERIAL


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything a ring or a stack of rings needs, from its inputs.

    Raises WorkshopError, naming the input, for what cannot be glued or turned.
    """
    stack = resolve(inputs, shop)
    made = set_ups(stack, shop)
    return Design(
        form="segmented_ring",
        title=_title(stack),
        inputs=_understood(inputs, stack, shop),
        sizes=sizes(stack, inputs, shop),
        parts=parts(stack),
        glue_ups=glue_ups(stack),
        set_ups=made,
        steps=steps(stack, made, inputs, shop),
        warnings=warnings(stack, inputs, shop),
        tables=tables(stack, inputs, shop),
        joints=joints(stack),
        moving=moving(stack),
        finish_area=stack.profile.surface,
        turned=round(stack.profile.volume),
        draw=lambda: drawings(stack, shop),
        build=lambda: assembly(stack),
    )


def _title(stack: Stack) -> str:
    if len(stack.rings) == 1:
        return f"Ring of {stack.segments} segments"
    return f"Stack of {len(stack.rings)} rings of {stack.segments} segments"


def _understood(inputs: Inputs, stack: Stack, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(stack.kerf, shop.unit)
    if stack.bottom is not None:
        found["bottom_species"] = stack.bottom.species
    return found
