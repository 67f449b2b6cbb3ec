"""What the maker of a carcass is warned of: common practice, no source."""

from __future__ import annotations

from app.core import closing
from app.core.forms._bench import shop_text
from app.core.forms._carcass import Carcass
from app.core.forms._carcass_assembly import TALL
from app.core.shop import Shop
from app.core.stiffness import CREEP


def warnings(carcass: Carcass, shop: Shop) -> tuple[str, ...]:
    """What the maker should know before the first cut."""
    found = [*_sag(carcass, shop)]
    if not carcass.has_back:
        found.append(
            "Without a back nothing keeps the carcass from leaning over sideways: plan "
            "a rail, or a shelf fixed to the wall."
        )
    if carcass.solid_back and not carcass.back_room:
        found.append(
            "A back of solid wood without room swells in damp air and pushes the sides "
            "apart. Leave some at each side."
        )
    if carcass.dado * 2 > carcass.thickness:
        left = shop_text(carcass.thickness - carcass.dado, shop)
        found.append(
            f"Only {left} of the sides is left behind the dadoes. A third of the "
            "thickness is deep enough."
        )
    if carcass.height > TALL:
        found.append("A carcass this tall can tip forward: fasten it to the wall.")
    return tuple(found)


def _sag(carcass: Carcass, shop: Shop) -> list[str]:
    whole = carcass.sag_under(carcass.load + carcass.own_load)
    if whole is None:
        words = (
            f"No stiffness is published here for {carcass.species}: how far its "
            "shelves sag is not reckoned. Load one and measure."
        )
        return [words]
    found = []
    years = closing.fine(whole * CREEP, shop.display)
    if whole > carcass.shelf_length / 360:
        found.append(
            f"The shelves sag by {closing.fine(whole, shop.display)} at once, more "
            f"than 1/360 of the span, and by {years} after years. Make them thicker or "
            "shorter, or put an upright between."
        )
    elif whole * CREEP > carcass.least_sag:
        found.append(
            f"After years under the load the shelves sag by {years}, which the eye "
            f"notices (more than {closing.fine(carcass.least_sag, shop.display)} on "
            "this span)."
        )
    return found
