"""The marks of the carcass's story stick, and its rows of holes."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.forms._carcass import Carcass
from app.core.length import Length
from app.core.shop import Shop
from app.core.table import Table


def tables(carcass: Carcass, shop: Shop) -> tuple[Table, ...]:
    """Every mark up from the sides' lower end; the holes of each space."""
    found = [_story_stick(carcass, shop)]
    if carcass.pinned:
        found.append(_pins(carcass, shop))
    return tuple(found)


def _story_stick(carcass: Carcass, shop: Shop) -> Table:
    names = ["Bottom", *(f"Shelf {i}" for i in range(1, carcass.shelves + 1)), "Top"]
    rows = tuple(
        (name, shop_text(low, shop), shop_text(high, shop))
        for name, (low, high) in zip(names, carcass.levels, strict=True)
    )
    return Table(
        key="story_stick",
        title="Marks of the story stick, up from the sides' lower end",
        headings=("Board", "Lower edge", "Upper edge"),
        rows=rows,
        working="shelf n: n boards and n spaces up",
    )


def _pins(carcass: Carcass, shop: Shop) -> Table:
    def show(length: Length) -> str:
        return shop_text(length, shop)

    rows = tuple(
        (
            f"Space {number}",
            str(len(holes)),
            show(holes[0]) if holes else "none",
            show(holes[-1]) if holes else "none",
        )
        for number, holes in enumerate(carcass.holes, 1)
    )
    return Table(
        key="pin_holes",
        title="Holes for the pins in each row, lowest space first",
        headings=("Space", "Holes", "First, up from the end", "Last"),
        rows=rows,
        working=f"{show(carcass.pin_pitch)} apart, the same distance to the boards "
        f"above and below, {show(carcass.pin_clear)} at least",
    )
