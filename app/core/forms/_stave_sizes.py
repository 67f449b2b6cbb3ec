"""The stave cylinder's sizes, each with its working."""

from __future__ import annotations

from app.core import closing
from app.core.forms import _turned_sizes as shared
from app.core.forms._book import TRADE, Book
from app.core.forms._common import Closing
from app.core.forms._stave import Cylinder
from app.core.shop import Shop
from app.core.size import Size
from app.core.table import Table


def sizes(made: Cylinder, asked: Closing, shop: Shop) -> tuple[Size, ...]:
    """Every size, in the order they are used."""
    book = Book(shop)
    return (
        book.angle(
            "edge_bevel",
            "Bevel on both edges of every stave, from a vertical blade",
            made.bevel,
            "180° divided by the staves",
            f"180° / {made.staves}",
        ),
        *_circles(book, made),
        *_stave(book, made),
        *_fences(book, made),
        *_turned(book, made),
        *closing.sizes(
            made.width, made.staves, asked.widest_gap, asked.width_spread, shop
        ),
        *shared.halves(made.staves),
    )


def tables(made: Cylinder, asked: Closing, shop: Shop) -> tuple[Table, ...]:
    """How sure the last joint is."""
    return (closing.table(made.width, made.staves, shop, widest_gap=asked.widest_gap),)


def _circles(book: Book, made: Cylinder) -> list[Size]:
    both, show = f"2 × {book.show(made.turning)}", book.show
    return [
        book.length(
            "glued_outside",
            "Glued, across the outer flats",
            made.outside,
            "turned outside and the turning allowance on both sides",
            f"{show(made.outside - made.turning * 2)} + {both}",
        ),
        book.length(
            "inner_corners_at_most",
            "Glued, the inner corners lie on or within",
            made.inside,
            "turned inside less the turning allowance on both sides",
            f"{show(made.inside + made.turning * 2)} - {both}",
        ),
    ]


def _stave(book: Book, made: Cylinder) -> list[Size]:
    show, part = book.show, f"180°/{made.staves}"
    return [
        book.length(
            "stave_width",
            "Stave, outer face",
            made.width,
            f"across the outer flats times tan({part})",
            f"{show(made.outside)} × tan({part})",
        ),
        book.length(
            "least_thickness",
            "Stave, least thickness that holds both circles",
            made.least,
            f"half of: across the outer flats less the inner corners times cos({part})",
            f"({show(made.outside)} - {show(made.inside)} × cos({part})) / 2",
        ),
        book.length(
            "stave_thickness",
            "Stave, thickness",
            made.thickness,
            "the least" if made.thickness == made.least else "as given",
            show(made.thickness),
        ),
        book.length(
            "stave_inner_width",
            "Stave, inner face",
            made.inner_width,
            f"outer face less twice the thickness times tan({part})",
            f"{show(made.width)} - 2 × {show(made.thickness)} × tan({part})",
        ),
    ]


def _fences(book: Book, made: Cylinder) -> list[Size]:
    """Where the fence stands; with a jig it carries the jig."""
    show, part = book.show, f"180°/{made.staves}"
    found = [
        book.length(
            "blank_width",
            "Stave ripped square, before its bevels",
            made.blank_width,
            "outer face and over size by",
            f"{show(made.width)} + {show(made.blank_width - made.width)}",
            TRADE,
        )
    ]
    if made.bevel <= book.shop.most_tilt:
        found.append(
            book.length(
                "first_fence",
                "Fence to the blade at table height for the first bevel",
                made.first_fence,
                "inner face down, the square edge on the fence: width before the "
                f"bevels less thickness × tan({part})",
                f"{show(made.blank_width)} - {show(made.thickness)} × tan({part})",
            )
        )
        last = book.length(
            "second_fence",
            "Fence to the blade at table height for the last bevel",
            made.second_fence,
            "inner face down, the tip of the bevelled edge on the fence: outer face "
            f"less thickness × tan({part})",
            f"{show(made.width)} - {show(made.thickness)} × tan({part})",
        )
        found.append(last)
    return found


def _turned(book: Book, made: Cylinder) -> list[Size]:
    found = shared.lathe(book, made.outermost, made.sawn_volume, made.profile)
    return found + (_bottom(book, made) if made.bottom is not None else [])


def _bottom(book: Book, made: Cylinder) -> list[Size]:
    assert made.bottom is not None
    return [
        book.length(
            "bottom_across",
            "Bottom, across its flats, as sawn",
            made.bottom.across,
            "turned outside and the turning allowance on both sides",
            f"{book.show(made.outside - made.turning * 2)} + 2 × "
            f"{book.show(made.turning)}",
        ),
        book.length(
            "turned_height",
            "Height, turned",
            made.profile.height,
            "bottom and staves",
            f"{book.show(made.floor)} + {book.show(made.height)}",
        ),
    ]
