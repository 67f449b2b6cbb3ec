"""The page that a vessel is drawn on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from textwrap import wrap

from app.core.drawing import LETTER, PAGE_MM, QUIET_TEXT_MM, Label
from app.core.forms._page import XY
from app.core.forms._page import Page as PlainPage
from app.core.forms._vessel import Vessel
from app.core.shop import Shop

__all__ = ["XY", "Page", "clipped"]

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
        for line in (line for text in texts for line in wrap(text, fits)):
            label = self.label(NOTE_X, y, line, quiet=True)
            found.append(replace(label, anchor="start"))
            y += LEADING
        return found, y - LEADING + 2


def clipped(points: Sequence[XY], right_of: float, *, keep_left: bool) -> list[XY]:
    """What an upright line at x leaves of an outline on one of its sides."""
    sign = 1 if keep_left else -1
    found: list[XY] = []
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        a, b = sign * (x1 - right_of), sign * (x2 - right_of)
        if a <= 0:
            found.append((x1, y1))
        if (a < 0 < b) or (b < 0 < a):
            part = a / (a - b)
            found.append((right_of, y1 + (y2 - y1) * part))
    return found
