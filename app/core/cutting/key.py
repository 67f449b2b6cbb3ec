"""How the cutting diagrams of a plan are to be read: one sheet for all of them."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from app.core.cutting.diagram_marks import crossed, framed
from app.core.cutting.plan import Plan
from app.core.drawing import (
    LETTER,
    NM_PER_MM,
    PAGE_MM,
    TEXT_MM,
    Drawing,
    Label,
    Line,
    Pen,
    Point,
    Shape,
)
from app.core.length import Length

# In nanometres of a page that is drawn at its own size.
LINE = int(TEXT_MM * NM_PER_MM)
SAMPLE = (LINE // 2, 5 * LINE, LINE * 3 // 2)  # from the left, length, width
TEXT_AT = 7 * LINE
DROP = 36  # hundredths of a line from a text's middle to the line it stands on
SIDES = (
    "Left, right, upper and lower are said as the boards are drawn here; lengths run "
    "from left to right along the grain."
)
Box = tuple[int, int, int, int]


def key(plan: Plan) -> Drawing:
    """The marks that stand on a plan's diagrams, each with its meaning."""
    shapes: list[Shape] = []
    lines: list[Line] = []
    labels: list[Label] = []
    y = LINE
    for mark, words in _rows(plan):
        left, length, width = SAMPLE
        box = (left, y, length, width)
        told = wrap(words, int((PAGE_MM * NM_PER_MM - TEXT_AT) / (LINE * LETTER)) - 2)
        shapes += _shapes(mark, box, plan)
        lines += _lines(mark, box)
        labels += _letter(mark, box)
        labels += [
            _label(TEXT_AT, y + width // 2 + n * LINE * 5 // 4, text)
            for n, text in enumerate(told)
        ]
        y += max(width + LINE // 2, (len(told) + 1) * LINE * 5 // 4)
    for text in wrap(SIDES, int(PAGE_MM / (TEXT_MM * LETTER)) - 2):
        labels.append(_label(LINE // 2, y + LINE // 2, text))
        y += LINE * 5 // 4
    return Drawing(
        key="key",
        title="How to read the diagrams",
        description="The marks on the cutting diagrams: "
        + " ".join(words for _, words in _rows(plan)),
        width=Length(PAGE_MM * NM_PER_MM),
        height=Length(y + LINE // 2),
        shapes=tuple(shapes),
        lines=tuple(lines),
        labels=tuple(labels),
    )


def _rows(plan: Plan) -> Iterator[tuple[str, str]]:
    """Which marks stand on this plan's diagrams."""
    left = [one for layout in plan.layouts for one in layout.leftovers]
    used = {layout.stock for layout in plan.layouts}
    yield "blank", "A blank, by its name or by its letter in the cut list."
    if any(layout.cuts for layout in plan.layouts):
        yield "cut", "A kerf with the number of its cut, through all boards."
    if any(one.keep and not one.used_in for one in left):
        yield "offcut", "An offcut to keep: write its name on the wood."
    if any(not one.keep for one in left):
        yield "scrap", "Scrap."
    if any(one.used_in for one in left):
        yield "until", "Left over until the part named beside it cuts it up."
    if any(one.defects and one.id in used for one in plan.job.stock):
        yield "defect", "A defect that the cuts go round."


def _shapes(mark: str, box: Box, plan: Plan) -> list[Shape]:
    species = next((one.species for one in plan.job.stock if one.species), "wood")
    x, y, length, width = box
    if mark == "cut":
        half, gap = length // 2, LINE // 8
        return [
            Shape(_corners((x, y, half - gap, width)), Pen.GRAIN, species),
            Shape(
                _corners((x + half + gap, y, length - half - gap, width)),
                Pen.GRAIN,
                species,
            ),
        ]
    if mark == "blank":
        return [Shape(_corners(box), Pen.GRAIN, species)]
    if mark in {"offcut", "scrap"}:
        return [Shape(_corners(box), Pen.GRAIN, scrap=mark == "scrap")]
    return []


def _lines(mark: str, box: Box) -> list[Line]:
    if mark == "until":
        return framed(box)
    return crossed(box) if mark == "defect" else []


def _letter(mark: str, box: Box) -> list[Label]:
    text = {"blank": "A", "cut": "7", "offcut": "a", "until": "b"}.get(mark)
    if not text:
        return []
    x, y, length, width = box
    at = Point(x + length // 2, y + width // 2 + LINE * DROP // 100)
    return [Label(at, text, italic=text.islower())]


def _label(x: int, y: int, text: str) -> Label:
    return Label(Point(x, y + LINE * DROP // 100), text, anchor="start")


def _corners(box: Box) -> tuple[Point, ...]:
    x, y, length, width = box
    ends = (x + length, y + width)
    return (Point(x, y), Point(ends[0], y), Point(*ends), Point(x, ends[1]))
