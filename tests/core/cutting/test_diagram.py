"""Cutting diagrams: to scale, named, and the same after keeping."""

from __future__ import annotations

import re

import pytest

from app.core.cutting.diagram import diagrams
from app.core.cutting.job import Area, Blank, Job, Keep, Saw, Stock
from app.core.cutting.plan import Cut, Direction, Layout, Leftover, Placed, Plan
from app.core.cutting.solve import solve
from app.core.cutting.written import answer_document, job_document, read_plan
from app.core.drawing import PAGE_MM, TEXT_MM, Drawing, Label, Pen, Shape
from app.core.drawing_texts import labelled
from app.core.length import inches
from tests.core.cutting.jobs import random_job
from tests.core.cutting.test_by_period import series
from tests.drawings import crowded


def extent(shape: Shape) -> tuple[int, int]:
    across = [point.x for point in shape.points]
    down = [point.y for point in shape.points]
    return max(across) - min(across), max(down) - min(down)


def told(drawing: Drawing, pattern: str) -> list[str]:
    """What the texts of a drawing say after a pattern, one text after the other."""
    whole = " ".join(label.text for label in drawing.labels)
    return re.findall(pattern, whole)


def widened(drawing: Drawing) -> int:
    """How many times larger widths are drawn than lengths, by its own words."""
    found = told(drawing, r"Widths are drawn (\d+) times as large as lengths\.")
    return int(found[0]) if found else 1


@pytest.mark.parametrize("seed", range(12))
def test_every_piece_and_leftover_is_drawn_to_the_scale_it_tells(seed: int) -> None:
    plan = solve(random_job(seed), work=50_000)
    drawings = diagrams(plan)
    assert len(drawings) == len(plan.layouts)
    for layout, drawing in zip(plan.layouts, drawings, strict=True):
        areas = [piece.area for piece in layout.pieces]
        areas += [left.area for left in layout.leftovers]
        _board, *drawn = drawing.shapes
        assert [extent(shape)[0] for shape in drawn] == [one.length.nm for one in areas]
        if not plan.job.one_dimensional:
            times = widened(drawing)
            sizes = [(one.length.nm, one.width.nm * times) for one in areas]
            assert [extent(shape) for shape in drawn] == sizes
        scrap = [shape.scrap for shape in drawn[len(layout.pieces) :]]
        assert scrap == [not left.keep for left in layout.leftovers]


@pytest.mark.parametrize("seed", range(12))
def test_every_cut_is_numbered_or_said_to_have_no_room(seed: int) -> None:
    plan = solve(random_job(seed), work=50_000)
    for layout, drawing in zip(plan.layouts, diagrams(plan), strict=True):
        shown = {int(one.text) for one in drawing.labels if one.text.isdecimal()}
        for run in told(drawing, r"without room for a number: ([\d–, ]+)\."):
            for one in run.split(", "):
                first, _, last = one.partition("–")
                shown |= set(range(int(first), int(last or first) + 1))
        assert shown == {cut.number for cut in layout.cuts}


@pytest.mark.parametrize("seed", range(40))
def test_no_text_stands_on_another_on_an_outline_or_off_the_page(seed: int) -> None:
    for drawing in diagrams(solve(random_job(seed), work=1000)):
        assert not crowded(drawing)


@pytest.mark.parametrize("seed", range(40))
def test_every_piece_is_named_or_lettered_or_said_to_be_too_small(seed: int) -> None:
    for drawing in diagrams(solve(random_job(seed), work=1000)):
        scale = drawing.width.nm / PAGE_MM
        legend = [one.text.split(": ") for one in drawing.labels if ": " in one.text]
        meant = {line[0]: line[1] for line in legend}
        small = told(drawing, r"too small for their letter: ([A-Za-z, ]+)\.")
        too_small = set(small[0].split(", ")) if small else set()
        for shape in drawing.shapes[1:]:
            if shape.scrap:
                continue
            inside = [one.text for one in drawing.labels if within(one, shape, scale)]
            name, size = shape.title.removesuffix(", turned").split(", ")
            letters = {
                key
                for key, words in meant.items()
                if words.startswith(f"{name}, ") or words == f"{name}, {size}"
            }
            own = name.removeprefix("offcut ")
            assert own in " ".join(inside) or letters & ({*inside} | too_small)


def within(label: Label, shape: Shape, scale: float) -> bool:
    """Whether the middle of a text is in a shape; ``scale``: nm to the mm of page."""
    across = [point.x for point in shape.points]
    down = [point.y for point in shape.points]
    middle = label.at.y - 0.36 * TEXT_MM * scale
    slack = 0.02 * TEXT_MM * scale
    inside = min(across) - slack <= label.at.x <= max(across) + slack
    return inside and min(down) - slack <= middle <= max(down) + slack


