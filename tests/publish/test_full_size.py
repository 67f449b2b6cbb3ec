"""What is printed at full size is true, as a general PDF library reads it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from app.core import geometry
from app.core.drawing import Drawing
from app.core.length import inches, mm
from app.core.template import template
from app.publish import full_size
from app.publish.exporters import episode_html, plan_pdf
from app.publish.sheet import TableLine, from_json, to_json
from app.services.sheet_build import picture
from tests.publish.paths import MM_PER_POINT, Stroke, pages, strokes
from tests.publish.sheets import planter

# Line ends are written to a hundredth of a millimetre.
NEAR = 0.02


def base(sides: int, side: str) -> Drawing:
    corners = geometry.corners(sides, inches(side))
    made = template("base-template", "The base", "A base.", [corners])
    assert made is not None
    return made


def long(stroke: Stroke) -> float:
    return math.hypot(stroke[2] - stroke[0], stroke[3] - stroke[1])


def flat(found: list[Stroke]) -> list[float]:
    """The lengths of level strokes, millimetres."""
    return [long(one) for one in found if abs(one[1] - one[3]) < NEAR]


@pytest.mark.parametrize(
    ("unit", "paper"), [("in", (215.9, 279.4)), ("mm", (210, 297))]
)
def test_a_template_prints_true_on_its_paper(
    unit: str, paper: tuple[float, float]
) -> None:
    """Paper: ANSI/ASME Y14.1 size A and ISO 216 A4, millimetres; from memory."""
    content = full_size.render(picture(base(6, "2 1/2")), unit, "Porch, part 1")
    (page,) = pages(content)
    size = float(page.mediabox.width), float(page.mediabox.height)
    assert [round(side * MM_PER_POINT, 1) for side in size] == list(paper)
    found = strokes(page)
    # The bars to measure, and the six sides of 2 1/2 in, 25.4 mm to the inch.
    for wanted in (100.0, 101.6):
        assert any(abs(one - wanted) < NEAR for one in flat(found)), wanted
    assert sum(abs(long(one) - 63.5) < NEAR for one in found) == 6


def test_one_that_is_larger_than_a_page_goes_over_several_that_meet_at_crosses() -> (
    None
):
    content = full_size.render(picture(base(4, "9")), "mm", "")
    found = [strokes(page) for page in pages(content)]
    marks = [crosses(page) for page in found]
    assert len(found) == 4
    # On A4: 10 mm beside the window and 23.5 mm below it, crosses 10 mm within.
    wanted = {(x, y) for x in (20.0, 190.0) for y in (33.5, 263.5)}
    assert all(wanted <= one for one in marks)
    # The upright sides of 9 in are as far apart once cross lies on cross.
    left, right = (upright(page, 228.6) for page in found[:2])
    assert min(left) + 228.6 == pytest.approx(max(right) + 170, abs=NEAR)


def crosses(page: list[Stroke]) -> set[tuple[float, float]]:
    """The middles of level strokes of 16 mm."""
    return {
        (round((one[0] + one[2]) / 2, 1), round(one[1], 1))
        for one in page
        if abs(one[1] - one[3]) < NEAR and abs(long(one) - 16) < NEAR
    }


def upright(page: list[Stroke], high: float) -> list[float]:
    """Where upright strokes of this length stand, from left to right."""
    tall = [one for one in page if abs(abs(one[3] - one[1]) - high) < NEAR]
    return sorted((one[0] for one in tall), reverse=True)


def test_the_plan_gives_each_template_a_page_of_its_own_at_full_size() -> None:
    plain = planter()
    drawn = picture(base(6, "2 1/2"))
    sheet = replace(plain, drawings=(*plain.drawings, drawn))
    before, after = (pages(plan_pdf.render(one)) for one in (plain, sheet))
    assert len(after) == len(before) + 1
    assert any(abs(one - 100.0) < NEAR for one in flat(strokes(after[-1])))
    assert "Full size" in after[-1].extract_text()


def test_a_sheet_frozen_before_drawings_had_a_true_size_still_opens() -> None:
    document = to_json(planter())
    for drawing in document["drawings"]:
        del drawing["key"], drawing["true_wide"], drawing["true_high"]
    del document["tables"]
    assert from_json(document) == planter()


def test_a_table_is_in_the_plan_and_on_the_page() -> None:
    table = TableLine("t", "How sure it is", ("off by", "gap"), (("0.1°", "0.2 mm"),))
    sheet = replace(planter(), tables=(table,))
    text = " ".join(page.extract_text() for page in pages(plan_pdf.render(sheet)))
    html = episode_html.render(sheet).decode()
    for words in ("How sure it is", "off by", "0.2 mm"):
        assert words in text
        assert words in html


def test_a_drawing_that_is_not_at_true_size_says_none() -> None:
    drawn = picture(replace(base(6, "2 1/2"), true_size=False, width=mm(190)))
    assert not drawn.true_size
