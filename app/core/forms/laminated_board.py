"""Laminated board: strips glued into a board of edge grain or of end grain."""

from __future__ import annotations

from app.core.design import Design, Joint, Moving
from app.core.forms._board import Board
from app.core.forms._board_balance import balance_table
from app.core.forms._board_drawings import drawings
from app.core.forms._board_inputs import Inputs
from app.core.forms._board_parts import glue_ups, moving_wood, parts, volume_of
from app.core.forms._board_resolve import resolve
from app.core.forms._board_setups import set_ups
from app.core.forms._board_sizes import sizes
from app.core.forms._board_solids import assembly
from app.core.forms._board_steps import steps
from app.core.forms._board_warnings import warnings
from app.core.forms._common import FINISH_GROUP, WOOD_GROUP
from app.core.forms._panel_tables import panel_tables
from app.core.inputs import listed, typed
from app.core.length import Unit
from app.core.shop import Shop
from app.core.table import Table

TITLE = "Laminated board"
SUMMARY = (
    "A board for cutting, serving or a table's top, glued up from strips: of edge "
    "grain in one glue-up, or of end grain in two, with a groove for juice or without."
)
METRIC = {
    "length": "400 mm",
    "width": "240 mm",
    "thickness": "32 mm",
    "strip_width": "40 mm",
    "groove_width": "10 mm",
    "groove_depth": "5 mm",
    "groove_inset": "20 mm",
}
IMPERIAL = {"length": "16 in", "width": "10 in", "thickness": "1 1/4 in"}
GROUPS = {
    "Shape": ("length", "width", "thickness", "grain"),
    "Strips": (
        "strip_width",
        "slice_width",
        "pattern",
        "species",
        "blend_rows",
        "step_rows",
        "own_pattern",
        "kerf",
    ),
    "Juice groove and feet": (
        "juice_groove",
        "groove_width",
        "groove_depth",
        "groove_inset",
        "feet",
    ),
    "Wood": WOOD_GROUP,
    "Finish": FINISH_GROUP,
}

__all__ = ["GROUPS", "SUMMARY", "TITLE", "Inputs", "design", "example"]


def example(unit: Unit) -> dict[str, str]:
    """First inputs in round numbers, so that the page opens on something drawn."""
    return METRIC if unit is Unit.MILLIMETRE else IMPERIAL


def design(inputs: Inputs, shop: Shop) -> Design:
    """Everything the board needs, from its inputs.

    Raises WorkshopError, naming the input, for a board that cannot be built.
    """
    board = resolve(inputs, shop)
    made = set_ups(board, shop)
    pieces = parts(board, inputs.spares)
    asked = inputs.strip_width, inputs.slice_width or inputs.strip_width
    return Design(
        form="laminated_board",
        title=f"{'End' if board.end else 'Edge'}-grain board",
        inputs=_understood(inputs, board, shop),
        sizes=sizes(board, asked, shop),
        parts=pieces,
        glue_ups=glue_ups(board),
        set_ups=made,
        steps=steps(board, inputs, made, shop),
        warnings=warnings(board, inputs, shop),
        tables=_tables(board, volume_of(pieces), shop),
        joints=_joints(board),
        moving=_moving(board),
        finish_area=board.finish_area,
        draw=lambda: drawings(board, shop),
        build=lambda: assembly(board),
    )


def _understood(inputs: Inputs, board: Board, shop: Shop) -> dict[str, str]:
    """Every input as it was taken, with what the empty ones came to."""
    found = {
        item.key: typed(getattr(inputs, item.key), shop.unit)
        for item in listed(Inputs, shop.unit)
    }
    found["kerf"] = typed(board.cut.kerf, shop.unit)
    found["slice_width"] = typed(inputs.slice_width or inputs.strip_width, shop.unit)
    return found


def _tables(board: Board, finished: int, shop: Shop) -> tuple[Table, ...]:
    panels = panel_tables(board.ways, shop, "Slice") if board.end else ()
    return (balance_table(board, finished, shop.display), *panels)


def _joints(board: Board) -> tuple[Joint, ...]:
    """Glue lines between strips, and between slices: long grain in both."""
    seams = len(board.strips) - 1
    long = sum(panel.length.nm * panel.quantity for panel in board.panels)
    strips = Joint("strips", seams * long * board.cut.thickness.nm)
    if not board.end:
        return (strips,)
    face = board.glued_width.nm * board.slice_thickness.nm
    return strips, Joint("slices", (board.slices - 1) * face)


def _moving(board: Board) -> tuple[Moving, ...]:
    """What the air changes, by how the strips' stock stands in the board.

    On edge it is as thick across the board as it was flat; in an end-grain board the
    first panel's thickness becomes the length of the slices side by side.
    """
    wood = moving_wood(board)
    flat, stood = ("width", "thickness") if board.end else ("thickness", "width")
    width = Moving("width", "Width of the board", wood, board.width, flat)
    if board.end:
        long = Moving("length", "Length of the board", wood, board.length, stood)
        return width, long
    thick = Moving("thickness", "Thickness of the board", wood, board.thickness, stood)
    return width, thick
