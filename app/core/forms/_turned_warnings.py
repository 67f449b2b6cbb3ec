"""What is said before rings or staves are turned, alike for both."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.length import Length, mm
from app.core.shop import Shop

# Wider boards are hard to find and cup: common practice, no source.
WIDE = mm(200)


def wide_boards(what: str, wide: Length, mend: str, shop: Shop) -> list[str]:
    """Pieces that are wider than most boards, and how to ``mend`` it."""
    if wide <= WIDE:
        return []
    told = (
        f"{what} {shop_text(wide, shop)} wide need boards as wide, which are hard to "
        f"find and cup. {mend}"
    )
    return [told]


def turning_warnings(turning: Length, across: Length, shop: Shop) -> list[str]:
    """An allowance too small to true up in, and what the lathe must swing."""
    found = []
    if turning < mm("1.5"):
        found.append(
            f"A turning allowance of {shop_text(turning, shop)} on each radius leaves "
            "little to run round in: a ring glued a hair off the middle shows a flat. "
            "About 3 mm (1/8 in) is usual."
        )
    if across > mm(300):
        found.append(
            f"The blank is {shop_text(across, shop)} through its corners. Measure over "
            "the bed and the rest's foot whether your lathe swings it."
        )
    return found
