"""One part of a series: drawn, sawn and recorded as any plan is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.by_period import brought, of_period
from app.core.cutting.job import Area, Blank, Job, Keep, Saw, Stock
from app.core.cutting.offcut_names import board_names, offcut_names, small_letters
from app.core.cutting.order import in_order, sequence
from app.core.cutting.outcome import balance, movement
from app.core.cutting.plan import Cut, Direction, Layout, Leftover, Placed, Plan
from app.core.cutting.solve import solve
from app.core.length import inches
from app.core.movement import Movement, Piece, PieceKind, Taken
from app.core.part import Dimensions
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import random_job

THICK = inches("3/4")


def rect(x: str, y: str, length: str, width: str) -> Area:
    return Area(inches(x), inches(y), inches(length), inches(width))


def cut(direction: Direction, at: str, of: Area) -> Cut:
    return Cut(direction, inches(at), inches("1/8"), of)


def series() -> Plan:
    """Two boards of 40 x 6. The tray takes 10 off each; the box rips what was left.

    40  [tray 10]|----------- 29 7/8, for the box: [side 24 x 2 1/2], rest ---------|
    """
    board = Stock("7", inches("40"), inches("6"), THICK, 2, species="cherry", name="C1")
    blanks = (
        Blank("base", inches("10"), inches("6"), THICK, 2, period="tray", name="base"),
        Blank(
            "side", inches("24"), inches("2 1/2"), THICK, 2, period="box", name="side"
        ),
    )
    job = Job(
        Saw(inches("1/8")),
        Keep(inches("8"), inches("1")),
        (board,),
        blanks,
        periods=("tray", "box"),
    )
    left = rect("10 1/8", "0", "29 7/8", "6")
    block = rect("10 1/8", "0", "24", "6")
    layout = Layout(
        "7",
        2,
        (
            Placed("base", rect("0", "0", "10", "6")),
            Placed("side", rect("10 1/8", "0", "24", "2 1/2")),
        ),
        (
            Leftover(left, True, "box"),
            Leftover(rect("34 1/4", "0", "5 3/4", "6"), False),
            Leftover(rect("10 1/8", "2 5/8", "24", "3 3/8"), True),
        ),
        (
            cut(Direction.CROSSCUT, "10", rect("0", "0", "40", "6")),
            cut(Direction.CROSSCUT, "34 1/8", left),
            cut(Direction.RIP, "2 1/2", block),
        ),
        "tray",
    )
    plan = in_order(Plan(job, (layout,)))
    check(plan)
    return plan


def recorded(plan: Plan, kind: PieceKind) -> Movement:
    (stock,) = plan.job.stock
    assert stock.width
    size = Dimensions(stock.length, stock.width, THICK)
    taken = Taken(1, Piece(kind, "cherry", size), 2, 6000)
    return movement(plan, {stock.id: taken}, {})


def test_the_first_part_leaves_on_the_rack_what_a_later_one_will_use() -> None:
    tray = of_period(series(), "tray")
    check(tray)
    (layout,) = tray.layouts
    assert [piece.blank for piece in layout.pieces] == ["base"]
    (left,) = layout.leftovers
    assert (left.area, left.keep, left.used_in) == (
        rect("10 1/8", "0", "29 7/8", "6"),
        True,
        "",
    )
    went = recorded(tray, PieceKind.BOARD)
    offcut = next(one for one in went.made if one.piece.kind is PieceKind.OFFCUT)
    assert (offcut.quantity, offcut.piece.size.length) == (2, inches("29 7/8"))


def test_the_later_part_cuts_that_offcut_from_its_own_corner() -> None:
    plan = series()
    (offcut,) = brought(plan, "box")
    assert offcut.stock == "C1-a"
    box = of_period(plan, "box")
    check(box)
    (stock,) = box.job.stock
    assert (stock.id, stock.name, stock.quantity) == ("C1-a", "C1-a", 2)
    assert (stock.length, stock.trimmed, stock.cost) == (inches("29 7/8"), True, None)
    (layout,) = box.layouts
    assert layout.pieces[0].area == rect("0", "0", "24", "2 1/2")
    assert [one.against for _, one in sequence(box)] == [
        "left end, sawn before",
        "upper edge, sawn before, with a push block",
    ]
    went = recorded(box, PieceKind.OFFCUT)
    assert went.volume_in == went.volume_out


def test_the_parts_together_are_the_whole() -> None:
    plan = series()
    parts = [of_period(plan, period) for period in ("tray", "box")]
    whole, tray, box = map(balance, (plan, *parts))
    carried = box["stock"]
    assert tray["stock"] == whole["stock"]
    assert tray["blanks"] + box["blanks"] == whole["blanks"]
    assert tray["offcuts"] - carried + box["offcuts"] == whole["offcuts"]
    assert tray["kerf"] + box["kerf"] == whole["kerf"]
    assert sum(whole.values()) == 2 * whole["stock"]


@pytest.mark.parametrize("seed", range(30))
def test_a_plan_without_parts_is_its_only_part(seed: int) -> None:
    plan = solve(random_job(seed), work=1000)
    bare = replace(plan, bounds=())
    part = of_period(bare, "")
    assert part.layouts == bare.layouts
    check(part)


def test_an_offcut_is_named_after_its_board_and_the_next_goes_on() -> None:
    names = offcut_names(series())
    assert names == (("C1-a", "", "C1-b"),)
    plan = series()
    twice = replace(plan, layouts=plan.layouts * 2)
    assert offcut_names(twice)[1] == ("C1-c", "", "C1-d")
    assert [small_letters(n) for n in (0, 25, 26, 52)] == ["a", "z", "aa", "ba"]


def test_boards_of_one_label_that_are_cut_differently_are_told_apart() -> None:
    plan = series()
    assert board_names(plan) == ("C1",)
    one = replace(plan.layouts[0], copies=1)
    several = replace(plan, layouts=(*plan.layouts, one))
    assert board_names(several) == ("C1 no. 1–2", "C1 no. 3")
