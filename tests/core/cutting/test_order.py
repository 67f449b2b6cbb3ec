"""The order of cuts: possible, with few changes of fence and stop, said in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.cutting.job import Area, Blank, Job, Keep, Saw, Stock
from app.core.cutting.order import (
    changes,
    in_order,
    numbered,
    sequence,
    set_ups,
    set_ups_of,
)
from app.core.cutting.pattern import Pattern
from app.core.cutting.plan import Cut, Direction, Layout, Leftover, Placed, Plan
from app.core.cutting.runs import Step, in_runs
from app.core.cutting.solve import solve
from app.core.length import inches, mm
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import random_job

KEEP = Keep(inches("8"), inches("1"))
SAW = Saw(inches("1/8"))
TRIMMING = Saw(inches("1/8"), inches("1/2"), inches("1/4"))


def board(name: str, length: str, width: str | None, **more: object) -> Stock:
    wide = None if width is None else inches(width)
    return Stock(name, inches(length), wide, **more)  # type: ignore[arg-type]


def blank(name: str, length: str, width: str | None, **more: object) -> Blank:
    wide = None if width is None else inches(width)
    return Blank(name, inches(length), wide, **more)  # type: ignore[arg-type]


def planned(stock: list[Stock], blanks: list[Blank], saw: Saw = SAW) -> Plan:
    return solve(Job(saw, KEEP, tuple(stock), tuple(blanks)))


def told(plan: Plan) -> list[tuple[str, str]]:
    return [(cut.set_up, cut.against) for _, cut in sequence(plan)]


@pytest.mark.parametrize("seed", range(80))
def test_the_order_of_the_whole_plan_can_be_sawn_and_numbers_every_cut(
    seed: int,
) -> None:
    plan = solve(random_job(seed), work=2000)
    again = in_order(plan)
    check(again)
    assert again == plan, "what is in order stays as it is"
    numbers = [cut.number for _, cut in sequence(plan)]
    assert numbers == list(range(1, len(numbers) + 1))
    alone = sum(changes(layout.cuts) for layout in plan.layouts)
    assert set_ups(plan) <= alone


def test_one_setting_serves_every_board_before_the_fence_is_moved() -> None:
    boards = [board(f"B{n}", "40", "7") for n in (1, 2, 3)]
    strips = [
        blank("wide", "40", "4", quantity=3),
        blank("narrow", "40", "2", quantity=3),
    ]
    plan = planned(boards, strips)
    assert len(plan.layouts) == 3
    assert set_ups(plan) == 2
    assert len({cut.set_up for _, cut in sequence(plan)}) == 2


def test_a_plan_that_was_kept_without_numbers_is_numbered_where_it_is_read() -> None:
    plan = solve(random_job(3))
    bare = replace(
        plan,
        layouts=tuple(
            replace(one, cuts=tuple(replace(cut, number=0) for cut in one.cuts))
            for one in plan.layouts
        ),
    )
    assert set_ups(bare) == set_ups(plan)
    assert numbered(bare) == plan


def test_boards_of_one_thickness_and_species_are_sawn_one_after_another() -> None:
    woods = [("walnut", "3/4"), ("maple", "1/2"), ("walnut", "3/4"), ("maple", "1/2")]
    stock = [
        board(f"B{n}", "30", "6", species=wood, thickness=inches(thick))
        for n, (wood, thick) in enumerate(woods)
    ]
    sizes = {"walnut": "5", "maple": "4"}
    blanks = [
        blank(wood, "30", sizes[wood], species=wood, quantity=2)
        for wood in ("walnut", "maple")
    ]
    plan = planned(stock, blanks)
    species = {one.id: one.species for one in stock}
    order = [species[layout.stock] for layout, _ in sequence(plan)]
    assert sum(was != now for was, now in pairwise(order)) == 1


def test_edges_are_trimmed_before_anything_bears_on_them() -> None:
    plan = planned(
        [board("B", "24", "5")],
        [blank("strip", "9", "1 3/4", quantity=2)],
        TRIMMING,
    )
    first, second, third, fourth, *rest = told(plan)
    assert first[1].startswith("no edge is straight yet")
    assert second[1] == "upper edge, trimmed in cut 1"
    assert third == fourth == (third[0], "upper edge, trimmed in cut 1")
    assert [cut.trim for _, cut in sequence(plan)][:5] == [True] * 4 + [False]
    rips = [words for words in rest if words[0].startswith("Rip")]
    assert rips
    assert all("trimmed in cut" in where or "sawn in" in where for _, where in rips)


def test_the_edge_against_the_fence_is_named_with_the_cut_that_made_it() -> None:
    plan = planned(
        [board("B", "40", "10")],
        [blank("wide", "40", "4"), blank("more", "40", "5 3/4")],
    )
    assert [where for _, where in told(plan)] == [
        "upper edge, jointed first",
        "upper edge, sawn in cut 1",
    ]


def test_an_edge_that_came_sawn_need_not_be_jointed() -> None:
    offcut = board("O", "40", "10", offcut=True, trimmed=True)
    plan = planned([offcut], [blank("strip", "40", "4")])
    assert told(plan) == [("Rip fence at 4 in", "upper edge, sawn before")]


def cut_of(direction: Direction, at: str, of: tuple[str, str, str, str]) -> Cut:
    return Cut(
        direction, inches(at), inches("1/8"), Area(*(inches(size) for size in of))
    )


def by_hand(
    stock: Stock, pieces: list[Area], waste: list[Area], cuts: list[Cut]
) -> Plan:
    blanks = tuple(
        Blank(f"p{n}", one.length, one.width) for n, one in enumerate(pieces)
    )
    placed = tuple(Placed(f"p{n}", one) for n, one in enumerate(pieces))
    kept = KEEP
    left = tuple(
        Leftover(one, one.length >= kept.length and one.width >= kept.width)
        for one in waste
    )
    layout = Layout(stock.id, 1, placed, left, tuple(cuts))
    return in_order(Plan(Job(SAW, kept, (stock,), blanks), (layout,)))


def rect(x: str, y: str, length: str, width: str) -> Area:
    return Area(inches(x), inches(y), inches(length), inches(width))


def test_a_strip_too_thin_to_be_fenced_falls_on_the_free_side() -> None:
    # 30 x 5 with a strip of 1/4 in off the upper edge; 4 5/8 in are left beside it.
    plan = by_hand(
        board("B", "30", "5", trimmed=True),
        [rect("0", "0", "30", "1/4"), rect("0", "3/8", "30", "4 5/8")],
        [],
        [cut_of(Direction.RIP, "1/4", ("0", "0", "30", "5"))],
    )
    check(in_order(plan))
    assert told(plan) == [
        ("Rip fence at 4 5/8 in", "lower edge, sawn before; the thin strip falls free")
    ]


def test_a_narrow_blank_falls_free_of_a_wide_one_that_is_fenced() -> None:
    plan = by_hand(
        board("B", "30", "6 1/8", trimmed=True),
        [rect("0", "0", "30", "2"), rect("0", "2 1/8", "30", "4")],
        [],
        [cut_of(Direction.RIP, "2", ("0", "0", "30", "6 1/8"))],
    )
    check(plan)
    assert told(plan) == [("Rip fence at 4 in", "lower edge, sawn before")]


def test_the_last_of_several_narrow_blanks_is_ripped_like_the_others() -> None:
    plan = by_hand(
        board("B", "30", "8 1/4", trimmed=True),
        [
            rect("0", "0", "30", "2"),
            rect("0", "2 1/8", "30", "2"),
            rect("0", "4 1/4", "30", "4"),
        ],
        [],
        [
            cut_of(Direction.RIP, "2", ("0", "0", "30", "8 1/4")),
            cut_of(Direction.RIP, "4 1/8", ("0", "2 1/8", "30", "6 1/8")),
        ],
    )
    check(plan)
    assert [words for words, _ in told(plan)] == ["Rip fence at 2 in"] * 2


def test_what_holds_blanks_is_fenced_not_the_waste_beside_it() -> None:
    plan = by_hand(
        board("B", "30", "8", trimmed=True),
        [rect("0", "4 1/8", "30", "3 7/8")],
        [rect("0", "0", "30", "4")],
        [cut_of(Direction.RIP, "4", ("0", "0", "30", "8"))],
    )
    check(in_order(plan))
    assert told(plan) == [("Rip fence at 3 7/8 in", "lower edge, sawn before")]


def test_a_short_piece_is_not_caught_between_stop_and_blade() -> None:
    plan = planned([board("B", "40", "4")], [blank("short", "3", "4", quantity=2)])
    stops = [where for words, where in told(plan) if words.startswith("Crosscut")]
    assert stops
    assert all(
        where.endswith("to a block that stands clear of the blade") for where in stops
    )


def test_a_narrow_piece_is_fenced_with_a_push_block() -> None:
    plan = planned([board("B", "40", "8")], [blank("slat", "40", "1 1/2")])
    assert told(plan)[0][1].endswith(", with a push block")


def test_cuts_of_an_earlier_part_come_before_those_of_a_later_one() -> None:
    # 40 x 6: part one takes 10 off the left, part two 12 of what it left over.
    cuts = [
        cut_of(Direction.CROSSCUT, "10", ("0", "0", "40", "6")),
        cut_of(Direction.CROSSCUT, "22 1/8", ("10 1/8", "0", "29 7/8", "6")),
    ]
    job = Job(
        SAW,
        KEEP,
        (board("B", "40", "6", quantity=2),),
        (
            blank("first", "10", "6", period="one", quantity=2),
            blank("second", "12", "6", period="two", quantity=2),
        ),
        periods=("one", "two"),
    )
    layout = Layout(
        "B",
        2,
        (
            Placed("first", rect("0", "0", "10", "6")),
            Placed("second", rect("10 1/8", "0", "12", "6")),
        ),
        (
            Leftover(rect("10 1/8", "0", "29 7/8", "6"), True, "two"),
            Leftover(rect("22 1/4", "0", "17 3/4", "6"), True),
        ),
        tuple(cuts),
        "one",
    )
    plan = in_order(Plan(job, (layout,)))
    assert [(cut.period, cut.set_up) for _, cut in sequence(plan)] == [
        ("one", "Crosscut stop at 10 in"),
        ("two", "Crosscut stop at 12 in"),
    ]
    # The same stop a month later is set again.
    same = replace(
        job, blanks=tuple(replace(b, length=inches("10")) for b in job.blanks)
    )
    again = in_order(
        Plan(
            same,
            (
                replace(
                    layout,
                    pieces=(
                        layout.pieces[0],
                        Placed("second", rect("10 1/8", "0", "10", "6")),
                    ),
                    leftovers=(
                        layout.leftovers[0],
                        Leftover(rect("20 1/4", "0", "19 3/4", "6"), True),
                    ),
                    cuts=(cuts[0], replace(cuts[1], at=inches("20 1/8"))),
                ),
            ),
        )
    )
    assert set_ups(again) == 2


sizes = st.integers(1, 4)
trees = st.lists(
    st.tuples(st.integers(-1, 30), sizes, st.sampled_from(list(Direction))),
    min_size=1,
    max_size=9,
)


@given(trees)
def test_no_other_order_of_a_small_plan_needs_much_fewer_changes(
    rows: list[tuple[int, int, Direction]],
) -> None:
    steps = [
        Step((0, False, direction, size), after if after < number else -1)
        for number, (after, size, direction) in enumerate(rows)
    ]
    runs = in_runs(steps)
    flat = [step for run in runs for step in run]
    assert sorted(flat) == list(range(len(steps)))
    place = {step: at for at, step in enumerate(flat)}
    assert all(place[s.after] < place[n] for n, s in enumerate(steps) if s.after >= 0)
    least = fewest(steps)
    assert least <= len(runs) <= least + 1


def fewest(steps: Sequence[Step]) -> int:
    """The least number of runs, by trying every setting next."""

    @cache
    def still(done: frozenset[int]) -> int:
        if len(done) == len(steps):
            return 0
        best = len(steps)
        for setting in {step.setting for step in steps}:
            after = used_up(done, setting)
            if after != done:
                best = min(best, 1 + still(after))
        return best

    def used_up(done: frozenset[int], setting: object) -> frozenset[int]:
        now = set(done)
        for number, step in enumerate(steps):
            ready = step.after < 0 or step.after in now
            if step.setting == setting and ready:
                now.add(number)
        return frozenset(now)

    return still(frozenset())


def row(lengths: list[int]) -> Pattern:
    made, box, after = Pattern(), (0, 0, mm(2000).nm, mm(100).nm), -1
    for length in lengths:
        size = mm(length).nm
        _, rest, after = made.part_off(box, Direction.CROSSCUT, size, mm(3).nm, after)
        assert rest
        box = rest
    made.waste.append(box)
    return made


def test_the_planner_counts_changes_over_boards_that_are_sawn_together() -> None:
    assert set_ups_of([row([500, 300, 300]), row([500, 500, 300])]) == 2
    # 300 before 500 on one board and after it on the other: one of them twice.
    assert set_ups_of([row([500, 300]), row([300, 500])]) == 3
    assert set_ups_of([]) == 0
