"""The rails laid out on their mouldings, drawn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from app.core.drawing import QUIET_TEXT_MM, Drawing, Label, Shape, text_width
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
    for number, (rails, count) in enumerate(list(rows.items())[:MOST_ROWS]):
        top = 5.0 + EACH * number
        box = page.box(LEFT, top, LONG, HIGH)
        shapes.append(page.shape(box, title="Left over", scrap=True))
        labels.append(page.label(LEFT / 2, top + 4.7, f"{count} ×"))
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
        labels=tuple(labels),
        width=page.width,
        height=page.offset(floor + 1 + 5 * len(texts)),
    )


def _rails(
    tray: Tray, page: Page, rails: Rails, top: float, shop: Shop
) -> Iterable[tuple[Shape, list[Label]]]:
    """Rails from the left; turned round every second time where they may be."""
    slant, at = page.mm(tray.mitre_back.nm), LEFT + page.mm(shop.end_trim.nm)
    step = page.mm(tray.slant_kerf.nm) - (slant if tray.turns_over else 0)
    for number, rail in enumerate(rails):
        end = at + page.mm(rail.nm)
        outer, inner = (top, top + HIGH)
        if tray.turns_over and number % 2:
            outer, inner = inner, outer
        points = [(at, outer), (end, outer), (end - slant, inner), (at + slant, inner)]
        name = _name(tray, rail)
        wide = text_width(name, QUIET_TEXT_MM) + 2
        fits = wide < end - at - 2 * slant
        label = page.label((at + end) / 2, top + 4.7, name, quiet=True)
        yield page.shape(points, tray.species, name), [label] if fits else []
        at = end + step


def _name(tray: Tray, rail: Length) -> str:
    if not tray.oblong:
        return "rail"
    return "long" if rail == tray.long_side else "short"


def _notes(tray: Tray, page: Page, rows: int) -> list[str]:
    sides = dict.fromkeys(tray.sides_round)
    found = [f"{_name(tray, side)}: {page.show(side)}, outer edge" for side in sides]
    found.append(f"each moulding {page.show(tray.moulding)} long; crossed: left over")
    if rows > MOST_ROWS:
        found.append(f"and {rows - MOST_ROWS} more, in the table")
    return found
