"""Which rails come from which length of moulding."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.forms._book import GEOMETRY
from app.core.forms._tray import Tray
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Group
from app.core.table import Table

Rails = tuple[Length, ...]


def mouldings(tray: Tray, spares: int, shop: Shop) -> tuple[Rails, ...]:
    """Rails by moulding, the longest first into the first that still takes it."""
    rails = sorted((*tray.sides_round, *(tray.long_side,) * spares), reverse=True)
    room = tray.moulding - shop.end_trim * 2
    found: list[Rails] = []
    for rail in rails:
        for i, there in enumerate(found):
            if tray.run((*there, rail)) <= room:
                found[i] = (*there, rail)
                break
        else:
            found.append((rail,))
    return tuple(found)


def moulding_table(tray: Tray, laid: tuple[Rails, ...], shop: Shop) -> Table:
    """A row a moulding: what comes from it and what is left."""

    def show(length: Length) -> str:
        return shop_text(length, shop)

    rows = []
    for number, rails in enumerate(laid, 1):
        taken = tray.run(rails)
        left = tray.moulding - shop.end_trim * 2 - taken
        each = ", ".join(
            f"{rails.count(rail)} × {show(rail)}" for rail in dict.fromkeys(rails)
        )
        rows.append((f"Moulding {number}", each, show(taken), show(left)))
    return Table(
        key="mouldings",
        title="Rails from the mouldings",
        headings=("From", "Rails", "Takes", "Left"),
        rows=tuple(rows),
        working="rails, each with what it is over size by, sawn square with a kerf "
        f"between two; {show(shop.end_trim)} trimmed off each end",
        source=GEOMETRY,
        group=Group.TAKES,
    )
