"""The planner: what it must never do, and what a shop expects of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.cutting.totals import levels, totals
from app.core.errors import WorkshopError
from app.core.length import Length, inches
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import random_job

KERF = inches("1/8")
KEEP = Keep(inches("8"), inches("1"))
PLAIN = Saw(KERF)


def job(
    stock: list[Stock], blanks: list[Blank], saw: Saw = PLAIN, **more: object
) -> Job:
    return Job(saw, KEEP, tuple(stock), tuple(blanks), **more)  # type: ignore[arg-type]


def board(
    length: str, width: str | None = None, name: str = "board", **more: object
) -> Stock:
    wide = None if width is None else inches(width)
    return Stock(name, inches(length), wide, **more)  # type: ignore[arg-type]


def blank(
    length: str, width: str | None = None, name: str = "blank", **more: object
) -> Blank:
    wide = None if width is None else inches(width)
    return Blank(name, inches(length), wide, **more)  # type: ignore[arg-type]


def planned(asked: Job, work: int = 150_000) -> Plan:
    plan = solve(asked, work=work)
    check(plan)
    return plan


@pytest.mark.parametrize("seed", range(250))
def test_every_random_plan_can_be_sawn_and_accounts_for_all_wood(seed: int) -> None:
    plan = planned(random_job(seed))
    sums = totals(plan)
    assert sums.stock == sums.parts + sums.kerf + sums.offcuts + sums.scrap
    for level in levels(plan):
        if level.objective in {"cost", "stock_pieces"}:
            assert level.value >= level.bound


def test_the_worked_row_of_three() -> None:
    # 96  [side 30][side 30][shelf 24 1/4]  offcut 11 3/8   with a 1/8 kerf
    plan = planned(
        job([board("96")], [blank("30", name="side", quantity=2), blank("24 1/4")])
    )
    (layout,) = plan.layouts
    (left,) = layout.leftovers
    assert left.area.length == inches("11 3/8")
    assert left.keep
    assert len(layout.cuts) == 3


def test_a_piece_that_ends_at_the_edge_needs_no_cut() -> None:
    plan = planned(job([board("20 1/8")], [blank("10", quantity=2)]))
    assert [cut.kerf for cut in plan.layouts[0].cuts] == [KERF]
    assert not plan.layouts[0].leftovers
    assert not plan.unplaced


def test_a_last_sliver_thinner_than_the_kerf_is_all_dust() -> None:
    plan = planned(job([board("10 1/16")], [blank("10")]))
    assert [cut.kerf for cut in plan.layouts[0].cuts] == [inches("1/16")]
    assert not plan.layouts[0].leftovers


def test_trims_come_off_both_ends_and_edges_kerf_included() -> None:
    saw = Saw(KERF, inches("1/2"), inches("1/4"))
    fits = job([board("11", "4 1/2")], [blank("10", "4")], saw)
    plan = planned(fits)
    assert not plan.unplaced
    assert len(plan.layouts[0].cuts) == 4
    assert sum(one.area.length.nm for one in plan.layouts[0].leftovers) > 0
    over = replace(fits, blanks=(blank("10 1/64", "4"),))
    assert planned(over).unplaced


def test_an_offcut_sawn_all_round_is_not_trimmed_again() -> None:
    # 10 x 4 exactly: with trims nothing of that size fits, without them all of it.
    saw = Saw(KERF, inches("1/2"), inches("1/4"))
    offcut = board("10", "4", offcut=True)
    assert planned(job([offcut], [blank("10", "4")], saw)).unplaced
    plan = planned(job([replace(offcut, trimmed=True)], [blank("10", "4")], saw))
    assert not plan.unplaced
    assert not plan.layouts[0].cuts
    assert not plan.layouts[0].leftovers


def test_a_sawn_offcut_gives_one_more_where_its_trims_would_have_gone() -> None:
    # 20 1/8 = 10 + kerf 1/8 + 10; with 1/2 off each end only 19 1/8 is left.
    saw = Saw(KERF, inches("1/2"), inches("1/4"))
    offcut = board("20 1/8", "4", offcut=True, trimmed=True)
    plan = planned(job([offcut], [blank("10", "4", quantity=2)], saw))
    assert [cut.kerf for cut in plan.layouts[0].cuts] == [KERF]
    assert not [cut for cut in plan.layouts[0].cuts if cut.set_up.startswith("Trim")]
    sums = totals(plan)
    assert (sums.offcuts, sums.scrap) == (0, 0)
    assert sums.stock == sums.parts + sums.kerf


def test_what_is_too_long_for_a_sawn_offcut_is_told_its_whole_length() -> None:
    saw = Saw(KERF, inches("1/2"), inches("1/4"))
    stock = [board("20", "4", offcut=True, trimmed=True)]
    (unplaced,) = planned(job(stock, [blank("21", "4")], saw)).unplaced
    assert "the longest has 20 in." in unplaced.why
    assert "trims" not in unplaced.why


def test_grain_stays_unless_a_blank_may_turn() -> None:
    stock = [board("20", "6")]
    assert planned(job(stock, [blank("5", "10")])).unplaced
    turned = planned(job(stock, [blank("5", "10", may_turn=True)]))
    assert turned.layouts[0].pieces[0].turned


@pytest.mark.parametrize(
    ("stock", "wanted", "why"),
    [
        (board("30", "6"), blank("31", "2"), "Longer than any wood board"),
        (board("30", "6"), blank("12", "7"), "Wider than any wood board"),
        (
            board("30", "6", species="cherry"),
            blank("12", "2", species="walnut"),
            "There is no walnut",
        ),
        (
            board("30", "6", thickness=inches("1/2")),
            blank("12", "2", thickness=inches("3/4")),
            "No wood that is 3/4 in thick",
        ),
        (board("30", "6"), blank("12", "6", quantity=3), "not enough wood left"),
    ],
)
def test_what_has_no_place_is_listed_with_the_reason(
    stock: Stock, wanted: Blank, why: str
) -> None:
    (unplaced,) = planned(job([stock], [wanted])).unplaced
    assert why in unplaced.why


def test_thicker_stock_serves_as_far_as_it_may_be_planed() -> None:
    stock = [board("30", "6", thickness=inches("1"))]
    wanted = [blank("12", "2", thickness=inches("3/4"))]
    assert planned(job(stock, wanted)).unplaced
    assert not planned(job(stock, wanted, plane=inches("1/4"))).unplaced
    assert planned(job(stock, wanted, plane=inches("1/8"))).unplaced


def test_offcuts_go_before_boards_and_the_rack_before_the_dealer() -> None:
    plan = planned(
        job(
            [
                board("96", "8", "bought", quantity=None, cost=900),
                board("96", "8", "rack"),
                board("14", "5", "offcut", offcut=True),
            ],
            [blank("12", "4", name="small"), blank("60", "7", name="large")],
        )
    )
    assert [layout.stock for layout in plan.layouts] == ["offcut", "rack"]
    assert plan.layouts[0].pieces[0].blank == "small"
    assert totals(plan).cost == 0


def test_boards_are_drawn_as_they_are_fetched() -> None:
    # The planner takes the small offcut first; it lies last on the rack.
    plan = planned(
        job(
            [
                board("40", "6", "rack"),
                board("30", "5", "first", offcut=True),
                board("14", "5", "last", offcut=True),
            ],
            [
                blank("12", "4", name="small"),
                blank("28", "4", name="middle"),
                blank("39", "5 1/2", name="large"),
            ],
        )
    )
    assert [layout.stock for layout in plan.layouts] == ["first", "last", "rack"]


def test_the_cheaper_of_two_boards_is_bought() -> None:
    stock = [
        board("96", "8", "dear", quantity=None, cost=9000),
        board("48", "8", "cheap", quantity=None, cost=4000),
    ]
    plan = planned(job(stock, [blank("40", "6")]))
    assert [layout.stock for layout in plan.layouts] == ["cheap"]


def test_as_many_boards_as_wanted_may_be_used() -> None:
    plan = planned(job([board("10", quantity=None)], [blank("10", quantity=40)]))
    assert [layout.copies for layout in plan.layouts] == [40]


@pytest.mark.parametrize("stages", [2, 3])
@pytest.mark.parametrize("first", ["crosscut", "rip"])
@pytest.mark.parametrize("seed", range(20))
def test_rounds_of_cuts_stay_within_the_stages_asked_for(
    seed: int, first: str, stages: int
) -> None:
    asked = replace(random_job(seed), stages=stages, first=first)
    planned(asked)  # the checker counts the rounds


def test_the_same_job_gives_the_same_plan() -> None:
    first, second = (solve(random_job(7), work=400_000) for _ in range(2))
    assert first == second


def test_progress_is_told_while_ways_are_tried() -> None:
    told: list[tuple[int, int]] = []
    solve(random_job(3), lambda done, ways: told.append((done, ways)))
    assert [done for done, _ in told] == list(range(1, len(told) + 1))


def test_a_thousand_blanks_are_planned_by_work_not_by_the_clock() -> None:
    wanted = [
        blank(f"{4 + n % 37} {1 + n % 7}/8", f"{1 + n % 5}", f"b{n}")
        for n in range(1000)
    ]
    stock = [board("96", "8", quantity=None, cost=4000)]
    spent = [0]
    plan = solve(job(stock, wanted), lambda done, _: spent.append(done))
    check(plan)
    assert not plan.unplaced
    assert spent[-1] < 16  # stopped by the work it may do, not by running out of ways


def test_widths_for_some_pieces_only_are_refused() -> None:
    with pytest.raises(WorkshopError, match="has no width"):
        solve(job([board("30", "4")], [blank("10")]))


def test_equal_fence_settings_are_sawn_together() -> None:
    plan = planned(
        job(
            [board("60", "6")],
            [
                blank("20", "2 1/2", "wide", quantity=2),
                blank("20", "1", "thin", quantity=4),
            ],
            first="crosscut",
            stages=2,
        )
    )
    set_ups = [cut.set_up for cut in plan.layouts[0].cuts]
    runs = [one for at, one in enumerate(set_ups) if not at or set_ups[at - 1] != one]
    assert len(runs) == len(set(runs))


def test_nothing_to_cut_from_is_said() -> None:
    (unplaced,) = planned(job([], [blank("10")])).unplaced
    assert "no stock" in unplaced.why


def test_all_trim_leaves_nothing_to_cut_from() -> None:
    saw = Saw(KERF, inches("5"))
    plan = planned(job([board("9")], [blank("1")], saw))
    assert plan.layouts == ()
    assert plan.unplaced[0].quantity == 1


def test_lengths_stay_exact_where_no_ruler_goes() -> None:
    odd = Length(123_456_789)
    stock = [Stock("odd", Length(3 * odd.nm + 2 * KERF.nm))]
    plan = planned(job(stock, [Blank("third", odd, quantity=3)]))
    assert not plan.unplaced
    assert not plan.layouts[0].leftovers


def test_one_long_offcut_is_left_rather_than_three_short_ones() -> None:
    # 48 x 7: rip 3 1/2 off along the board, then crosscut three; 3 3/8 x 48 stays.
    plan = planned(job([board("48", "7")], [blank("10", "3 1/2", quantity=3)]))
    kept = [one.area for one in plan.layouts[0].leftovers if one.keep]
    assert max(area.length for area in kept) == inches("48")
