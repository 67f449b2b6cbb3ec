"""The laminated board's machine set-ups, in the order they are made."""

from __future__ import annotations

from dataclasses import replace

from app.core.forms._bench import shop_text
from app.core.forms._board import Board
from app.core.forms._board_parts import glue_ups
from app.core.forms._set_ups import crosscut, rip
from app.core.forms._strip_panels import rip_panels
from app.core.setup import SetUp
from app.core.shop import Shop

ROUTER = ("router.feed-direction", "router.bit-held-short", "router.bit-speed")


def set_ups(board: Board, shop: Shop) -> tuple[SetUp, ...]:
    """Every machine setting of the build."""
    name = "first" if board.end else "board"
    found = [rip_panels(glue_ups(board), shop, name)]
    if board.end:
        found.append(_slices(board, shop))
    found += [_trim_width(board, shop), _trim_ends(board, shop)]
    if board.groove:
        found.append(_groove(board, shop))
    return tuple(found)


def _slices(board: Board, shop: Shop) -> SetUp:
    thick = shop_text(board.slice_thickness, shop)
    pieces = sum(panel.each * panel.quantity for panel in board.panels)
    which = "the first panel" if len(board.panels) == 1 else "every first panel"
    return crosscut(
        "slices",
        f"Square one end of {which}, then cut {pieces} slices {thick} thick against "
        "the stop, numbering each as it comes off and marking its upper end. Clamp "
        "the panel to the sled, and lift a slice away only when the blade stands "
        "still.",
        board.slice_thickness,
        shop,
        face_down="a planed face of the panel",
        check="The first and the last slice, laid together, are equally thick all "
        "over.",
    )


def _trim_width(board: Board, shop: Shop) -> SetUp:
    wide = shop_text(board.width, shop)
    half = shop_text(board.trim_width / 2, shop)
    trim = f", taking {half} off either edge" if board.trim_width else ""
    made = rip(
        "trim-width",
        f"Trim the board to {wide} wide{trim}: one edge first with a straight batten "
        "against the fence, then the other.",
        board.width,
        shop,
    )
    return replace(
        made,
        face_down="the face that will be underneath, a straight edge on the fence",
        check=f"The board is {wide} wide at both ends.",
    )


def _trim_ends(board: Board, shop: Shop) -> SetUp:
    half = shop_text(board.trim_length / 2, shop)
    trim = f", {half} off either end" if board.trim_length else ""
    return crosscut(
        "trim-ends",
        f"Square one end of the board, then cut it to {shop_text(board.length, shop)} "
        f"against the stop{trim}.",
        board.length,
        shop,
        face_down="the face that will be underneath",
        check="Both diagonals of the board measure the same.",
    )


def _groove(board: Board, shop: Shop) -> SetUp:
    groove = board.groove
    assert groove is not None
    wide, deep = shop_text(groove.width, shop), shop_text(groove.depth, shop)
    middle = shop_text(groove.inset + groove.width / 2, shop)
    faces = " on both faces" if groove.faces == 2 else ""
    return SetUp(
        key="juice-groove",
        machine="router",
        cuts=f"Cut the groove round the board{faces}, {wide} wide and {deep} deep, "
        f"its middle {middle} from the edge. Screw a frame of four straight rails to "
        "a bench board round the work, so that the router's base runs along them "
        "with the bit's middle there; go round clockwise inside the frame, in passes "
        "of a third of the depth.",
        fence=groove.inset,
        face_down="the other face, held by double-sided tape or wedges, clear of the "
        "router's way",
        check=f"A test groove in an offcut of the same glue-up is {deep} deep, and as "
        "far from the edge on all four sides.",
        cautions=ROUTER,
    )
