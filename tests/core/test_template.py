"""Templates fit the paper they are printed on, or say so."""

from __future__ import annotations

import pytest

from app.core import geometry
from app.core.drawing import Drawing, Measure, Point
from app.core.drawing_texts import texts
from app.core.length import Length, inches, mm
from app.core.template import pages, template

Outline = list[tuple[float, float]]


def block(wide_mm: float, high_mm: float) -> Outline:
    wide, high = wide_mm * 1e6, high_mm * 1e6
    return [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]


def made(outline: Outline, **more: object) -> Drawing:
    found = template("t", "A part", "A part.", [outline], **more)  # type: ignore[arg-type]
    assert found is not None
    return found


@pytest.mark.parametrize("sides", range(3, 17))
def test_what_fits_a_page_is_on_one_that_both_papers_hold(sides: int) -> None:
    corners = geometry.corners(sides, geometry.side_of_circumscribed(mm(180), sides))
    drawn = made(list(corners))
    # A4 and US letter less printers' margins of at least 10 mm: the narrower of each.
    assert drawn.width <= mm(190)
    assert drawn.height <= mm(250)
    assert pages(drawn.width, drawn.height) == ((0, 0),)


def test_the_outline_keeps_its_size_to_the_nanometre() -> None:
    (shape,) = made(block(123.456789, 45.6)).shapes
    xs, ys = [p.x for p in shape.points], [p.y for p in shape.points]
    assert max(xs) - min(xs) == 123_456_789
    assert max(ys) - min(ys) == 45_600_000


def test_a_long_part_is_turned_with_its_grain_before_it_takes_two_pages() -> None:
    drawn = made(block(200, 60))
    (shape,) = drawn.shapes
    ys = [p.y for p in shape.points]
    assert max(ys) - min(ys) == 200_000_000
    arrow = next(one for one in drawn.lines if abs(one.end.y - one.start.y) == 16e6)
    assert arrow.start.x == arrow.end.x


@pytest.mark.parametrize(
    ("wide", "high", "count"),
    [(185, 190, 1), (250, 185, 2), (330, 400, 4), (500, 400, 6), (600, 900, 0)],
)
def test_what_is_larger_goes_over_as_few_pages_as_hold_it(
    wide: float, high: float, count: int
) -> None:
    drawn = template("t", "A part", "A part.", [block(wide, high)])
    found = 0 if drawn is None else len(pages(drawn.width, drawn.height))
    assert found == count


def test_dimensions_beside_an_outline_stay_on_the_page() -> None:
    at = Point(0, 0), Point(100_000_000, 0)
    up = Point(0, 0), Point(0, 80_000_000)
    measures = [
        Measure(*at, "3 15/16 in (100.0 mm)", Length(9_000_000)),
        Measure(*up, "3 5/32 in (80.0 mm)", Length(-9_000_000)),
    ]
    drawn = made(block(100, 80), measures=measures, sizes=["cut two"] * 3)
    for text in texts(drawn):
        left, top, right, bottom = text.box
        assert left >= 0
        assert top >= 0
        assert right <= drawn.width.millimetres
        assert bottom <= drawn.height.millimetres


def test_both_bars_are_as_long_as_they_say() -> None:
    drawn = made(block(50, 50), centre=False, grain=None)
    lengths = {abs(line.end.x - line.start.x) for line in drawn.lines}
    assert {mm(100).nm, inches("4").nm} <= lengths