def test_a_long_narrow_board_is_drawn_wider_so_that_strips_can_be_lettered() -> None:
    # 96 x 7 1/2 in with strips of 2 1/8 in: to scale a strip would be 1.9 mm of 120.
    job = Job(
        saw=Saw(inches("1/8"), inches("1/2"), inches("1/8")),
        keep=Keep(inches("8"), inches("1")),
        stock=(Stock("C1", inches("96"), inches("7 1/2"), None, cost=None),),
        blanks=(Blank("strip", inches("25 1/8"), inches("2 1/8"), None, quantity=3),),
    )
    (drawing,) = diagrams(solve(job))
    assert widened(drawing) > 1
    assert [one.text for one in drawing.labels].count("A") == 3
    assert "A: strip, 2 1/8 × 25 1/8" in [one.text for one in drawing.labels]


@pytest.mark.parametrize("seed", range(30))
def test_every_offcut_bears_a_name_of_its_own_board(seed: int) -> None:
    plan = solve(random_job(seed), work=1000)
    for layout, drawing in zip(plan.layouts, diagrams(plan), strict=True):
        named = [one.title for one in drawing.shapes if one.title.startswith("offcut")]
        assert len(named) == sum(one.keep for one in layout.leftovers)
        assert all(title.startswith(f"offcut {layout.stock}-") for title in named)
        assert len({title.split(", ")[0] for title in named}) == len(named)


def test_a_defect_is_framed_in_dashes_and_struck_through() -> None:
    knot = rect("20", "1", "2", "1 1/2")
    stock = Stock("C1", inches("40"), inches("6"), defects=(knot,))
    top = Blank("top", inches("16"), inches("6"))
    layout = Layout(
        "C1",
        1,
        (Placed("top", rect("0", "0", "16", "6")),),
        (Leftover(rect("16 1/8", "0", "23 7/8", "6"), keep=False),),
        (
            Cut(
                Direction.CROSSCUT,
                inches("16"),
                inches("1/8"),
                rect("0", "0", "40", "6"),
            ),
        ),
    )
    job = Job(Saw(inches("1/8")), Keep(inches("8"), inches("1")), (stock,), (top,))
    (drawing,) = diagrams(Plan(job, (layout,)))
    dashed = [line for line in drawing.lines if line.pen is Pen.HIDDEN]
    across = {point.x for line in dashed for point in (line.start, line.end)}
    assert max(across) - min(across) == inches("2").nm
    assert [line.pen for line in drawing.lines].count(Pen.OUTLINE) == 1
    assert drawing.description.endswith("1 defect cut around.")
    assert not crowded(drawing)


def test_what_a_later_part_uses_is_outlined_with_the_part_that_will() -> None:
    drawing = diagrams(series())[0]
    outline = [line for line in drawing.lines if line.pen is Pen.CUT]
    across = {point.x for line in outline for point in (line.start, line.end)}
    assert len(outline) == 4
    assert max(across) - min(across) == inches("29 7/8").nm
    words = " ".join(label.text for label in drawing.labels)
    assert "a: C1-a, 6 × 29 7/8, left over until box" in words
    assert not crowded(drawing)


def rect(x: str, y: str, length: str, width: str) -> Area:
    return Area(inches(x), inches(y), inches(length), inches(width))


@pytest.mark.parametrize("seed", range(40))
def test_a_kept_plan_is_read_back_unchanged(seed: int) -> None:
    plan = solve(random_job(seed), work=1000)
    assert read_plan(job_document(plan.job), answer_document(plan)) == plan


def test_the_paper_behind_a_name_leaves_the_outline_whole() -> None:
    # Two lines of text would have stood to the very edge of the offcut.
    board = Stock("O", inches("36"), inches("4"), trimmed=True, name="Offcut 20")
    leg = Blank("leg", inches("18 1/2"), inches("2 7/8"), name="Leg")
    keep = Keep(inches("12"), inches("2"))
    (drawing,) = diagrams(solve(Job(Saw(inches("1/8")), keep, (board,), (leg,))))
    corners = drawing.shapes[0].points
    foot = max(point.y for point in corners) / drawing.scale
    boxes = [labelled(one, drawing.scale).box for one in drawing.labels]
    # The outline is half a millimetre wide.
    assert not [box for box in boxes if box[1] < foot and box[3] > foot - 0.25]
    assert "offcut Offcut 20-a, 4 × 17 3/8" in " ".join(
        one.text for one in drawing.labels
    )
