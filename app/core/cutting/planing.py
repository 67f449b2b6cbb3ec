"""What planing thick stock down to its blanks costs in wood and money."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.core.cutting.job import Blank, Stock
from app.core.cutting.plan import Layout, Plan
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class Planed:
    """What planing takes off the blanks of one thickness from one stock.

    ``chips`` in nm³, ``money`` their share of what the stock carries, minor units.
    """

    stock: str
    thickness: Length
    blank: Length
    chips: int
    money: int


def planing_loss(stock: Stock, blank: Blank) -> int:
    """What planing one blank out of this stock turns to chips, nm³.

    Nothing where one of them has no thickness or no width.
    """
    if stock.thickness is None or blank.thickness is None or blank.width is None:
        return 0
    deep = max(stock.thickness.nm - blank.thickness.nm, 0)
    return deep * blank.length.nm * blank.width.nm


def planed(layout: Layout, plan: Plan, carried: Mapping[str, int]) -> list[Planed]:
    """One layout's planing, all its copies, a line for each thickness of blank.

    ``carried`` is the money of one piece of stock, by its id.
    """
    stock = next(one for one in plan.job.stock if one.id == layout.stock)
    blanks = {blank.id: blank for blank in plan.job.blanks}
    chips: dict[Length, int] = {}
    for piece in layout.pieces:
        blank = blanks[piece.blank]
        if (lost := planing_loss(stock, blank)) and blank.thickness is not None:
            chips[blank.thickness] = chips.get(blank.thickness, 0) + lost
    if stock.thickness is None or stock.width is None:
        return []
    whole = stock.length.nm * stock.width.nm * stock.thickness.nm
    money = carried.get(stock.id, 0)
    return [
        Planed(
            stock.id,
            stock.thickness,
            thickness,
            lost * layout.copies,
            round(money * lost * layout.copies / whole) if whole else 0,
        )
        for thickness, lost in sorted(chips.items(), reverse=True)
    ]
