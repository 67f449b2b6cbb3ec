"""Boards with defects: what is cut around, what stays sound, how it comes back."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from app.core.cutting.effort import Work
from app.core.cutting.job import Area, Blank, Job, Keep, Machine, Saw, Stock
from app.core.cutting.order import area, sawing_order
from app.core.cutting.plan import Layout, Leftover, Placed, Plan
from app.core.cutting.regions import Made, Regioned, regions, variants
from app.core.cutting.rejoin import is_sound
from app.core.cutting.strategy import strategies
from app.core.cutting.supply import Run
from app.core.length import Length, inches
from tests.core.cutting.checker import all_accounted_for, can_be_sawn

KERF = inches("1/8")


def spot(x: str, y: str, length: str, width: str) -> Area:
    return Area(inches(x), inches(y), inches(length), inches(width))


def board(
    *defects: Area, length: str = "96", width: str = "8", **more: object
) -> Stock:
    return Stock("board", inches(length), inches(width), defects=defects, **more)  # type: ignore[arg-type]


def job(stock: Stock, *blanks: Blank, saw: Saw = Saw(KERF), **more: object) -> Job:
    wanted = blanks or (Blank("rail", inches("10"), inches("2"), quantity=40),)
    keep = Keep(inches("8"), inches("1"))
    return Job(saw, keep, (stock,), wanted, **more)  # type: ignore[arg-type]


def laid_out(found: Regioned) -> list[Made]:
    run = Run(found.job, strategies(found.job)[0], Work(50_000))
    run.go()
    return [(one.stock, one.pattern, one.copies) for one in run.laid]


def as_plan(found: Regioned) -> Plan:
    """What was laid out on the regions as a plan of the job as given."""
    asked, flat = found.given, found.given.one_dimensional
    layouts = []
    for place, pattern, copies in found.rejoin(laid_out(found)):
        stock = asked.stock[place]
        pieces = [
            Placed(asked.blanks[shape.blank].id, area(box, flat), shape.turned)
            for shape, box in pattern.pieces
        ]
        left = [
            Leftover(
                area(box, flat),
                box[2] >= asked.keep.length.nm
                and (flat or box[3] >= asked.keep.width.nm)
                and is_sound(box, stock),
            )
            for box in pattern.waste
        ]
        cuts = tuple(
            replace(cut, of=replace(cut.of, width=Length(0))) if flat else cut
            for cut in sawing_order(pattern.cuts, asked.display)
        )
        layouts.append(Layout(stock.id, copies, tuple(pieces), tuple(left), cuts))
    return Plan(asked, tuple(layouts))


def sawn(found: Regioned) -> Plan:
    plan = as_plan(found)
    can_be_sawn(plan)
    return plan


def test_a_board_without_defects_stays_as_it_is() -> None:
    asked = job(board())
    (found,) = variants(asked)
    assert found.job == asked
    made = laid_out(found)
    assert found.rejoin(made) == made


def test_a_knot_in_the_middle_leaves_the_board_on_either_side_of_it() -> None:
    # 96: [0 … 47] knot 47 … 49 [49 … 96]; both kerfs lie in the knot.
    found = regions(job(board(spot("47", "3", "2", "2"))))
    assert [one.length for one in found.job.stock] == [inches("47"), inches("47")]
    assert {one.width for one in found.job.stock} == {inches("8")}
    assert all(one.trimmed and not one.defects for one in found.job.stock)
    plan = sawn(found)
    assert sum(len(one.pieces) for one in plan.layouts) > 20


def test_a_split_along_an_edge_is_ripped_off() -> None:
    found = regions(job(board(spot("10", "7 1/2", "80", "1/2"))))
    (stock,) = found.job.stock
    assert (stock.length, stock.width) == (inches("96"), inches("7 1/2"))
    (layout,) = sawn(found).layouts
    assert layout.cuts[0].at == inches("7 1/2")


def test_a_defect_thinner_than_the_kerf_is_all_dust() -> None:
    asked = job(board(spot("48", "0", "1/16", "8")), first="crosscut", stages=2)
    found = regions(asked)
    assert [one.length for one in found.job.stock] == [
        inches("48"),
        inches("47 7/8"),
    ]
    sawn(found)


def test_a_defect_in_the_trim_costs_nothing_more() -> None:
    saw = Saw(KERF, inches("1/2"), inches("1/4"))
    asked = job(board(spot("0", "0", "1/2", "8")), saw=saw)
    (stock,) = regions(asked).job.stock
    assert (stock.length, stock.trimmed, stock.defects) == (inches("96"), False, ())


def test_trims_come_off_the_board_before_it_is_parted() -> None:
    saw = Saw(KERF, inches("1/2"), inches("1/4"))
    found = regions(job(board(spot("47", "3", "2", "2")), saw=saw))
    assert {one.length for one in found.job.stock} == {inches("46 1/2")}
    assert {one.width for one in found.job.stock} == {inches("7 1/2")}
    sawn(found)


def test_a_board_that_is_all_defect_gives_nothing() -> None:
    found = regions(job(board(spot("0", "0", "96", "8"))))
    assert found.job.stock == ()
    assert found.rejoin([]) == []


def test_the_money_is_shared_by_area_and_counts_once() -> None:
    found = regions(job(board(spot("20", "3", "2", "2"), cost=1001)))
    costs = [one.cost for one in found.job.stock]
    assert sum(cost or 0 for cost in costs) == 1001
    assert len(costs) == 2
    assert costs[0] != costs[1]
    plan = sawn(found)
    assert [one.copies for one in plan.layouts] == [1]


def test_regions_of_equal_boards_are_used_together() -> None:
    asked = job(board(spot("20", "3", "2", "2"), quantity=3))
    plan = sawn(regions(asked))
    assert sum(one.copies for one in plan.layouts) <= 3
    assert sum(len(one.pieces) * one.copies for one in plan.layouts) == 40


def test_cuts_that_free_nothing_are_left_out() -> None:
    # The rail comes from the long side of the knot; the short one is not kept.
    rail = Blank("rail", inches("20"), inches("2"))
    tenon = Blank("tenon", inches("13"), inches("9"), may_turn=True)
    asked = job(board(spot("14", "3", "2", "2")), rail, tenon)
    asked = replace(asked, keep=Keep(inches("30"), inches("2")))
    (layout,) = sawn(regions(asked)).layouts
    assert not any(cut.at == inches("14") for cut in layout.cuts)
    (spoilt,) = [one for one in layout.leftovers if not one.area.x]
    assert spoilt.area.length == inches("16") - KERF
    assert not spoilt.keep


def test_what_is_worth_keeping_is_freed_even_unused() -> None:
    rail = Blank("rail", inches("10"), inches("2"))
    (layout,) = sawn(regions(job(board(spot("14", "3", "2", "2")), rail))).layouts
    assert any(one.keep and not one.area.x for one in layout.leftovers)


def test_bounded_rounds_keep_to_one_direction_around_defects() -> None:
    asked = job(board(spot("40", "3", "2", "2")), stages=2)
    found = variants(asked)
    assert [one.job.first for one in found] == ["crosscut", "rip"]
    for one in found:
        sawn(one)
    (fixed,) = variants(replace(asked, first="rip"))
    assert {one.length for one in fixed.job.stock} == {inches("96")}


def test_too_wide_to_crosscut_is_ripped_past_the_defect_first() -> None:
    limits = Machine(longest_crosscut=inches("6"))
    found = regions(job(board(spot("47", "3", "2", "2")), machine=limits))
    assert max(one.length for one in found.job.stock) == inches("96")
    assert all(one.width and one.width < inches("6") for one in found.job.stock)
    sawn(found)


@pytest.mark.parametrize(
    ("machine", "lengths"),
    [
        (Machine(longest_rip=inches("50")), {inches("47")}),
        (Machine(shortest_piece=inches("97")), set()),
    ],
)
def test_the_machine_takes_the_cuts_around_defects(
    machine: Machine, lengths: set[Length]
) -> None:
    found = regions(job(board(spot("47", "3", "2", "2")), machine=machine))
    assert {one.length for one in found.job.stock} == lengths


def test_of_a_bar_the_sound_lengths_remain() -> None:
    bar = Stock(
        "bar",
        inches("96"),
        defects=(Area(inches("40"), Length(0), inches("2"), Length(0)),),
    )
    asked = job(bar, Blank("leg", inches("10"), quantity=9))
    (found,) = variants(asked)
    assert [one.length for one in found.job.stock] == [inches("40"), inches("54")]
    plan = sawn(found)
    assert sum(len(one.pieces) for one in plan.layouts) == 3 + 5


def test_a_blank_bound_to_a_board_is_bound_to_its_regions() -> None:
    rail = Blank("rail", inches("10"), inches("2"), only=("board",))
    found = regions(job(board(spot("47", "3", "2", "2")), rail))
    assert found.job.blanks[0].only == tuple(one.id for one in found.job.stock)
    sawn(found)
    gone = regions(job(board(spot("0", "0", "96", "8")), rail))
    assert gone.job.blanks[0].only == ("board",)


def test_a_region_that_no_period_could_keep_is_not_for_a_series() -> None:
    short = Blank("tenon", inches("4"), inches("1"))
    asked = job(board(spot("6", "0", "2", "8")), short)
    assert len(regions(asked).job.stock) == 2
    series = replace(asked, periods=("one", "two"))
    assert [one.length for one in regions(series).job.stock] == [inches("88")]


@pytest.mark.parametrize("seed", range(60))
def test_any_defects_are_cut_around(seed: int) -> None:
    asked = spotty(Random(seed))
    for found in variants(asked):
        plan = as_plan(found)
        can_be_sawn(plan)
        count = sum(len(one.pieces) * one.copies for one in plan.layouts)
        assert count <= sum(one.quantity for one in asked.blanks)
        wanted = sum(len(p.pieces) * n for _, p, n in laid_out(found))
        assert count == wanted


def test_a_whole_job_goes_there_and_back() -> None:
    asked = job(
        board(spot("30", "3", "2", "2")), Blank("leg", inches("9"), inches("2"))
    )
    all_accounted_for(sawn(regions(asked)))


def spotty(dice: Random) -> Job:
    """Boards with up to eight defects, on a ruler's lines and off them."""
    flat = dice.random() < 0.2

    def size(low: float, high: float) -> Length:
        step = dice.choice([25_400_000 // 16, 12_347])
        return Length(int(dice.uniform(low, high) * 25_400_000) // step * step)

    stock = []
    for number in range(dice.randint(1, 3)):
        length, width = size(20, 96), None if flat else size(3, 10)
        spots = []
        for _ in range(dice.choice([0, 1, 1, 2, 3, 8])):
            x, y = size(0, 19), Length(0) if width is None else size(0, 2.5)
            spots.append(
                Area(
                    x,
                    y,
                    min(size(0.01, 5), length - x) or Length(1),
                    Length(0)
                    if width is None
                    else min(size(0.01, 3), width - y) or Length(1),
                )
            )
        stock.append(
            Stock(
                f"b{number}",
                length,
                width,
                quantity=dice.choice([1, 2, None]),
                cost=dice.choice([None, 1000]),
                trimmed=dice.random() < 0.3,
                defects=tuple(spots),
            )
        )
    blanks = tuple(
        Blank(
            f"p{n}",
            size(1, 20),
            None if flat else size(1, 3),
            quantity=dice.choice([1, 3, 8]),
        )
        for n in range(4)
    )
    saw = Saw(
        dice.choice([Length(0), KERF]),
        dice.choice([Length(0), inches("1/2")]),
        Length(0) if flat else dice.choice([Length(0), inches("1/4")]),
    )
    keep = Keep(inches("8"), inches("1"))
    return Job(
        saw,
        keep,
        tuple(stock),
        blanks,
        dice.choice([2, 3, None]),
        dice.choice(["crosscut", "rip", "either"]),
    )
