"""Straight vessel: mitred walls round a polygon, with or without a base."""

from __future__ import annotations

from app.core.design import Design
from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_drawings import drawings
from app.core.forms._vessel_inputs import ACROSS, Inputs
from app.core.forms._vessel_parts import glue_ups, parts
from app.core.forms._vessel_resolve import resolve
from app.core.forms._vessel_setups import set_ups
from app.core.forms._vessel_sizes import sizes
from app.core.forms._vessel_steps import steps
from app.core.inputs import listed, typed
from app.core.length import mm
from app.core.shop import Shop
from app.core.wood import NoSuchSpecies, species

TITLE = "Straight vessel"
SUMMARY = (
    "A box, planter or bin with 3 to 16 equal upright sides, mitred at the corners, "
    "its walls glued up from strips that run round it."
)
# A first set of inputs, so that the page opens on something drawn.
EXAMPLE = {"outside_side": "4 in"}
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

__all__ = ["EXAMPLE", "GROUPS", "ONE_OF", "SUMMARY", "TITLE", "Inputs", "design"]


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
        drawings=drawings(vessel, shop),
        warnings=tuple(_warnings(vessel, shop)),
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


def _warnings(vessel: Vessel, shop: Shop) -> list[str]:
    found = []
    if vessel.housed and vessel.groove_depth * 3 > vessel.wall * 2:
        found.append(
            f"The {vessel.base} takes {shop_text(vessel.groove_depth, shop)} of a wall "
            f"{shop_text(vessel.wall, shop)} thick. About half the wall is usual."
        )
    if vessel.housed and vessel.clearance * 200 < vessel.base_inscribed:
        found.append(
            "The base has less than half a percent of its width to swell at each side. "
            "A plain-sawn board can move more than that over a year: leave more room, "
            "or make the base of plywood."
        )
    if vessel.base == "under":
        found.append(
            "A solid base glued all round under the walls cannot move across its grain "
            "and opens the corners. Fix it so that it can."
        )
    found += _machine_warnings(vessel, shop)
    return found + _wood_warnings(vessel)


def _machine_warnings(vessel: Vessel, shop: Shop) -> list[str]:
    found = []
    if vessel.each_panel_length > mm(2400):
        length = shop_text(vessel.each_panel_length, shop)
        found.append(
            f"The walls make a panel {length} long, longer than most boards. Cut "
            "them from more panels."
        )
    if vessel.outside_side < mm(300):
        found.append(
            "The walls are shorter than 300 mm (12 in), too short to hold by hand at "
            "most machines: clamp them to the sled or the jig."
        )
    if vessel.closing_gap > mm("0.5"):
        found.append(
            "A tenth of a degree on every bevel opens the last joint by "
            f"{shop_text(vessel.closing_gap, shop)}. Prove the bevel with a dry fit."
        )
    return found


def _wood_warnings(vessel: Vessel) -> list[str]:
    names = [name for name, _ in vessel.rows]
    names += [vessel.base_species, vessel.spline_species]
    found = []
    for name in dict.fromkeys(names):
        try:
            species(name)
        except NoSuchSpecies as unknown:
            found.append(f"{unknown} It is drawn and listed, not reckoned with.")
    return found
