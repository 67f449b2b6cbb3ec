"""The laminated board's sizes, each with its working."""

from __future__ import annotations

from app.core.forms._board import Board
from app.core.forms._book import TRADE, Book
from app.core.forms._panel_tables import panel_sizes
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Size


def sizes(board: Board, asked: tuple[Length, Length], shop: Shop) -> tuple[Size, ...]:
    """Every size; ``asked`` are the widths of strip and slice as typed."""
    book = Book(shop)
    found = [*_strips(board, asked[0], book)]
    found += _slices(board, asked[1], book) if board.end else [_no_slices(book)]
    found += _panel(board, book)
    if board.groove:
        found += _groove(board, book)
    return (*found, *panel_sizes(board.ways, board.cut, shop))


def _strips(board: Board, asked: Length, book: Book) -> list[Size]:
    show, count = book.show, len(board.strips)
    return [
        book.count(
            "strip_count",
            "Strips across the board",
            count,
            "width divided by the widest a strip may be, rounded up",
            f"{show(board.width)} / {show(asked)}",
        ),
        book.length(
            "strip_width_finished",
            "Each strip as glued",
            board.strips[0],
            "width and its trim, shared by the strips",
            f"({show(board.width)} + {show(board.trim_width)}) / {count}",
        ),
    ]


def _no_slices(book: Book) -> Size:
    return book.count(
        "slice_count",
        "Slices",
        0,
        "an edge-grain board is glued once and not sliced",
    )


def _slices(board: Board, asked: Length, book: Book) -> list[Size]:
    show, count = book.show, board.slices
    return [
        book.count(
            "slice_count",
            "Slices along the board",
            count,
            "length divided by the widest a slice may be, rounded up",
            f"{show(board.length)} / {show(asked)}",
        ),
        book.length(
            "slice_thickness",
            "Each slice as it comes off the saw",
            board.slice_thickness,
            "thickness of the board and what levelling takes off both faces",
            f"{show(board.thickness)} + {show(board.level)}",
        ),
        book.length(
            "first_panel_thickness",
            "First panel, planed: each slice on the face",
            board.slice_width,
            "length and its trim, shared by the slices",
            f"({show(board.length)} + {show(board.trim_length)}) / {count}",
        ),
    ]


def _panel(board: Board, book: Book) -> list[Size]:
    show, kerfs = book.show, board.slices - 1
    long = (
        "slices times their thickness off the saw, and a kerf between them",
        (
            f"{board.slices} × {show(board.slice_thickness)} + "
            f"{kerfs} × {show(board.cut.kerf)}"
        ),
    )
    if not board.end:
        long = ("the board's length", show(board.length))
    name = "First panel" if board.end else "Panel"
    return [
        book.length(
            "first_panel_length",
            f"{name}, length along the grain, before trim",
            board.net_panel_length,
            *long,
        ),
        book.length(
            "first_panel_width",
            f"{name}, width across the strips, before trim",
            board.width,
            "the board's width, which the strips share",
            show(board.width),
        ),
    ]


def _groove(board: Board, book: Book) -> list[Size]:
    groove, show = board.groove, book.show
    assert groove is not None
    floor = groove.area(board.length, board.width)
    along, across = (Length(nm) for nm in groove.island(board.length, board.width))
    return [
        book.length(
            "groove_middle",
            "Middle of the groove, from the edge",
            groove.inset + groove.width / 2,
            "in from the edge, and half the groove's width",
            f"{show(groove.inset)} + {show(groove.width)} / 2",
        ),
        book.length(
            "wood_under_groove",
            "Wood left under the groove",
            board.thickness - groove.depth * groove.faces,
            "thickness less the depth, of every grooved face",
            f"{show(board.thickness)} - {groove.faces} × {show(groove.depth)}",
        ),
        book.volume(
            "groove_holds",
            "The groove of one face holds, brim-full",
            floor * groove.depth.nm,
            "(area round the outside less the island inside) × depth; square corners, "
            "which the cutter leaves a little rounder",
            f"island {show(along)} × {show(across)}, {show(groove.width)} wide, "
            f"{show(groove.depth)} deep",
            TRADE,
        ),
    ]
