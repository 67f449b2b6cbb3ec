"""The same pieces on the same board, with what is left over worth most."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from app.core.cutting.effort import Work
from app.core.cutting.job import Area, Blank, Job, Keep, Machine, Saw, Stock
from app.core.cutting.order import area, in_order, sawing_order, set_ups_of
from app.core.cutting.pattern import Pattern, Shape
from app.core.cutting.plan import Direction, Layout, Leftover, Placed, Plan
from app.core.cutting.relaid import best_leftover, fewest_changes
from app.core.cutting.solve import solve
from app.core.cutting.strategy import strategies
from app.core.cutting.supply import Run
from app.core.cutting.worth import Policy
from app.core.length import Length, inches
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import random_job

KEEP = Keep(inches("8"), inches("1"))
SAW = Saw(inches("1/8"))
CROSSCUT, RIP = Direction.CROSSCUT, Direction.RIP


def inch(size: str) -> int:
    return inches(size).nm


def job(stock: Stock, blanks: list[Blank], **more: object) -> Job:
    return Job(SAW, KEEP, (stock,), tuple(blanks), **more)  # type: ignore[arg-type]


def worth(pattern: Pattern, asked: Job) -> int:
    policy = Policy.of(asked)
    return sum(policy.worth(box[2], box[3]) for box in pattern.waste)


def sawn(pattern: Pattern, asked: Job, stock: Stock) -> Plan:
    """The pattern as a plan for exactly what it holds, sawn over by the checker."""
    flat = asked.one_dimensional
    held = Counter(shape.blank for shape, _ in pattern.pieces)
    blanks = tuple(
        replace(one, quantity=held[n]) for n, one in enumerate(asked.blanks) if held[n]
    )
    pieces = tuple(
        Placed(asked.blanks[shape.blank].id, area(box, flat), shape.turned)
        for shape, box in pattern.pieces
    )
    keeps = Policy.of(asked).keeps
    left = tuple(Leftover(area(b, flat), keeps(b[2], b[3])) for b in pattern.waste)
    cuts = sawing_order(pattern.cuts, asked.display)
    if flat:
        cuts = tuple(replace(c, of=replace(c.of, width=Length(0))) for c in cuts)
    layout = Layout(stock.id, 1, pieces, left, cuts)
    plan = in_order(Plan(replace(asked, blanks=blanks), (layout,)))
    check(plan)
    return plan


@pytest.mark.parametrize("seed", range(150))
def test_a_board_laid_out_again_holds_the_same_and_leaves_no_less(seed: int) -> None:
    asked = random_job(seed)
    for way in strategies(asked)[:6]:
        run = Run(asked, way, Work(10**9))
        run.go()
        for laid in run.laid:
            stock = asked.stock[laid.stock]
            again = best_leftover(laid.pattern, asked, stock)
            better = worth(again, asked) >= worth(laid.pattern, asked)
            assert better or unheld(again) < unheld(laid.pattern)
            assert unheld(again) <= unheld(laid.pattern)
            assert names(again) == names(laid.pattern)
            sawn(again, asked, stock)


def unheld(pattern: Pattern) -> int:
    """How many rips there are of pieces shorter than a hand is wide."""
    short = inch("2 15/16")
    return sum(cut.direction is RIP and cut.box[2] <= short for cut in pattern.cuts)


def names(pattern: Pattern) -> Counter[Shape]:
    return Counter(shape for shape, _ in pattern.pieces)


def two_side_by_side() -> tuple[Pattern, Job, Stock]:
    """40 x 8 crosscut into two of 16 x 4: each leaves a strip of its own beside it."""
    stock = Stock("B", inches("40"), inches("8"))
    asked = job(stock, [Blank("lid", inches("16"), inches("4"), quantity=2)])
    shape, made = Shape(0, inch("16"), inch("4"), False), Pattern()
    box, after = (0, 0, inch("40"), inch("8")), -1
    for _ in range(2):
        slab, rest, after = made.part_off(box, CROSSCUT, inch("16"), inch("1/8"), after)
        piece, waste, _ = made.part_off(slab, RIP, inch("4"), inch("1/8"), after)
        made.pieces.append((shape, piece))
        assert waste
        assert rest
        made.waste.append(waste)
        box = rest
    made.waste.append(box)
    return made, asked, stock


def test_two_short_strips_become_one_long_one() -> None:
    made, asked, stock = two_side_by_side()
    again = best_leftover(made, asked, stock)
    (kept,) = [
        one.area for one in sawn(again, asked, stock).layouts[0].leftovers if one.keep
    ]
    assert (kept.length, kept.width) == (inches("40"), inches("3 7/8"))
    assert len(again.cuts) < len(made.cuts)


def test_a_saw_with_two_rounds_leaves_the_strips_as_they_are() -> None:
    made, asked, stock = two_side_by_side()
    staged = replace(asked, stages=1, first="crosscut")
    assert worth(best_leftover(made, staged, stock), staged) == worth(made, staged)


def test_a_rip_that_the_machine_does_not_take_is_not_made() -> None:
    made, asked, stock = two_side_by_side()
    limited = replace(asked, machine=Machine(longest_rip=inches("36")))
    again = best_leftover(made, limited, stock)
    rips = [cut for cut in again.cuts if cut.direction is RIP]
    assert rips
    assert all(cut.box[2] <= inch("36") for cut in rips)
    assert worth(again, limited) > worth(made, limited)


def test_a_board_with_a_defect_stays_as_it_was_laid_out() -> None:
    made, asked, stock = two_side_by_side()
    knot = Area(inches("36"), inches("1"), inches("1"), inches("1"))
    assert best_leftover(made, asked, replace(stock, defects=(knot,))) is made


def test_short_pieces_are_ripped_in_one_length_before_they_are_crosscut() -> None:
    # Four tiles of 3 x 2: ripped one by one they would be too short for the saw.
    stock = Stock("B", inches("40"), inches("6"))
    asked = job(stock, [Blank("tile", inches("3"), inches("2"), quantity=4)])
    shape, made = Shape(0, inch("3"), inch("2"), False), Pattern()
    box, after = (0, 0, inch("40"), inch("6")), -1
    for _ in range(4):
        slab, rest, after = made.part_off(box, CROSSCUT, inch("3"), inch("1/8"), after)
        piece, waste, _ = made.part_off(slab, RIP, inch("2"), inch("1/8"), after)
        made.pieces.append((shape, piece))
        assert waste
        assert rest
        made.waste.append(waste)
        box = rest
    made.waste.append(box)
    again = best_leftover(made, asked, stock)
    sawn(again, asked, stock)
    assert [cut.box[2] for cut in again.cuts if cut.direction is RIP] == [inch("40")]
    assert len(again.cuts) == 5


@pytest.mark.parametrize(
    ("shortest", "order"), [(None, ("40", "20", "10")), ("40", ("10", "20", "40"))]
)
def test_large_slabs_come_off_first_unless_what_is_left_gets_too_short(
    shortest: str | None, order: tuple[str, ...]
) -> None:
    stock = Stock("B", inches("96"), None)
    sizes = ("20", "40", "10")
    blanks = [Blank(f"rail {size}", inches(size)) for size in sizes]
    machine = Machine(shortest_piece=None if shortest is None else inches(shortest))
    asked, made = job(stock, blanks, machine=machine), Pattern()
    box, after = (0, 0, inch("96"), 1), -1
    for number, size in enumerate(sizes):
        slab, rest, after = made.part_off(box, CROSSCUT, inch(size), inch("1/8"), after)
        made.pieces.append((Shape(number, inch(size), 1, False), slab))
        assert rest
        box = rest
    made.waste.append(box)
    again = best_leftover(made, asked, stock)
    sawn(again, asked, stock)
    assert [cut.setting for cut in again.cuts] == [inch(size) for size in order]


def test_a_board_is_sawn_the_way_that_suits_the_others() -> None:
    # A 40 x 4 leaves an end of scrap, B 40 x 4 1/2 an end and an edge. Ripped first
    # or crosscut first is the same for B alone, but not after A.
    stock = [
        Stock("A", inches("45"), inches("4"), trimmed=True),
        Stock("B", inches("45"), inches("4 1/2"), trimmed=True),
        Stock("C", inches("30"), inches("4 1/2"), trimmed=True),
    ]
    asked = Job(
        SAW,
        Keep(inches("30"), inches("3")),
        tuple(stock),
        (
            Blank("long", inches("40"), inches("4"), quantity=2),
            Blank("short", inches("28"), inches("4")),
        ),
    )
    found = [
        Run(asked, way, Work(10**9)) for way in strategies(asked) if not way.big_first
    ]
    for run in found:
        run.go()
        boards = [(laid.pattern, asked.stock[laid.stock]) for laid in run.laid]
        again = fewest_changes(asked, boards)
        assert set_ups_of(again) <= set_ups_of([pattern for pattern, _ in boards])
        assert set_ups_of(again) == 3
        for pattern, (_, one) in zip(again, boards, strict=True):
            sawn(pattern, asked, one)


def planned(stock: Stock, keep: Keep, blanks: list[Blank]) -> Plan:
    plan = solve(replace(job(stock, blanks), keep=keep))
    check(plan)
    assert not plan.unplaced
    return plan


def test_the_end_of_a_board_stays_with_the_strip_beside_its_last_pieces() -> None:
    # The end alone, 10 x 8, is too short to keep; the strip beside the last two is not.
    board = Stock("board", inches("68"), inches("8"), trimmed=True)
    blanks = [
        Blank("stile", inches("16 1/4"), inches("3 1/4"), quantity=4),
        Blank("panel", inches("12 1/2"), inches("5 3/16"), quantity=2),
    ]
    plan = planned(board, Keep(inches("12"), inches("2")), blanks)
    (layout,) = plan.layouts
    (kept,) = [one.area for one in layout.leftovers if one.keep]
    assert (kept.length, kept.width) == (inches("35 1/4"), inches("2 11/16"))


def test_a_narrow_row_is_ripped_in_one_length_before_it_is_crosscut() -> None:
    # Beside the sides lies a strip of 3 7/8: the frame is ripped out of it in one.
    board = Stock("board", inches("96"), inches("8"), trimmed=True)
    blanks = [
        Blank("side", inches("22"), inches("4"), quantity=4),
        Blank("stile", inches("24"), inches("2"), quantity=2),
        Blank("rail", inches("11"), inches("2"), quantity=2),
    ]
    plan = planned(board, Keep(inches("12"), inches("3")), blanks)
    (layout,) = plan.layouts
    rips = [cut.of.length for cut in layout.cuts if cut.direction is RIP]
    assert min(rips) >= inches("70")
    (kept,) = [one.area for one in layout.leftovers if one.keep]
    assert (kept.length, kept.width) == (inches("25 1/2"), inches("3 7/8"))


@pytest.mark.parametrize("first", ["either", "crosscut", "rip"])
def test_rounds_that_are_asked_for_have_no_small_squares_ripped(first: str) -> None:
    # Five of 2 11/16 x 2 5/8: no hand holds so short a piece beside the fence.
    board = Stock("board", inches("47"), inches("6 3/4"), trimmed=True)
    wall = Blank("wall", inches("2 11/16"), inches("2 5/8"), quantity=5)
    asked = job(board, [wall], stages=3, first=first)
    plan = solve(replace(asked, keep=Keep(inches("12"), inches("2"))))
    check(plan)
    (layout,) = plan.layouts
    rips = [cut.of.length for cut in layout.cuts if cut.direction is RIP]
    assert len(rips) == 1
    assert rips[0] >= inches("13 1/2")


def test_splines_come_off_one_strip_rather_than_off_slices_no_hand_can_hold() -> None:
    # 20 x 2 3/4: eight of 3/8 x 1 1/8, in two slices of four across the board.
    stock = Stock("M", inches("20"), inches("2 3/4"), trimmed=True)
    asked = job(stock, [Blank("spline", inches("1 1/8"), inches("3/8"), quantity=8)])
    shape, made = Shape(0, inch("1 1/8"), inch("3/8"), False), Pattern()
    box, after = (0, 0, inch("20"), inch("2 3/4")), -1
    for _ in range(2):
        slab, rest, after = made.part_off(
            box, CROSSCUT, inch("1 1/8"), inch("1/8"), after
        )
        assert rest
        box, inner = rest, after
        for _ in range(4):
            piece, beside, inner = made.part_off(
                slab, RIP, inch("3/8"), inch("1/8"), inner
            )
            made.pieces.append((shape, piece))
            slab = beside or slab
        made.waste.append(slab)
    made.waste.append(box)
    again = best_leftover(made, asked, stock)
    assert unheld(made) == 8
    assert unheld(again) == 0
    kept = [one for one in sawn(again, asked, stock).layouts[0].leftovers if one.keep]
    assert [one.area.width for one in kept] == [inches("2 1/4")]
