"""What the maker of a tray is warned of: common practice, no source."""

from __future__ import annotations

from fractions import Fraction

from app.core import closing
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._spline_steps import spline_warnings
from app.core.forms._tray import Tray
from app.core.length import mm
from app.core.shop import Shop

TENTH = Angle(Fraction(1, 10))
SEEN = mm("0.5")  # a gap that everybody sees: common practice


def warnings(tray: Tray, shop: Shop) -> tuple[str, ...]:
    """What the maker should know before the first cut."""
    found = spline_warnings(tray.splines, tray.kerf, shop)
    if tray.rail_width > mm(60):
        found.append(
            f"Rails {shop_text(tray.rail_width, shop)} wide shrink across and the "
            "mitres open at the inner corner in dry air. Narrower rails, quartered "
            "stock or splines help."
        )
    opens = closing.gap(tray.long_side, tray.sides, TENTH, lengths=tray.sides_round)
    if opens > SEEN:
        found.append(
            "A tenth of a degree on every mitre, all the same way, opens the last one "
            f"by {closing.fine(opens, shop.display)}. Prove the gauge with scraps that "
            "close, and shave the last rails on a shooting board."
        )
    if tray.has_panel:
        found += _panel_warnings(tray, shop)
    return tuple(found)


def _panel_warnings(tray: Tray, shop: Shop) -> list[str]:
    found = []
    if tray.solid_panel and not tray.room:
        found.append(
            "A panel of solid wood without room swells in damp air and pushes the "
            "mitres open. Leave some at each side."
        )
    web = tray.rail_width - tray.groove_depth
    if web * 3 < tray.rail_width:
        found.append(
            f"Only {shop_text(web, shop)} of the rail is left outside the groove. "
            "About half the rail is deep enough."
        )
    if tray.housing == "groove" and tray.groove_up < mm(3):
        found.append(
            f"Only {shop_text(tray.groove_up, shop)} of wood lies under the groove: it "
            "breaks off easily. Move the groove up."
        )
    return found
