"""Cutting diagrams: to scale, named, and the same after keeping."""

from __future__ import annotations

import pytest

from app.core.cutting.diagram import diagrams
from app.core.cutting.solve import solve
from app.core.cutting.written import answer_document, job_document, read_plan
from app.core.drawing import Shape
from tests.core.cutting.jobs import random_job


def extent(shape: Shape) -> tuple[int, int]:
    across = [point.x for point in shape.points]
    down = [point.y for point in shape.points]
    return max(across) - min(across), max(down) - min(down)


@pytest.mark.parametrize("seed", range(12))
def test_every_piece_and_leftover_is_drawn_to_scale(seed: int) -> None:
    plan = solve(random_job(seed))
    drawings = diagrams(plan)
    assert len(drawings) == len(plan.layouts)
    for layout, drawing in zip(plan.layouts, drawings, strict=True):
        areas = [piece.area for piece in layout.pieces]
        areas += [left.area for left in layout.leftovers]
        _board, *drawn = drawing.shapes
        assert [extent(shape)[0] for shape in drawn] == [one.length.nm for one in areas]
        if not plan.job.one_dimensional:
            sizes = [(one.length.nm, one.width.nm) for one in areas]
            assert [extent(shape) for shape in drawn] == sizes
        scrap = [shape.scrap for shape in drawn[len(layout.pieces) :]]
        assert scrap == [not left.keep for left in layout.leftovers]
        numbers = {label.text for label in drawing.labels}
        assert {str(n + 1) for n in range(len(layout.cuts))} <= numbers


@pytest.mark.parametrize("seed", range(40))
def test_a_kept_plan_is_read_back_unchanged(seed: int) -> None:
    plan = solve(random_job(seed), work=1000)
    assert read_plan(job_document(plan.job), answer_document(plan)) == plan
