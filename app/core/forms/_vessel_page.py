"""The page that a vessel is drawn on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from app.core.drawing import LETTER, PAGE_MM, QUIET_TEXT_MM, Label
from app.core.forms._page import XY
from app.core.forms._page import Page as PlainPage
from app.core.forms._vessel import Vessel
from app.core.shop import Shop
from app.core.wrapped import wrapped

__all__ = ["XY", "Page"]

LEADING = 5.2
NOTE_X = 4.0


class Page(PlainPage):
    """A page that knows its vessel."""

    def __init__(self, vessel: Vessel, shop: Shop, scale: float) -> None:
        super().__init__(shop, scale)
        self.vessel = vessel

    def notes(self, y: float, texts: Iterable[str]) -> tuple[list[Label], float]:
        """Lines of quiet text from ``y`` down, and where they end."""
        fits = int((PAGE_MM - 2 * NOTE_X) / (QUIET_TEXT_MM * LETTER))
        found = []
        for line in (line for text in texts for line in wrapped(text, fits)):
            label = self.label(NOTE_X, y, line, quiet=True)
            found.append(replace(label, anchor="start"))
            y += LEADING
        return found, y - LEADING + 2
