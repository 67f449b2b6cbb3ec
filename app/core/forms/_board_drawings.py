"""The laminated board drawn: from above, its first panel, and the groove.

Coordinates are made in millimetres of the page and scaled up to real nanometres at
the end, so that texts have room.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import accumulate

from app.core.drawing import (
    QUIET_TEXT_MM,
    Drawing,
    Label,
    Line,
    Pen,
    Shape,
    text_width,
)
from app.core.forms._board import Board
from app.core.forms._board_section import section
from app.core.forms._page import Page
from app.core.forms._pattern_drawing import panel_mark
from app.core.pattern import Panel
from app.core.shop import Shop

LEFT, WIDE, HIGH, TOP = 8.0, 82.0, 78.0, 11.0
# A slice's thickness needs room above and to the left of the first.
PANEL_LEFT, PANEL_WIDE, PANEL_TOP = 31.0, 56.0, 16.0


def drawings(board: Board, shop: Shop) -> tuple[Drawing, ...]:
    """From above; each first panel with its cuts; the groove's section."""
    found = [_face(board, shop)]
    found += [_panel(board, panel, shop) for panel in _different(board)]
    found.append(section(board, shop))
    return tuple(found)


def _different(board: Board) -> list[Panel]:
    """At most six panels: further ones differ only in their strips."""
    return list(board.panels[:6])


def _face(board: Board, shop: Shop) -> Drawing:
    page = Page(shop, max(board.length.nm / WIDE, board.width.nm / HIGH))
    long, wide = page.mm(board.length.nm), page.mm(board.width.nm)
    left = LEFT + (WIDE - long) / 2
    right, floor = left + long, TOP + wide
    return Drawing(
        key="face",
        title="The board from above",
        description=_face_words(board, page),
        shapes=tuple(_cells(page, board, left, floor)),
        lines=tuple(_groove_lines(page, board, left, floor)),
        measures=(
            page.measure((left, floor), (right, floor), page.show(board.length), -8),
            page.measure((right, floor), (right, TOP), page.show(board.width), -8),
        ),
        labels=tuple(_slice_numbers(page, board, left)),
        width=page.width,
        height=page.offset(floor + 15),
    )


def _cells(page: Page, board: Board, left: float, floor: float) -> Iterable[Shape]:
    for number in range(board.slices):
        for name, (x0, x1, y0, y1) in board.cells(number):
            box = page.box(
                left + page.mm(x0),
                floor - page.mm(y1),
                page.mm(x1 - x0),
                page.mm(y1 - y0),
            )
            yield replace(page.shape(box, name, name), pen=Pen.GRAIN)


def _groove_lines(page: Page, board: Board, left: float, floor: float) -> list[Line]:
    groove = board.groove
    if not groove:
        return []
    found: list[Line] = []
    for inset in (groove.inset.nm, groove.inset.nm + groove.width.nm):
        box = page.box(
            left + page.mm(inset),
            floor - page.mm(board.width.nm - inset),
            page.mm(board.length.nm - 2 * inset),
            page.mm(board.width.nm - 2 * inset),
        )
        ends = zip(box, [*box[1:], box[0]], strict=True)
        found += [page.line(a, b) for a, b in ends]
    return found


def _slice_numbers(page: Page, board: Board, left: float) -> Iterable[Label]:
    """Above the slices their numbers, and the panels they are cut from."""
    if not board.end:
        return
    edges, count = board.along, board.slices
    lines = [(TOP - 2.6, [str(i + 1) for i in range(count)], "slice")]
    if len(board.panels) > 1 or any(one.turned for one in board.panels):
        letters = [panel_mark(board.panels, i) for i in range(count)]
        lines = [(TOP - 7.2, *lines[0][1:]), (TOP - 2.6, letters, "panel")]
    for y, texts, heading in lines:
        needs = max(text_width(text, QUIET_TEXT_MM) for text in texts) + 0.8
        each = page.mm(edges[-1]) / count
        every = next((n for n in (1, 2, 5, 10) if each * n > needs), 20)
        for i in range(every - 1, count, every):
            x = left + page.mm((edges[i] + edges[i + 1]) / 2)
            yield page.label(x, y, texts[i], quiet=True)
        told = page.label(left + page.mm(edges[-1]) + 2.5, y, heading, quiet=True)
        yield replace(told, anchor="start")


def _face_words(board: Board, page: Page) -> str:
    grain = "end grain" if board.end else "edge grain"
    words = (
        f"A board of {grain}, {page.show(board.length)} long and "
        f"{page.show(board.width)} wide, of {len(board.strips)} strips"
    )
    words += f" and {board.slices} slices." if board.end else "."
    if board.groove:
        faces = "both faces" if board.groove.faces == 2 else "one face"
        words += (
            f" A groove {page.show(board.groove.width)} wide runs round {faces}, "
            f"{page.show(board.groove.inset)} in from the edge."
        )
    return words


