"""The page that a tapered vessel is drawn on, with rows of text below."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from app.core import geometry
from app.core.drawing import PAGE_MM, Label, Pen, Shape
from app.core.forms._page import XY, Page
from app.core.forms._tapered import Tapered
from app.core.length import Length
from app.core.shop import Shop
from app.core.wrapped import wrapped

LEADING, LEFT = 5.0, 3.0
# Letters of a quiet text that a line holds.
LINE = 64
# A size and its other system stay on one line.
WHOLE = re.compile(r"[0-9.]+( [0-9]+/[0-9]+)? (in|mm)\b( \([^)]*\))?")
NBSP = "\u00a0"

__all__ = ["PAGE_MM", "XY", "Sheet"]


class Sheet(Page):
    """A page that knows its vessel."""

    def __init__(self, vessel: Tapered, shop: Shop, scale: float) -> None:
        super().__init__(shop, scale)
        self.vessel = vessel

    def rows(self, y: float, texts: Sequence[str]) -> tuple[list[Label], float]:
        """Texts below a drawing, each on lines of its own, and where they end."""
        labels = []
        kept = (WHOLE.sub(lambda found: found[0].replace(" ", NBSP), t) for t in texts)
        for line in (line for text in kept for line in wrapped(text, LINE)):
            label = self.label(LEFT, y, line.replace(NBSP, " "), quiet=True)
            labels.append(replace(label, anchor="start"))
            y += LEADING
        return labels, y - LEADING + 3

    def ring(self, inscribed: float, middle: XY) -> list[XY]:
        """A polygon of the vessel's sides, one flat below; ``inscribed`` in nm."""
        sides = self.vessel.sides
        side = Length.nearest(inscribed * math.tan(math.pi / sides))
        return [
            (middle[0] + self.mm(x), middle[1] + self.mm(y))
            for x, y in geometry.corners(sides, side)
        ]

    def thin(self, points: Iterable[XY], species: str, title: str) -> Shape:
        """A shape with a thin edge, for strips inside an outline."""
        return replace(self.shape(points, species, title), pen=Pen.GRAIN)


def face_rows(vessel: Tapered) -> list[tuple[float, float]]:
    """Where each row begins and ends on the outer face, nm up it."""
    lowest = float(min(up for up, _ in vessel.section))
    edges = accumulate((width.nm for width in vessel.row_widths), initial=lowest)
    long = float(vessel.slant.nm)
    clipped = [min(max(edge, 0.0), long) for edge in edges]
    return list(pairwise(clipped))


def half_at(vessel: Tapered, up: float) -> float:
    """Half of the outer face's length so far up it, nm."""
    low, high = vessel.face_bottom.nm, vessel.face_top.nm
    return (low + (high - low) * up / vessel.slant.nm) / 2
