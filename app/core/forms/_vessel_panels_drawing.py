"""The panels that the walls are cut from, with the saw's kerfs and the trim."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import accumulate, pairwise

from app.core.drawing import (
    QUIET_TEXT_MM,
    Drawing,
    Label,
    Measure,
    Pen,
    Shape,
    text_width,
)
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_page import Page
from app.core.pattern import Panel
from app.core.shop import Shop

LEFT, LONG, TOP, MOST_HIGH = 36.0, 78.0, 16.0, 60.0
# Where there are several they lie in rows: how high each may be, where a row begins
# and ends, and the room between two of them, across and down.
EACH_HIGH, START, END, ASIDE, BETWEEN = 26.0, 22.0, 116.0, 7.0, 8.0


def unrolled(vessel: Vessel, shop: Shop) -> Drawing:
    """Every sort of panel, outside up, its walls numbered as they are cut."""
    panels = vessel.panels
    several = len(panels) > 1
    longest = max(panel.length.nm for panel in panels)
    high = vessel.height.nm / (EACH_HIGH if several else MOST_HIGH)
    page = Page(vessel, shop, max(longest / LONG, high))
    drawn = _laid_out(page) if several else [_Panel(page, panels[0], LEFT, TOP)]
    last = drawn[-1]
    labels, end = page.notes(
        last.floor + (24 if several else 20), [_told(vessel, page)]
    )
    return Drawing(
        key="unrolled",
        title="The panels for the walls" if several else "The walls unrolled",
        description=_words(vessel, page),
        shapes=tuple(shape for one in drawn for shape in one.shapes()),
        measures=(drawn[0].wall(), *last.measures()),
        labels=(*(label for one in drawn for label in one.labels(several)), *labels),
        width=page.width,
        height=page.offset(end),
    )


def _laid_out(page: Page) -> list[_Panel]:
    """The panels in rows, as many side by side as have room."""
    found: list[_Panel] = []
    x, top = START, TOP
    for panel in page.vessel.panels:
        long = page.mm(panel.length.nm)
        if x > START and x + long > END:
            x, top = START, top + page.mm(page.vessel.height.nm) + BETWEEN
        found.append(_Panel(page, panel, x, top))
        x += long + ASIDE
    return found


class _Panel:
    """One panel with its top left corner at ``left`` and ``top`` on the page."""

    def __init__(self, page: Page, panel: Panel, left: float, top: float) -> None:
        self.page, self.panel, self.vessel = page, panel, page.vessel
        self.left, self.top = left, top
        self.floor = top + page.mm(self.vessel.height.nm)
        self.side = page.mm(self.vessel.outside_side.nm)
        step = self.side + page.mm(self.vessel.kerf.nm)
        self.starts = [left + step * i for i in range(panel.each)]

    def shapes(self) -> Iterable[Shape]:
        page, high = self.page, self.floor - self.top
        rises = list(accumulate((w.nm for w in self.vessel.widths), initial=0))
        for x in self.starts:
            for name, (low, up) in zip(self.panel.column, pairwise(rises), strict=True):
                y = self.floor - page.mm(up)
                points = page.box(x, y, self.side, page.mm(up - low))
                # Thin, so that the kerf stays open between two walls.
                yield replace(page.shape(points, name, name), pen=Pen.GRAIN)
        trim = self.starts[-1] + self.side + page.mm(self.vessel.kerf.nm)
        end = self.left + page.mm(self.panel.length.nm)
        if trim < end - 1:
            points = page.box(trim, self.top, end - trim, high)
            yield page.shape(points, title="Trim", scrap=True)

    def labels(self, several: bool) -> Iterable[Label]:
        page, names = self.page, self._names()
        widest = max(text_width(name, QUIET_TEXT_MM) for name in names) + 1.5
        middle = (self.top + self.floor) / 2 + 1.2
        step = self.starts[1] - self.starts[0] if len(self.starts) > 1 else 99.0
        every = next((n for n in (1, 2, 5, 10) if step * n > widest), 20)
        for i, x in enumerate(self.starts):
            if i % every == 0:
                at = x + self.side / 2
                yield page.label(at, middle, names[i], quiet=True)
        if several:
            times = f" × {self.panel.quantity}" if self.panel.quantity > 1 else ""
            text = f"{self.panel.letter}{times}"
            label = page.label(self.left, self.floor + 4.2, text, quiet=True)
            yield replace(label, anchor="start")

    def _names(self) -> list[str]:
        """The wall that each piece of the first such panel becomes."""
        panel = self.panel
        found = []
        for i in range(panel.each):
            if i >= len(panel.sides):
                found.append("spare")
                continue
            turned = "↓" if panel.sides[i] in panel.turned else ""
            found.append(f"{panel.sides[i] + 1}{turned}")
        return found

    def wall(self) -> Measure:
        """The first wall's length, above it."""
        left, text = self.starts[0], self.page.show(self.vessel.outside_side)
        ends = (left, self.top), (left + self.side, self.top)
        return self.page.measure(*ends, text, 7)

    def measures(self) -> Iterable[Measure]:
        """The whole length below, and the height where this is the only panel."""
        page, vessel, left = self.page, self.vessel, self.starts[0]
        right = self.starts[-1] + self.side
        length = vessel.cut.length(self.panel.each) - vessel.cut.over_length
        if self.panel.each > 1:
            whole = (left, self.floor), (right, self.floor)
            far = -8 if len(vessel.panels) == 1 else -12
            yield page.measure(*whole, page.show(length), far)
        if len(vessel.panels) == 1:
            height = (left, self.floor), (left, self.top)
            yield page.measure(*height, page.show(vessel.height), 9)


def _told(vessel: Vessel, page: Page) -> str:
    told = (
        f"Outside up, a kerf of {page.show(vessel.kerf)} between two walls; crossed "
        "out: trim. Numbers count the walls round the vessel."
    )
    if any(panel.turned for panel in vessel.panels):
        told += " ↓ stands upside down."
    if len(vessel.panels) == 1 and vessel.panel_count > 1:
        told += f" The first of {vessel.panel_count} panels alike."
    if vessel.glued:
        told += f" {len(vessel.widths)} strips, each {page.show(vessel.strip_width)}."
    return told


def _words(vessel: Vessel, page: Page) -> str:
    each = vessel.longest_panel.each
    count = vessel.panel_count
    panels = f" One of {count} panels." if count > 1 else ""
    return (
        f"{each} walls in order along {page.show(vessel.each_panel_length)}, a kerf "
        f"of {page.show(vessel.kerf)} between them, outside faces up, trim at the end "
        f"crossed out.{panels}"
    )
