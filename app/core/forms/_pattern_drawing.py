"""The colour picture of a strip pattern: every side laid flat, one beside another."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from app.core.drawing import (
    QUIET_TEXT_MM,
    Drawing,
    Label,
    Measure,
    Pen,
    Shape,
    text_width,
)
from app.core.forms._page import Page
from app.core.length import Length
from app.core.pattern import Panel, Pattern
from app.core.shop import Shop

# Room for texts left and right of the sides, and how wide and high they may be;
# millimetres of the page.
LEFT, WIDE, HIGH, TOP = 36.0, 60.0, 80.0, 11.0


@dataclass(frozen=True, slots=True)
class Flat:
    """What is laid flat: each side's width below and above, and its rows' widths.

    ``widths`` run from the bottom up; where sides lean they lie along the slope.
    """

    pattern: Pattern
    bottom: Length
    top: Length
    widths: tuple[Length, ...]
    panels: tuple[Panel, ...] = ()
    side: str = "side"

    @property
    def high(self) -> int:
        """All rows, nm."""
        return sum(width.nm for width in self.widths)

    @property
    def wide(self) -> int:
        """One side at its widest, nm."""
        return max(self.bottom.nm, self.top.nm)

    @property
    def lettered(self) -> bool:
        """Whether sides come from more than one panel, or stand upside down."""
        return len(self.panels) > 1 or any(one.turned for one in self.panels)


def panel_mark(panels: Sequence[Panel], side: int) -> str:
    """The letter of the panel a side is cut from, with an arrow where it is turned."""
    for panel in panels:
        if side in panel.sides:
            return panel.letter + ("↓" if side in panel.turned else "")
    return ""


def pattern_drawing(
    flat: Flat, shop: Shop, *, key: str = "pattern", title: str = "The sides laid flat"
) -> Drawing:
    """Every side with its strips, numbered."""
    count = flat.pattern.sides
    gap = 0.0 if count == 1 else min(1.2, WIDE / count / 8)
    room = WIDE - gap * (count - 1)
    page = Page(shop, max(flat.wide * count / room, flat.high / HIGH))
    each = page.mm(flat.wide)
    left = LEFT + (WIDE - each * count - gap * (count - 1)) / 2
    starts = [left + (each + gap) * i for i in range(count)]
    floor = TOP + page.mm(flat.high)
    return Drawing(
        key=key,
        title=title,
        description=_words(flat),
        shapes=tuple(
            shape for i, x in enumerate(starts) for shape in _strips(page, flat, i, x)
        ),
        measures=tuple(_measures(page, flat, starts, floor)),
        labels=tuple(_numbers(page, flat, starts)),
        width=page.width,
        height=page.offset(floor + 15),
    )


def _strips(page: Page, flat: Flat, side: int, x: float) -> Iterable[Shape]:
    """One side from the bottom up, narrowing or widening as it leans."""
    middle = x + page.mm(flat.wide) / 2
    floor = TOP + page.mm(flat.high)
    rises = list(accumulate((width.nm for width in flat.widths), initial=0))
    spread = flat.top.nm - flat.bottom.nm
    halves = [page.mm(flat.bottom.nm + spread * rise / flat.high) / 2 for rise in rises]
    for i, name in enumerate(flat.pattern.column(side)):
        low, high = (floor - page.mm(rise) for rise in rises[i : i + 2])
        near, far = halves[i : i + 2]
        points = [
            (middle - far, high),
            (middle + far, high),
            (middle + near, low),
            (middle - near, low),
        ]
        yield replace(page.shape(points, name, name), pen=Pen.GRAIN)


def _numbers(page: Page, flat: Flat, starts: Sequence[float]) -> Iterable[Label]:
    """Above the sides their numbers, and the panels they are cut from."""
    each = page.mm(flat.wide)
    count = len(starts)
    lines = [(TOP - 2.8, [str(i + 1) for i in range(count)], flat.side)]
    if flat.lettered:
        panels = TOP - 2.8, [panel_mark(flat.panels, i) for i in range(count)], "panel"
        lines = [(TOP - 7.6, *lines[0][1:]), panels]
    for y, texts, heading in lines:
        # Where the sides are narrow only every other one, or every fifth, is named.
        needs = max(text_width(text, QUIET_TEXT_MM) for text in texts) + 0.8
        apart = WIDE / count
        every = next((n for n in (1, 2, 5, 10, 20) if apart * n > needs), 50)
        for i in range(every - 1, count, every):
            yield page.label(starts[i] + each / 2, y, texts[i], quiet=True)
        told = page.label(starts[-1] + each + 2.5, y, heading, quiet=True)
        yield replace(told, anchor="start")


def _measures(
    page: Page, flat: Flat, starts: Sequence[float], floor: float
) -> Iterable[Measure]:
    each = page.mm(flat.wide)
    left, right = starts[0], starts[-1] + each
    middle = left + each / 2
    half = page.mm(flat.bottom.nm) / 2
    low = (middle - half, floor), (middle + half, floor)
    yield page.measure(*low, page.show(flat.bottom), -7)
    row = floor - page.mm(flat.widths[0].nm)
    if len(flat.widths) > 1:
        text = page.show(flat.widths[0])
        yield page.measure((left, row), (left, floor), text, -7)
    whole = (right, floor), (right, TOP)
    # Lower than its own text it would need room that is not there.
    if page.mm(flat.high) > 16:
        yield page.measure(*whole, page.show(Length(flat.high)), -9)


def _words(flat: Flat) -> str:
    pattern = flat.pattern
    if pattern.same_all_round:
        count = pattern.sides
        told = f"{count} {flat.side}{'s' if count > 1 else ''}"
        rows = ", ".join(pattern.column(0))
        alike = " alike" if count > 1 else ""
        return f"{told}{alike} in {len(pattern.rows)} rows. From the bottom up: {rows}."
    rows = "; ".join(
        f"{flat.side} {i + 1}: {', '.join(column)}"
        for i, column in enumerate(pattern.columns)
    )
    return (
        f"{pattern.sides} {flat.side}s in {len(pattern.rows)} rows. From the bottom "
        f"up, {rows}."
    )