def _panel(board: Board, panel: Panel, shop: Shop) -> Drawing:
    """The strips as they are glued up, with the cuts across them."""
    wide = sum(one.nm for one in board.strips)
    page = Page(shop, max(panel.length.nm / PANEL_WIDE, wide / 60))
    long, high = page.mm(panel.length.nm), page.mm(wide)
    left = PANEL_LEFT + (PANEL_WIDE - long) / 2
    right, floor = left + long, PANEL_TOP + high
    name = _panel_name(board, panel)
    across = page.show(board.glued_width)
    measures = [
        page.measure(
            (left, floor),
            (right, floor),
            page.show(panel.length),
            -8,
        ),
        page.measure((right, floor), (right, PANEL_TOP), across, -page.clear(across)),
    ]
    strip = page.show(board.strips[0])
    low = (left, floor), (left, floor - page.mm(board.strips[0].nm))
    measures.append(page.measure(*low, strip, 5))
    if board.end:
        first = (left, PANEL_TOP), (left + page.mm(board.slice_thickness.nm), PANEL_TOP)
        measures.append(page.measure(*first, page.show(board.slice_thickness), 5))
    return Drawing(
        key=f"panel-{panel.letter.lower()}" if len(board.panels) > 1 else "panel",
        title=name,
        description=_panel_words(board, panel, page, name),
        shapes=(
            *_strips(page, board, panel, left, floor),
            *_trim(page, board, panel, left, floor),
        ),
        lines=tuple(_cuts(page, board, panel, left, floor)),
        measures=tuple(measures),
        labels=(
            page.label(60, floor + 20, _panel_label(board, panel, page)),
            page.label(60, floor + 26, f"{len(board.strips)} strips of {strip}"),
        ),
        width=page.width,
        height=page.offset(floor + 29),
    )


def _panel_name(board: Board, panel: Panel) -> str:
    if not board.end:
        return "The panel as it is glued up"
    letter = f" {panel.letter}" if len(board.panels) > 1 else ""
    times = f", {panel.quantity} of it" if panel.quantity > 1 else ""
    return f"First panel{letter} and its slices{times}"


def _panel_label(board: Board, panel: Panel, page: Page) -> str:
    if not board.end:
        return "grain ↔"
    slices = "1 slice" if panel.each == 1 else f"{panel.each} slices"
    return f"grain ↔, {slices}, kerf {page.show(board.cut.kerf)}"


def _panel_words(board: Board, panel: Panel, page: Page, name: str) -> str:
    strips = ", ".join(panel.column)
    words = f"{name}: {page.show(panel.length)} long. Strips from the front: {strips}."
    if board.end:
        words += (
            f" It is cut across into slices "
            f"{page.show(board.slice_thickness)} thick; what is left is crossed out."
        )
    return words


def _strips(
    page: Page, board: Board, panel: Panel, left: float, floor: float
) -> Iterable[Shape]:
    rises = accumulate((one.nm for one in board.strips), initial=0)
    long = page.mm(panel.length.nm)
    for name, width, rise in zip(panel.column, board.strips, rises, strict=False):
        high = page.mm(width.nm)
        box = page.box(left, floor - page.mm(rise) - high, long, high)
        yield replace(page.shape(box, name, name), pen=Pen.GRAIN)


def _starts(board: Board, panel: Panel) -> list[int]:
    """Where each slice starts along its panel, nm, one end squared first."""
    step = board.slice_thickness.nm + board.cut.kerf.nm
    return [step * i for i in range(panel.each)]


def _trim(
    page: Page, board: Board, panel: Panel, left: float, floor: float
) -> list[Shape]:
    if not board.end:
        return []
    end = _starts(board, panel)[-1] + board.slice_thickness.nm
    rest = page.mm(panel.length.nm - end)
    if rest < 0.5:
        return []
    high = page.mm(board.glued_width.nm)
    box = page.box(left + page.mm(end), floor - high, rest, high)
    return [page.shape(box, title="Trim", scrap=True)]


def _cuts(
    page: Page, board: Board, panel: Panel, left: float, floor: float
) -> Iterable[Line]:
    if not board.end:
        return
    high = page.mm(board.glued_width.nm)
    pen = Pen.CUT if page.mm(board.slice_thickness.nm) > 4 else Pen.GRAIN
    for start in _starts(board, panel):
        x = left + page.mm(start + board.slice_thickness.nm)
        yield page.line((x, floor - high - 1.5), (x, floor + 1.5), pen)
