"""The page that a vessel is drawn on."""

from __future__ import annotations

from app.core.forms._page import XY
from app.core.forms._page import Page as PlainPage
from app.core.forms._vessel import Vessel
from app.core.shop import Shop

__all__ = ["XY", "Page"]


class Page(PlainPage):
    """A page that knows its vessel."""

    def __init__(self, vessel: Vessel, shop: Shop, scale: float) -> None:
        super().__init__(shop, scale)
        self.vessel = vessel
