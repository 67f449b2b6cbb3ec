"""The look-out for crowded drawings sees what a reader would trip over."""

from __future__ import annotations

import pytest

from app.core.drawing import Drawing, Label, Line, Measure, Pen, Point, Shape
from app.core.length import Length, mm
from tests.drawings import crowded


def at(x: float, y: float) -> Point:
    return Point(round(x * 1e6), round(y * 1e6))


SQUARE = Shape((at(20, 20), at(80, 20), at(80, 80), at(20, 80)))
WIDE = Measure(at(20, 80), at(80, 80), "60 mm", Length(-8_000_000))


def page(**things: object) -> Drawing:
    return Drawing("one", "One", "One.", mm(120), mm(100), **things)  # type: ignore[arg-type]


def test_a_part_with_its_size_below_and_its_name_inside_is_clear() -> None:
    labels = (Label(at(50, 50), "Base"),)
    assert crowded(page(shapes=(SQUARE,), measures=(WIDE,), labels=labels)) == []


@pytest.mark.parametrize(
    ("things", "fault"),
    [
        ({"labels": (Label(at(2, 50), "Base"),)}, "“Base” leaves the page"),
        ({"labels": (Label(at(50, 2), "Base"),)}, "“Base” leaves the page"),
        ({"lines": (Line(at(50, 50), at(121, 50)),)}, "a line leaves the page"),
        (
            {"labels": (Label(at(50, 50), "Base"), Label(at(53, 51), "grain"))},
            "“Base” and “grain” stand on each other",
        ),
        (
            {"shapes": (SQUARE,), "labels": (Label(at(20, 50), "Base"),)},
            "“Base” stands on an outline",
        ),
        (
            {
                "lines": (Line(at(0, 49), at(90, 51), Pen.HIDDEN),),
                "labels": (Label(at(50, 51), "Base"),),
            },
            "“Base” stands on an outline",
        ),
        (
            {"measures": (WIDE,), "labels": (Label(at(22, 90), "Base"),)},
            "“Base” stands on the line of another size",
        ),
    ],
)
def test_what_cannot_be_read_is_told(things: dict[str, object], fault: str) -> None:
    assert crowded(page(**things)) == [f"one: {fault}"]


def test_thin_lines_of_the_grain_run_behind_the_rim_of_a_text() -> None:
    lines = (Line(at(0, 50), at(90, 50), Pen.GRAIN),)
    assert crowded(page(lines=lines, labels=(Label(at(50, 51), "Base"),))) == []


def test_a_drawing_at_true_size_is_looked_at_on_its_own_page() -> None:
    label = Label(at(150, 50), "Base")
    wide = Drawing("t", "T", "T.", mm(190), mm(100), labels=(label,), true_size=True)
    assert crowded(wide) == []
