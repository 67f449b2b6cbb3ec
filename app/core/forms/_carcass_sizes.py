"""The carcass's sizes, each with its working."""

from __future__ import annotations

from app.core.forms._book import TRADE, Book
from app.core.forms._carcass import Carcass
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Size

SAME_LENGTH = "inside width and twice the dado depth"


def sizes(carcass: Carcass, shop: Shop) -> tuple[Size, ...]:
    """Every size of the case itself, in the order they are used."""
    book = Book(shop)
    found = [*_inside(carcass, book), *_boards(carcass, book)]
    found += _heights(carcass, book)
    if carcass.has_back:
        found += _back(carcass, book)
    if carcass.loose:
        found += _loose(carcass, book)
    if carcass.pinned:
        found += _pins(carcass, book)
    return tuple(found)


def _inside(carcass: Carcass, book: Book) -> list[Size]:
    show, thick = book.show, book.show(carcass.thickness)
    return [
        book.length(
            "inside_width",
            "Width inside, between the sides",
            carcass.inside_width,
            "outside width less two boards",
            f"{show(carcass.width)} - 2 × {thick}",
        ),
        book.length(
            "inside_height",
            "Height inside, between bottom and top",
            carcass.inside_height,
            "outside height less two boards",
            f"{show(carcass.height)} - 2 × {thick}",
        ),
        book.length(
            "inside_depth",
            "Depth inside, to the back",
            carcass.depth - carcass.behind,
            "outside depth less the back",
            f"{show(carcass.depth)} - {show(carcass.behind)}",
        ),
        book.length(
            "opening",
            "Space between two boards",
            carcass.opening,
            "inside height less the shelves, divided by one more than the shelves",
            f"({show(carcass.inside_height)} - {carcass.shelves} × {thick}) / "
            f"{carcass.shelves + 1}",
        ),
    ]


def _boards(carcass: Carcass, book: Book) -> list[Size]:
    show = book.show
    edge = f" - {show(carcass.edge)}" if carcass.edge else ""
    return [
        book.length(
            "dado_depth",
            "Depth of dadoes and rebates in the sides",
            carcass.dado,
            "as given, else a third of the thickness",
            "",
            TRADE,
        ),
        book.length(
            "shelf_length",
            "Length of shelves, top and bottom",
            carcass.shelf_length,
            SAME_LENGTH,
            f"{show(carcass.inside_width)} + 2 × {show(carcass.dado)}",
        ),
        book.length(
            "board_depth",
            "Depth of sides, top and bottom as cut",
            carcass.board_depth,
            "outside depth less the strip on the front edge",
            f"{show(carcass.depth)}{edge}",
        ),
        book.length(
            "shelf_depth",
            "Depth of a shelf as cut",
            carcass.shelf_depth,
            "depth of the boards less the back",
            f"{show(carcass.board_depth)} - {show(carcass.behind)}",
        ),
    ]


def _heights(carcass: Carcass, book: Book) -> list[Size]:
    show = book.show
    return [
        book.length(
            f"shelf_{number}_up",
            f"Dado {number}, its lower edge up from the side's lower end",
            up,
            f"{number} boards and {number} spaces",
            f"{number} × {show(carcass.thickness)} + "
            f"{number} × {show(carcass.opening)}",
        )
        for number, up in enumerate(carcass.shelf_heights, 1)
    ]


def _back(carcass: Carcass, book: Book) -> list[Size]:
    show = book.show
    formula = "inside and twice the rebate (as deep as the dadoes), less twice the room"
    rest = f" + 2 × {show(carcass.dado)} - 2 × {show(carcass.back_room)}"
    return [
        book.length(
            "back_width",
            "Width of the back",
            carcass.back_width,
            formula,
            f"{show(carcass.inside_width)}{rest}",
        ),
        book.length(
            "back_height",
            "Height of the back",
            carcass.back_height,
            formula,
            f"{show(carcass.inside_height)}{rest}",
        ),
    ]


def _loose(carcass: Carcass, book: Book) -> list[Size]:
    show = book.show

    def less(whole: Length) -> tuple[str, str]:
        return (
            "inside less the play at both ends",
            f"{show(whole)} - 2 × {show(carcass.play)}",
        )

    return [
        book.length(
            "loose_shelf_length",
            "Length of an adjustable shelf",
            carcass.loose_length,
            *less(carcass.inside_width),
        ),
        book.length(
            "loose_shelf_depth",
            "Depth of an adjustable shelf",
            carcass.loose_depth,
            *less(carcass.depth - carcass.behind),
        ),
    ]


def _pins(carcass: Carcass, book: Book) -> list[Size]:
    show = book.show
    rows = [row for row in carcass.holes if row]
    back_row = carcass.depth - carcass.behind - carcass.pin_inset
    return [
        book.length(
            "pin_first_up",
            "First hole, up from the side's lower end",
            rows[0][0],
            "so that the holes of a space stand in its middle, clear of its boards",
            f"{show(carcass.pin_clear)} clear, {show(carcass.pin_pitch)} apart",
        ),
        book.length(
            "pin_back_row",
            "The back row, in from the front",
            back_row,
            "depth inside less the inset",
            f"{show(carcass.depth - carcass.behind)} - {show(carcass.pin_inset)}",
        ),
        book.count(
            "pin_holes",
            "Holes in all",
            4 * sum(map(len, rows)),
            "two rows in each side",
            f"4 × {sum(map(len, rows))}",
        ),
    ]
