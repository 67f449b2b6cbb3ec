"""A plan parted in boards that are sawn and the rest, and put together again."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.solve import solve
from app.core.cutting.split import joined, split
from app.core.cutting.totals import totals
from app.core.errors import WorkshopError
from app.core.length import inches


def job(boards: int = 4, shelves: int = 7) -> Job:
    """Shelves of which two come out of a board, and one stick each."""
    wide, thick = inches("6"), inches("3/4")
    return Job(
        Saw(inches("1/8")),
        Keep(inches("8"), inches("1")),
        (
            Stock("B", inches("50"), wide, thick, boards),
            Stock("C", inches("30"), wide, thick, 2),
        ),
        (
            Blank("shelf", inches("24"), inches("5"), thick, shelves),
            Blank("lip", inches("20"), inches("3/4"), thick, 2),
        ),
    )


PLAN = solve(job())


def shape(layout: Layout) -> tuple[object, ...]:
    return layout.stock, layout.pieces, frozenset(layout.leftovers)


def count(*plans: Plan) -> Counter[tuple[object, ...]]:
    found: Counter[tuple[object, ...]] = Counter()
    for plan in plans:
        for layout in plan.layouts:
            found[shape(layout)] += layout.copies
    return found


def given_blanks(plan: Plan) -> Counter[str]:
    found: Counter[str] = Counter()
    for layout in plan.layouts:
        for piece in layout.pieces:
            found[piece.blank] += layout.copies
    return found


@given(st.data())
def test_no_board_is_lost_between_what_is_sawn_and_the_rest(
    data: st.DataObject,
) -> None:
    chosen = {
        at: data.draw(st.integers(0, layout.copies))
        for at, layout in enumerate(PLAN.layouts)
    }
    if not any(chosen.values()):
        chosen[0] = 1
    done, rest = split(PLAN, chosen)
    assert count(done, rest) == count(PLAN)
    assert count(joined([done, rest])) == count(PLAN)
    assert {one.id: one.quantity for one in done.job.blanks} == given_blanks(done)
    assert totals(done).stock + totals(rest).stock == totals(PLAN).stock
    for plan in (done, rest):
        cuts = sorted(cut.number for one in plan.layouts for cut in one.cuts)
        assert cuts == list(range(1, len(cuts) + 1))


@pytest.mark.parametrize("chosen", [{}, {0: 0}, {-1: 1}, {99: 1}, {0: 99}])
def test_what_is_not_in_a_plan_cannot_be_parted_from_it(chosen: dict[int, int]) -> None:
    with pytest.raises(WorkshopError):
        split(PLAN, chosen)


def test_boards_that_one_is_resawn_into_stay_together() -> None:
    halves = tuple(Layout(f"B resawn {number}/2", 1, (), (), ()) for number in (1, 2))
    plan = Plan(job(), halves)
    with pytest.raises(WorkshopError, match="resawn"):
        split(plan, {0: 1})
    stock = tuple(Stock(one.stock, inches("50"), inches("6")) for one in halves)
    plan = Plan(Job(PLAN.job.saw, PLAN.job.keep, stock, ()), halves)
    done, rest = split(plan, {0: 1, 1: 1})
    assert len(done.layouts) == 2
    assert not rest.layouts
