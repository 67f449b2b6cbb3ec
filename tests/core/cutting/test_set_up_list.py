"""The cut list sorted by set-up."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from app.core.cutting.order import in_order, sequence, set_ups
from app.core.cutting.plan import Direction, Plan
from app.core.cutting.set_up_list import Becomes, Prepared, by_set_up, prepared
from app.core.cutting.solve import solve
from app.core.length import inches
from tests.core.cutting.jobs import random_job
from tests.core.cutting.test_by_period import series


def cut_free(plan: Plan) -> Counter[str]:
    """Blanks that some cut frees; what is a whole board needs none."""
    names = {one.id: one.name or one.id for one in plan.job.blanks}
    found: Counter[str] = Counter()
    for layout in plan.layouts:
        for piece in layout.pieces:
            found[names[piece.blank]] += layout.copies if layout.cuts else 0
    return +found


@pytest.mark.parametrize("seed", range(60))
def test_every_cut_stands_under_its_setting_and_every_blank_comes_off(
    seed: int,
) -> None:
    plan = solve(random_job(seed), work=1000)
    groups = by_set_up(plan)
    assert len(groups) == set_ups(plan)
    cuts = [cut for group in groups for cut in group.cuts]
    assert [one.number for one in cuts] == [cut.number for _, cut in sequence(plan)]
    came_off: Counter[str] = Counter()
    for one in cuts:
        for off in one.off:
            if off.becomes is Becomes.BLANK:
                came_off[off.name] += one.copies
    assert came_off == cut_free(plan)
    assert sum(group.blanks for group in groups) == came_off.total()


def test_a_set_up_tells_what_goes_where_and_what_comes_off() -> None:
    tray, stop, fence = by_set_up(series())
    assert (tray.words, tray.direction) == (
        "Crosscut stop at 10 in",
        Direction.CROSSCUT,
    )
    assert [group.period for group in (tray, stop, fence)] == ["tray", "box", "box"]
    (cut,) = tray.cuts
    assert (cut.stock, cut.copies, tray.blanks) == ("C1", 2, 2)
    assert cut.against == "left end, squared first"
    base, left = cut.off
    assert (base.becomes, base.name) == (Becomes.BLANK, "base")
    assert (left.becomes, left.name, left.used_in) == (Becomes.OFFCUT, "C1-a", "box")
    rest, scrap = stop.cuts[0].off
    assert (rest.becomes, rest.length) == (Becomes.REST, inches("24"))
    assert scrap.becomes is Becomes.SCRAP
    side, kept = fence.cuts[0].off
    assert (side.name, side.width, kept.name) == ("side", inches("2 1/2"), "C1-b")


def test_what_bears_on_fence_or_stop_is_made_straight_before_the_first_cut() -> None:
    assert prepared(series()) == (
        Prepared(("C1",), ("joint the upper edge", "square the left end")),
    )
    (board,) = series().job.stock
    sawn = replace(series().job, stock=(replace(board, trimmed=True),))
    assert prepared(in_order(replace(series(), job=sawn))) == ()
