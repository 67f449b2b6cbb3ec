"""Mitred tray or frame: rails mitred at the corners round a panel."""

from __future__ import annotations

from app.core import closing
from app.core.design import Design
from app.core.forms._common import CLOSING_GROUP, FINISH_GROUP, WOOD_GROUP
from app.core.forms._spline_work import spline_table
from app.core.forms._splined import SPLINE_GROUP, understood_splines
from app.core.forms._tray import Tray
from app.core.forms._tray_build import assembly
from app.core.forms._tray_drawings import drawings
from app.core.forms._tray_inputs import ACROSS, PANEL_GROUP, RAIL_GROUP, Inputs
from app.core.forms._tray_mouldings import Rails, moulding_table, mouldings
from app.core.forms._tray_parts import finish_area, glue_ups, joints, moving, parts
from app.core.forms._tray_resolve import resolve
from app.core.forms._tray_setups import set_ups
from app.core.forms._tray_sizes import sizes
from app.core.forms._tray_steps import steps
from app.core.forms._tray_warnings import warnings
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop
from app.core.table import Table

TITLE = "Mitred tray"
SUMMARY = (
    "A tray or a frame of 3 to 12 rails, mitred at the corners, with a panel in a "
    "groove or a rebate."
)
METRIC = {
    "length": "360 mm",
    "width": "270 mm",
    "rail_width": "18 mm",
    "rail_height": "40 mm",
    "panel_thickness": "6 mm",
    "groove_depth": "8 mm",
    "groove_up": "6 mm",
    "moulding_length": "2400 mm",
}
GROUPS = {
    "Shape": ("sides", *ACROSS),
    "Rails": RAIL_GROUP,
    "Panel": PANEL_GROUP,
    "Splines": SPLINE_GROUP,
    "Last joint": CLOSING_GROUP,
    "Boards": WOOD_GROUP,
    "Finish": FINISH_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    if unit is Unit.MILLIMETRE:
        return METRIC
    return {"length": "14 in", "width": "10 in"}


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the tray needs, from its inputs.

    Raises WorkshopError, naming the input, for a tray that cannot be built.
    """
    tray = resolve(inputs, shop)
    laid = mouldings(tray, inputs.spares, shop)
    made = set_ups(tray, inputs.spares, shop)
    kind = "tray" if tray.has_panel else "frame"
    return Design(
        form="mitred_tray",
        title=f"Mitred {kind} with {tray.sides} sides",
        inputs=_understood(inputs, tray, shop),
        sizes=sizes(tray, inputs, laid, shop),
        parts=parts(tray, inputs.spares, shop),
        glue_ups=glue_ups(tray, shop),
        set_ups=made,
        steps=steps(tray, inputs, made, shop),
        warnings=warnings(tray, shop),
        tables=_tables(tray, inputs, laid, shop),
        joints=joints(tray, shop),
        moving=moving(tray),
        finish_area=finish_area(tray),
        draw=lambda: drawings(tray, laid, shop),
        build=lambda: assembly(tray),
    )


def _tables(
    tray: Tray, inputs: Inputs, laid: tuple[Rails, ...], shop: Shop
) -> tuple[Table, ...]:
    last = closing.table(
        tray.long_side,
        tray.sides,
        shop,
        lengths=tray.sides_round,
        widest_gap=inputs.widest_gap,
    )
    found = (moulding_table(tray, laid, shop), last)
    if tray.splines is None:
        return found
    return (*found, spline_table(tray.splines, tray.kerf, shop))


def _understood(inputs: Inputs, tray: Tray, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(tray.kerf, shop.unit)
    found["groove_depth"] = typed(tray.groove_depth, shop.unit)
    found["panel_room"] = typed(tray.room, shop.unit)
    if tray.material == "solid wood":
        found["panel_species"] = tray.panel_species
        found["panel_strips"] = str(tray.strips)
    return found | understood_splines(inputs, tray.splines)
