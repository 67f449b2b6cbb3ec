"""What the maker of a ring is told before the wood is cut."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.forms._patterned import Patterning, pattern_warnings
from app.core.forms._ring import Stack
from app.core.forms._ring_sizes import share_left
from app.core.forms._turned_warnings import turning_warnings, wide_boards
from app.core.length import mm
from app.core.shop import Shop


def warnings(stack: Stack, asked: Patterning, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    found = turning_warnings(stack.turning, stack.across_corners, shop)
    widest = max(ring.width for ring in stack.rings)
    mend = "More segments, or thinner rings, take narrower ones."
    found += wide_boards("Strips for segments", widest, mend, shop)
    if not stack.halves:
        found.append(
            f"{stack.segments} segments make no two equal halves, so nothing takes out "
            "what the angles are off together. An even number closes more surely."
        )
    found += _short(stack, shop) + _flares(stack)
    found.append(
        "Every joint between segments meets end grain and is weak by itself: rings "
        "stacked like bricks hold each other, a single ring rests on its joints alone."
    )
    return tuple(found + pattern_warnings(asked, stack.pattern))


def _short(stack: Stack, shop: Shop) -> list[str]:
    short = min(ring.outer_edge for ring in stack.rings)
    if short >= mm(75):
        return []
    told = (
        f"Segments {shop_text(short, shop)} long are too short to hold: a hold-down on "
        "the sled holds both strip and segment, and fingers stay off the fence there."
    )
    return [told]


def _flares(stack: Stack) -> list[str]:
    """Where most of the wood becomes chips, thinner rings follow the curve better."""
    if not stack.shaped or share_left(stack) * 4 >= 1:
        return []
    told = (
        f"Of the glued blank {float(share_left(stack)) * 100:.0f} % is left when it is "
        "turned. Thinner rings follow the profile more closely."
    )
    return [told]
