"""Boards as a maker writes them down off the pile: one a line, width by length."""

from __future__ import annotations

import re
from collections import Counter

from app.core.errors import WorkshopError
from app.core.length import Length, Unit
from app.core.shop import Shop

MOST_LINES = 100
LONGEST_LINE = 120
LIKE = {
    Unit.INCH: "7 1/4 x 98, or 3 x 7 1/4 x 98 for three of them",
    Unit.MILLIMETRE: "185 x 2450, or 3 x 185 x 2450 for three of them",
}
_BETWEEN = re.compile(r" ?[x×*,;] ?| by ")


def like(shop: Shop) -> str:
    """How boards are typed, in the shop's unit."""
    return LIKE[shop.unit]


def boards_typed(text: str, shop: Shop) -> Counter[tuple[Length, Length]]:
    """Boards one a line, width by length, with how many there are of each.

    Raises WorkshopError that names the line at fault.
    """
    found: Counter[tuple[Length, Length]] = Counter()
    lines = [one.strip() for one in text.splitlines()]
    filled = [(number, one) for number, one in enumerate(lines, 1) if one]
    if not filled or len(filled) > MOST_LINES:
        raise WorkshopError(
            f"Type the boards one a line, {MOST_LINES} lines at most, like "
            f"{like(shop)}.",
            input="boards",
        )
    for number, one in filled:
        try:
            width, length, count = _board(one, shop)
        except WorkshopError as fault:
            raise WorkshopError(f"Line {number}: {fault}", input="boards") from fault
        found[width, length] += count
    return found


def _board(typed: str, shop: Shop) -> tuple[Length, Length, int]:
    parts = _BETWEEN.split(typed[:LONGEST_LINE])
    if len(parts) not in (2, 3) or len(typed) > LONGEST_LINE:
        raise WorkshopError(
            f"“{typed[:40]}” is not width × length. Type it like {LIKE}."
        )
    count = 1
    if len(parts) == 3:
        if not re.fullmatch(r"[1-9][0-9]{0,2}", parts[0]):
            raise WorkshopError(
                f"“{parts[0][:20]}” is not how many boards. Type it like {like(shop)}."
            )
        count = int(parts[0])
    width, length = (Length.read(part, shop.unit) for part in parts[-2:])
    if not width or not length:
        raise WorkshopError("A board has a width and a length of more than nothing.")
    if width > length:
        raise WorkshopError(
            f"It is wider than long: width comes first, then length, like {like(shop)}."
        )
    return width, length, count
