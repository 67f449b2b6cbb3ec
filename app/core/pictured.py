"""What every form's drawings have: the finished piece first, and their woods named."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from app.core.design import Design
from app.core.drawing import Drawing
from app.core.isometric import isometric
from app.core.shop import Shop
from app.core.solid import Piece
from app.core.species_key import with_key

# Moved apart, more pieces than these hide each other all the same.
MOST_PIECES, MOST_CELLS = 40, 160
APART = 0.6


def pictured(design: Design, shop: Shop) -> Design:
    """The design with pictures of its build before its form's own drawings."""
    title = "The finished piece"
    if design.turned is not None:
        title = "The glued blank, before it is turned"
    return replace(
        design,
        draw=lambda: tuple(
            map(with_key, (*_pictures(design.assembly, shop, title), *design.drawings))
        ),
        build=lambda: design.assembly,
    )


@lru_cache(maxsize=4)
def _pictures(pieces: tuple[Piece, ...], shop: Shop, title: str) -> tuple[Drawing, ...]:
    """Kept for the next change: one of the finish, say, moves no wood."""
    if not pieces:
        return ()
    whole = isometric(pieces, shop, title=title)
    cells = sum(len(piece.cells) for piece in pieces)
    if not 1 < len(pieces) <= MOST_PIECES or cells > MOST_CELLS:
        return (whole,)
    moved = "Its pieces moved apart"
    return whole, isometric(pieces, shop, key="apart", title=moved, apart=APART)
