"""Straight vessel: mitred walls round a polygon, with or without a base."""

from __future__ import annotations

from app.core.design import Design
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_drawings import drawings
from app.core.forms._vessel_inputs import ACROSS, Inputs
from app.core.forms._vessel_parts import glue_ups, parts
from app.core.forms._vessel_resolve import resolve
from app.core.forms._vessel_setups import set_ups
from app.core.forms._vessel_sizes import sizes
from app.core.forms._vessel_steps import steps
from app.core.forms._vessel_warnings import warnings
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop

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
}
# Inputs of which exactly one is filled in.
ONE_OF = {"One size across": ACROSS}
GROUPS = {
    "Shape": ("sides", *ACROSS, "height", "wall"),
    "Wood of the walls": ("species", "strip_rows", "panels", "kerf"),
    "Base": (
        "base",
        "base_thickness",
        "groove_depth",
        "groove_up",
        "base_clearance",
        "base_species",
        "base_strips",
    ),
    "Splines": (
        "splines_per_corner",
        "spline_thickness",
        "spline_depth_share",
        "spline_species",
    ),
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
    made = set_ups(vessel, shop)
    return Design(
        form="straight_vessel",
        title=f"Vessel with {vessel.sides} sides",
        inputs=_understood(inputs, vessel, shop),
        sizes=sizes(vessel, shop),
        parts=parts(vessel, shop),
        glue_ups=glue_ups(vessel, shop),
        set_ups=made,
        steps=steps(vessel, made, shop),
        warnings=warnings(vessel, shop),
        draw=lambda: drawings(vessel, shop),
    )


def _understood(inputs: Inputs, vessel: Vessel, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(vessel.kerf, shop.unit)
    found["groove_depth"] = typed(vessel.groove_depth, shop.unit)
    found["base_species"] = vessel.base_species
    found["base_strips"] = str(vessel.base_strip_count)
    found["spline_species"] = vessel.spline_species
    found["spline_depth_share"] = f"{float(inputs.spline_depth_share):g}"
    return found
