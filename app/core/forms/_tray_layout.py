"""The rails laid out on their mouldings, drawn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import accumulate

from app.core.drawing import QUIET_TEXT_MM, Drawing, Label, Line, Pen, Shape, text_width
from app.core.forms._page import Page
from app.core.forms._tray import Tray
from app.core.forms._tray_mouldings import Rails
from app.core.length import Length
from app.core.shop import Shop

LONG, LEFT = 94.0, 20.0  # the moulding on the page
HIGH, EACH = 7.0, 13.0  # a row; drawn wider than it is, or it could not be seen
MOST_ROWS = 6


def layout(tray: Tray, laid: tuple[Rails, ...], shop: Shop) -> Drawing:
    """Every different moulding once, with how many are cut like it."""
    page = Page(shop, tray.moulding.nm / LONG)
    rows = Counter(laid)
    shapes: list[Shape] = []
    labels: list[Label] = []
    lines: list[Line] = []
    for number, (rails, count) in enumerate(list(rows.items())[:MOST_ROWS]):
        top = 5.0 + EACH * number
        box = page.box(LEFT, top, LONG, HIGH)
        shapes.append(page.shape(box, title="Left over", scrap=True))
        labels.append(page.label(LEFT / 2, top + 4.7, f"{count} ×"))
        lines += _cuts(tray, page, rails, top, shop)
        for shape, label in _rails(tray, page, rails, top, shop):
            shapes.append(shape)
            labels += label
    floor = 5.0 + EACH * min(len(rows), MOST_ROWS)
    texts = _notes(tray, page, len(rows))
    labels += [
        page.label(60, floor + 3 + 5 * i, text, quiet=True)
        for i, text in enumerate(texts)
    ]
    return Drawing(
        key="mouldings",
        title="The rails on their mouldings",
        description="Rails side by side on each moulding, outer edges up, "
        f"{page.show(shop.end_trim)} trimmed off first; what is left is crossed out.",
        shapes=tuple(shapes),
        lines=tuple(lines),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(floor + 1 + 5 * len(texts)),
    )


def _rails(
    tray: Tray, page: Page, rails: Rails, top: float, shop: Shop
) -> Iterable[tuple[Shape, list[Label]]]:
    """Rails from the left, each in the middle of its over-size length."""
    slant, low = page.mm(tray.mitre_back.nm), top + HIGH
    for rail, start in zip(rails, _starts(tray, page, rails, shop), strict=True):
        at = start + page.mm((tray.uncut(rail) - rail).nm) / 2
        end = at + page.mm(rail.nm)
        points = [(at, top), (end, top), (end - slant, low), (at + slant, low)]
        name = _name(tray, rail)
        wide = text_width(name, QUIET_TEXT_MM) + 2
        fits = wide < end - at - 2 * slant
        label = page.label((at + end) / 2, top + 4.7, name, quiet=True)
        yield page.shape(points, tray.species, name), [label] if fits else []


def _starts(tray: Tray, page: Page, rails: Rails, shop: Shop) -> list[float]:
    """Where each rail is sawn off square, on the page."""
    lengths = (page.mm((tray.uncut(rail) + tray.kerf).nm) for rail in rails)
    return list(accumulate(lengths, initial=LEFT + page.mm(shop.end_trim.nm)))[:-1]


def _cuts(
    tray: Tray, page: Page, rails: Rails, top: float, shop: Shop
) -> Iterable[Line]:
    """The square cuts, with which the rails come off at their rough lengths."""
    starts = _starts(tray, page, rails, shop)
    ends = [
        start + page.mm(tray.uncut(rail).nm)
        for start, rail in zip(starts, rails, strict=True)
    ]
    for x in (starts[0], *ends):
        yield page.line((x, top - 1.2), (x, top + HIGH + 1.2), Pen.CUT)


def _name(tray: Tray, rail: Length) -> str:
    if not tray.oblong:
        return "rail"
    return "long" if rail == tray.long_side else "short"


def _notes(tray: Tray, page: Page, rows: int) -> list[str]:
    sides = dict.fromkeys(tray.sides_round)
    found = [f"{_name(tray, side)}: {page.show(side)}, outer edge" for side in sides]
    found.append("sawn off square at the lines, over size; mitred later")
    found.append(f"each moulding {page.show(tray.moulding)} long; crossed: left over")
    if rows > MOST_ROWS:
        found.append(f"and {rows - MOST_ROWS} more, in the table")
    return found
