"""Parts from strips, boards from thick stock: offered, and taken where it pays."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core.cutting import glued, resawn
from app.core.cutting.alternatives import solve
from app.core.cutting.effort import Standing
from app.core.cutting.job import Blank, Job, Keep, Resaw, Saw, Stock
from app.core.cutting.open_ways import choice_of, written_back
from app.core.cutting.plan import Plan
from app.core.cutting.planing import planed, planing_loss
from app.core.cutting.totals import Level, levels, totals
from app.core.length import Display, Length, Unit, inches, mm
from app.core.measure import BOARD_FOOT_NM3
from tests.core.cutting.checker import check

SAW = Saw(inches("1/8"), inches("1/2"), inches("1/8"))
KEEP = Keep(inches("8"), inches("1"))
RESAW = Resaw(inches("1/16"), inches("8"), inches("1/16"))
SIXTEENTHS = Display(denominator=16)
WORK = 400_000


def board(
    key: str,
    length: str,
    width: str,
    thickness: str = "1",
    cost: int | None = None,
    quantity: int | None = 1,
) -> Stock:
    sizes = inches(length), inches(width), inches(thickness)
    return Stock(key, *sizes, quantity=quantity, cost=cost, species="oak", name=key)


def part(
    length: str,
    width: str,
    thickness: str = "7/8",
    quantity: int = 1,
    narrowest: str | None = "2",
) -> Blank:
    return Blank(
        "top",
        inches(length),
        inches(width),
        inches(thickness),
        quantity,
        "oak",
        name="Top",
        narrowest=inches(narrowest) if narrowest else None,
        joint=inches("1/8"),
    )


def job(stock: list[Stock], blanks: list[Blank], resaw: Resaw | None = None) -> Job:
    return Job(
        SAW,
        KEEP,
        tuple(stock),
        tuple(blanks),
        3,
        plane=inches("3/8"),
        display=SIXTEENTHS,
        resaw=resaw,
    )


def planned(asked: Job) -> Plan:
    plan = solve(asked, work=WORK)
    check(plan)
    return plan


@pytest.mark.parametrize(
    ("width", "strips", "display", "each"),
    [
        # 12 1/8 and two glue lines of 1/8: 12 3/8 in three is 4 1/8.
        (inches("12 1/8"), 3, SIXTEENTHS, inches("4 1/8")),
        (inches("10"), 2, SIXTEENTHS, inches("5 1/16")),
        (inches("10"), 3, SIXTEENTHS, inches("3 7/16")),  # 3.4167, up to the mark
        (mm(300), 3, Display(Unit.MILLIMETRE), mm(103)),  # 306.35 in three
    ],
)
def test_strips_are_wider_by_what_jointing_takes(
    width: Length, strips: int, display: Display, each: Length
) -> None:
    assert glued.strip_width(width, strips, inches("1/8"), display) == each


def test_no_strip_is_narrower_than_the_maker_wants() -> None:
    assert glued.counts(part("30", "12"), SIXTEENTHS) == (2, 3, 4, 5, 6)
    assert glued.counts(part("30", "12", narrowest="5"), SIXTEENTHS) == (2,)
    assert glued.counts(part("30", "12", narrowest=None), SIXTEENTHS) == ()
    turning = replace(part("30", "12"), may_turn=True)
    assert glued.counts(turning, SIXTEENTHS) == ()  # sheet is not glued up


def test_a_part_wider_than_any_board_is_glued_up() -> None:
    asked = job([board("A", "100", "5")], [part("30", "12 1/8")])
    plan = planned(asked)
    assert not plan.unplaced
    (told,) = glued.told(plan.job)
    assert (told.name, told.quantity, told.strips) == ("Top", 1, 3)
    assert told.width == inches("4 1/8")
    assert told.joints == inches("1/4")
    assert sum(len(one.pieces) for one in plan.layouts) == 3


def test_a_part_that_may_not_be_glued_up_stays_without_a_place() -> None:
    plan = planned(job([board("A", "100", "5")], [part("30", "12", narrowest=None)]))
    assert [one.blank for one in plan.unplaced] == ["top"]


def test_glueing_up_is_chosen_where_it_saves_money() -> None:
    wide = board("wide", "36", "13", cost=9000, quantity=None)
    narrow = board("narrow", "96", "5", cost=2500, quantity=None)
    asked = job([wide, narrow], [part("30", "12")])
    plan = planned(asked)
    assert choice_of(plan.job).glued == {"top": 3}
    assert totals(plan).cost == 2500


def test_at_equal_money_a_part_comes_from_one_board() -> None:
    wide = board("wide", "36", "13", cost=2500, quantity=None)
    narrow = board("narrow", "96", "5", cost=2500, quantity=None)
    plan = planned(job([wide, narrow], [part("30", "12")]))
    assert choice_of(plan.job).glued == {}
    assert totals(plan).cost == 2500


def test_on_the_rack_a_board_wide_enough_is_not_made_of_strips() -> None:
    plan = planned(
        job([board("A", "40", "14"), board("B", "99", "5")], [part("30", "12")])
    )
    assert choice_of(plan.job).glued == {}


@pytest.mark.parametrize(
    ("thickness", "boards", "each"),
    [
        # (2 - 1/16) / 2 - 1/16 and (3 - 2/16) / 3 - 1/16.
        ("2", 2, inches("29/32")),
        ("3", 3, Length((3 * 25_400_000 - 2 * 1_587_500) // 3 - 1_587_500)),
    ],
)
def test_a_resawn_board_loses_kerf_and_the_flattening_of_its_faces(
    thickness: str, boards: int, each: Length
) -> None:
    assert resawn.thickness(board("A", "96", "6", thickness), boards, RESAW) == each


def test_no_board_is_resawn_that_is_wider_than_the_saw_is_high() -> None:
    thick = part("30", "5", "3/4")
    assert resawn.counts(board("A", "96", "8", "2"), job([], [thick], RESAW)) == (2,)
    assert resawn.counts(board("A", "96", "8 1/4", "2"), job([], [thick], RESAW)) == ()
    assert resawn.counts(board("A", "96", "8", "2"), job([], [thick])) == ()


def test_thick_stock_is_resawn_where_nothing_else_serves() -> None:
    asked = job([board("A", "60", "6", "2")], [part("50", "5", "3/4", 2)], RESAW)
    plan = planned(asked)
    assert not plan.unplaced
    assert resawn.told(plan) == (resawn.Resawn("A", 1, 2, inches("29/32")),)
    without = planned(replace(asked, resaw=None))
    assert without.unplaced[0].quantity == 2


def test_half_a_board_that_nothing_is_cut_from_is_left_over_and_paid() -> None:
    thick = board("T", "60", "6", "2", cost=4001, quantity=None)
    plan = planned(job([thick], [part("50", "5", "3/4", 3)], RESAW))
    assert not plan.unplaced
    assert resawn.told(plan)[0].quantity == 2
    assert totals(plan).cost == 2 * 4001
    whole = [
        one for layout in plan.layouts if not layout.pieces for one in layout.leftovers
    ]
    assert [one.keep for one in whole] == [True]


def test_resawing_is_chosen_where_it_saves_money() -> None:
    thin = board("thin", "60", "6", "1", cost=3000, quantity=None)
    thick = board("thick", "60", "6", "2", cost=5000, quantity=None)
    wants = [part("50", "5", "3/4", 2, narrowest=None)]
    plan = planned(job([thin, thick], wants, RESAW))
    assert choice_of(plan.job).resawn == {"thick": 2}
    assert totals(plan).cost == 5000
    dear = replace(thick, cost=6000)
    assert choice_of(planned(job([thin, dear], wants, RESAW)).job).resawn == {}


def test_strips_may_come_of_resawn_boards_where_neither_alone_serves() -> None:
    plan = planned(job([board("A", "96", "7", "2")], [part("40", "12", "3/4")], RESAW))
    assert not plan.unplaced
    assert choice_of(plan.job).glued
    assert choice_of(plan.job).resawn == {"A": 2}


def test_blanks_bound_to_stock_follow_it_through_the_saw() -> None:
    wants = replace(part("50", "5", "3/4", 2, None), only=("A",))
    stock = [board("A", "60", "6", "2"), board("B", "60", "6", "1")]
    plan = planned(job(stock, [wants], RESAW))
    assert not plan.unplaced
    assert {resawn.piece_of(one.stock) for one in plan.layouts} == {
        ("A", 1, 2),
        ("A", 2, 2),
    }


@settings(max_examples=12, deadline=None)
@given(
    st.integers(1, 5),
    st.integers(3, 14),
    st.sampled_from(["2", "2 1/4", "1"]),
    st.booleans(),
)
def test_what_is_resawn_is_used_whole_and_costs_what_the_boards_cost(
    quantity: int, width: int, thickness: str, may_glue: bool
) -> None:
    stock = [board("T", "60", "6", thickness, cost=3333, quantity=None)]
    wants = part("25", str(width), "3/4", quantity, "2" if may_glue else None)
    plan = planned(job(stock, [wants], RESAW))
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        used[layout.stock] += layout.copies
    halves = {key: n for key, n in used.items() if resawn.piece_of(key)}
    assert len(set(halves.values())) <= 1
    bought = sum(one.quantity for one in resawn.told(plan)) + used["T"]
    assert totals(plan).cost == 3333 * bought


@pytest.mark.parametrize(
    ("rough", "thickness", "feet"),
    [
        # 5/4 in off 12 x 96 in: 10 board feet. 3/16 in off 6 x 96 in: 3/4 of one.
        (("96", "12", "2"), "3/4", "10"),
        (("96", "6", "1"), "13/16", "3/4"),
    ],
)
def test_planing_costs_the_wood_it_takes_off(
    rough: tuple[str, str, str], thickness: str, feet: str
) -> None:
    long, wide, thick = rough
    wants = part(long, wide, thickness)
    lost = planing_loss(board("A", long, wide, thick), wants)
    assert Fraction(lost, BOARD_FOOT_NM3) == Fraction(feet)


def test_planing_has_its_share_of_what_the_board_cost() -> None:
    asked = job([board("A", "51", "6 1/4")], [part("50", "6", "3/4")])
    plan = planned(asked)
    (line,) = planed(plan.layouts[0], plan, {"A": 2000})
    share = 50 * 6 * 0.25 / (51 * 6.25)
    assert line.money == round(2000 * share)
    assert (line.thickness, line.blank) == (inches("1"), inches("3/4"))


def cost_level(plan: Plan) -> Level:
    return next(one for one in levels(plan) if one.objective == "cost")


def test_a_bound_holds_for_every_way_that_was_open() -> None:
    thin = board("thin", "60", "6", "1", cost=3000, quantity=None)
    thick = board("thick", "60", "6", "2", cost=4000, quantity=None)
    asked = job([thin, thick], [part("50", "5", "3/4", 1, narrowest=None)], RESAW)
    plan = planned(asked)
    assert totals(plan).cost == 3000
    # Half a thick board would do for 2000, for all that the reckoning says.
    assert (cost_level(plan).bound, cost_level(plan).proven) == (2000, False)
    alone = cost_level(planned(replace(asked, resaw=None)))
    assert (alone.bound, alone.proven) == (3000, True)


def test_what_costs_nothing_is_proven_whatever_was_open() -> None:
    plan = planned(job([board("A", "99", "5")], [part("30", "12")], RESAW))
    assert choice_of(plan.job).glued
    assert cost_level(plan).proven
    assert [one.proven for one in levels(plan) if one.objective != "cost"] == [
        False
    ] * 4


THICK = board("A", "60", "6", "2", 500, 3)


@pytest.mark.parametrize(
    ("asked", "choice"),
    [
        (job([board("A", "99", "5")], [part("30", "12 1/8", quantity=2)]), "glued"),
        (
            job([board("A", "60", "6", "2", 500, 3)], [part("50", "5", "3/4")], RESAW),
            "resawn",
        ),
    ],
)
def test_a_job_that_was_rewritten_can_be_written_back(asked: Job, choice: str) -> None:
    plan = planned(asked)
    assert getattr(choice_of(plan.job), choice)
    back = written_back(plan.job)
    assert [one.id for one in back.blanks] == ["top"]
    assert back.stock == asked.stock
    wide, was = back.blanks[0].width, asked.blanks[0].width
    assert wide is not None
    assert was is not None
    assert wide <= was
    assert was - wide <= inches("1")
    assert back.blanks[0].quantity == asked.blanks[0].quantity


def test_plans_on_the_way_are_whole_and_their_bound_holds_for_all_ways() -> None:
    thin = board("thin", "60", "6", "1", cost=3000, quantity=None)
    thick = board("thick", "60", "6", "2", cost=5001, quantity=None)
    asked = job([thin, thick], [part("50", "5", "3/4", 3, narrowest=None)], RESAW)
    seen: list[Standing] = []
    plan = solve(asked, work=WORK, watch=seen.append)
    assert seen
    for one in seen:
        check(one.plan())
        assert totals(one.plan()).cost == one.cost
        assert one.bound <= totals(plan).cost <= one.cost
