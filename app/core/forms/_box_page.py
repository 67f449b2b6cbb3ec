"""The page that a box is drawn on, and the outlines of its walls seen from above."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from app.core.drawing import LETTER, PAGE_MM, QUIET_TEXT_MM, Label, Pen, Shape
from app.core.forms._box import Box
from app.core.forms._box_walls import Wall
from app.core.forms._page import XY
from app.core.forms._page import Page as PlainPage
from app.core.shop import Shop
from app.core.wrapped import wrapped

LEADING = 5.2
# Lower faces have no heavy rim, millimetres of the page.
LEAST = 1.6
LETTERS = int((PAGE_MM - 6) / (QUIET_TEXT_MM * LETTER))


class Page(PlainPage):
    """A page that knows its box."""

    def __init__(self, box: Box, shop: Shop, scale: float) -> None:
        super().__init__(shop, scale)
        self.built = box

    def notes(self, texts: Sequence[str], y: float) -> tuple[list[Label], float]:
        """Quiet lines across the foot of the page, and where they end."""
        lines = [line for text in texts for line in wrapped(text, LETTERS)]
        labels = [
            self.label(PAGE_MM / 2, y + LEADING * i, line, quiet=True)
            for i, line in enumerate(lines)
        ]
        return labels, y + LEADING * len(lines)

    def box_between(self, low: XY, high: XY) -> list[XY]:
        """A rectangle from its lower left corner to its upper right one."""
        return self.box(low[0], high[1], high[0] - low[0], low[1] - high[1])

    def thin(self, points: Iterable[XY], species: str, title: str = "") -> Shape:
        """A face without a heavy rim: strips, end grain."""
        return replace(self.shape(points, species, title), pen=Pen.GRAIN)

    def shaded(
        self, points: Iterable[XY], species: str, tone: int, title: str = ""
    ) -> Shape:
        """A face that is sunk or shows its end grain: darker."""
        made = replace(self.shape(points, species, title), tone=tone)
        high = max(p.y for p in made.points) - min(p.y for p in made.points)
        # Rims of what is very small would run together.
        return made if self.mm(high) > LEAST else replace(made, pen=Pen.GRAIN)

    def empty(self, points: Iterable[XY]) -> Shape:
        """An outline with nothing in it."""
        return self.shape(points)


def fit(wide: float, high: float, room: tuple[float, float]) -> float:
    """The scale, nm to the millimetre, at which something fits its room."""
    return max(wide / room[0], high / room[1])


def levels(box: Box) -> Iterator[tuple[int, int, int]]:
    """Every stretch of height of one row and one finger, nm, with its row."""
    tops = list(accumulate(width.nm for width in box.rows))
    marks = box.fingers.marks if box.fingers else ()
    for low, high in pairwise(sorted({0, *tops, *marks})):
        yield low, high, next(i for i, top in enumerate(tops) if high <= top)


def plan_outline(wall: Wall, finger: int) -> list[tuple[int, int]]:
    """A wall cut level in a finger, from 0: (along, inwards) in nm, dados included."""
    box, out = wall.box, wall.box.outer(wall.number).nm
    near = _end(wall, finger)
    inner = box.wall.nm
    points = list(near)
    for low, high in sorted(wall.dados()):
        floor = inner - (box.dividers.dado.nm if box.dividers else 0)
        points += [(low, inner), (low, floor), (high, floor), (high, inner)]
    return points + [(out - u, t) for u, t in reversed(near)]


def _end(wall: Wall, finger: int) -> list[tuple[int, int]]:
    """The left end from the outer face inwards."""
    box, thick = wall.box, wall.box.wall.nm
    if box.joint == "mitre":
        return [(0, 0), (thick, thick)]
    if box.fingers:
        start = 0 if finger % 2 == wall.number % 2 else thick
        return [(start, 0), (start, thick)]
    lip = thick - box.rebate_depth.nm
    if not box.carries(wall.number):
        return [(lip, 0), (lip, thick)]
    return [(0, 0), (0, lip), (thick, lip), (thick, thick)]


def in_plan(box: Box, number: int, u: float, t: float) -> tuple[float, float]:
    """A place of a wall seen from above, from the box's left and back."""
    long, wide = box.length.nm, box.width.nm
    places = (
        (u, wide - t),
        (long - t, wide - u),
        (long - u, t),
        (t, u),
    )
    return places[number]
