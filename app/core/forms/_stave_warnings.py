"""What the maker of a stave cylinder is told before the wood is cut."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.forms._stave import Cylinder
from app.core.forms._turned_warnings import turning_warnings, wide_boards
from app.core.shop import Shop


def warnings(made: Cylinder, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    found = turning_warnings(made.turning, made.across_corners, shop)
    found += wide_boards("Staves", made.width, "More staves are narrower.", shop)
    names = len(made.kinds)
    if made.staves % 2:
        found.append(
            f"{made.staves} staves make no two equal halves, so nothing takes out what "
            "the bevels are off together. An even number closes more surely."
        )
    if names > 1 and made.woods[0] == made.woods[-1]:
        found.append(
            f"The species do not come round: staves {made.staves} and 1 are both "
            f"{made.woods[0]}."
        )
    if made.profile.height > made.outside * 2:
        found.append(
            f"At {shop_text(made.profile.height, shop)} it is more than twice as long "
            "as it is wide: the inside needs a steady rest, or stays as it was sawn."
        )
    return tuple(found)
