"""A plan carried out: wood and money balance exactly."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.outcome import balance, movement, to_buy
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.errors import WorkshopError
from app.core.length import Length, inches
from app.core.movement import Movement, Piece, PieceKind, Taken
from app.core.part import Dimensions

KEEP = Keep(inches("8"), inches("1"))
inch = 25_400_000
sizes = st.integers(1, 40 * inch).map(Length)
kerfs = st.integers(0, inch).map(Length)


def one_board(
    board: tuple[Length, Length, Length],
    blanks: list[tuple[Length, Length, int]],
    saw: Saw,
    thickness: Length,
) -> Plan:
    stock = Stock("1", *board, quantity=3, species="walnut", name="B1")
    wanted = tuple(
        Blank(f"part-{n}", length, width, thickness, count, name=f"part {n}")
        for n, (length, width, count) in enumerate(blanks)
    )
    return solve(Job(saw, KEEP, (stock,), wanted, plane=Length(10**9)), work=20_000)


def carried_out(plan: Plan, cost: int = 0) -> Movement:
    (stock,) = plan.job.stock
    assert stock.width
    assert stock.thickness
    size = Dimensions(stock.length, stock.width, stock.thickness)
    copies = sum(layout.copies for layout in plan.layouts)
    taken = Taken(1, Piece(PieceKind.BOARD, "walnut", size), copies, cost)
    return movement(plan, {"1": taken}, {"part-0": PieceKind.STRIP})


@settings(deadline=None)
@given(
    st.tuples(sizes, sizes),
    st.lists(st.tuples(sizes, sizes, st.integers(1, 3)), min_size=1, max_size=4),
    kerfs,
    kerfs,
    kerfs,
    st.integers(0, 10**6),
)
def test_all_wood_and_money_is_accounted_for(
    face: tuple[Length, Length],
    blanks: list[tuple[Length, Length, int]],
    kerf: Length,
    trim: Length,
    planed: Length,
    cost: int,
) -> None:
    thickness = Length(19_050_001)
    plan = one_board(
        (*face, thickness + planed), blanks, Saw(kerf, trim, trim), thickness
    )
    if plan.unplaced:
        with pytest.raises(WorkshopError):
            carried_out(plan)
        return
    went = carried_out(plan, cost)  # a Movement refuses to exist unbalanced
    wanted = sum(
        length.nm * width.nm * thickness.nm * count for length, width, count in blanks
    )
    made = sum(line.volume for line in went.made if line.part_key)
    assert made == wanted
    assert went.volume_in == went.volume_out
    assert sum(line.cost for line in went.made) == cost
    heaps = balance(plan)
    assert heaps.pop("stock") == sum(heaps.values()) == went.volume_in


def test_the_worked_board() -> None:
    # 24 x 6 x 1 board, 1/8 kerf: a 12 x 6 blank planed to 3/4 is crosscut off.
    board = (inches("24"), inches("6"), inches("1"))
    blanks = [(inches("12"), inches("6"), 1)]
    plan = one_board(board, blanks, Saw(inches("1/8")), inches("3/4"))
    went = carried_out(plan, 1000)
    blank, offcut = went.made
    cubic_inch = inch**3
    assert blank.volume == 54 * cubic_inch
    assert blank.piece.kind is PieceKind.STRIP
    assert blank.part_key == "part-0"
    assert offcut.piece.kind is PieceKind.OFFCUT
    assert offcut.name == "Offcut of B1"
    assert offcut.piece.size.thickness == inches("1")
    assert offcut.volume * 8 == 95 * 6 * cubic_inch  # 11 7/8 long
    assert went.kerf * 8 == 6 * cubic_inch
    assert went.chips == 18 * cubic_inch
    assert went.scrap == 0
    # 54 : 71 1/4 by volume, to the cent
    assert (blank.cost, offcut.cost) == (431, 569)


def test_a_sawn_offcut_cut_up_balances_without_trims() -> None:
    # 20 1/8 x 4 x 1 offcut: two blanks 10 x 4, planed to 3/4, and one kerf of 1/8.
    saw = Saw(inches("1/8"), inches("1/2"), inches("1/4"))
    size = Dimensions(inches("20 1/8"), inches("4"), inches("1"))
    stock = Stock(
        *("1", size.length, size.width, size.thickness),
        offcut=True,
        trimmed=True,
    )
    wanted = Blank("part", inches("10"), inches("4"), inches("3/4"), quantity=2)
    plan = solve(Job(saw, KEEP, (stock,), (wanted,), plane=inches("3/8")))
    taken = Taken(1, Piece(PieceKind.OFFCUT, "walnut", size), 1, 500)
    went = movement(plan, {"1": taken}, {})
    (line,) = went.made
    assert (line.quantity, line.volume) == (2, 60 * inch**3)
    assert went.kerf * 2 == inch**3  # 1/8 x 4 x 1
    assert went.chips == 20 * inch**3  # 1/4 off two faces of 10 x 4
    assert went.scrap == 0
    assert went.volume_in * 2 == 161 * inch**3


def test_a_plan_with_a_blank_longer_than_any_board_cannot_be_cut() -> None:
    board = (inches("24"), inches("6"), inches("1"))
    plan = one_board(
        board, [(inches("25"), inches("2"), 1)], Saw(inches("1/8")), board[2]
    )
    with pytest.raises(WorkshopError, match="Longer than any"):
        carried_out(plan)


def test_a_plan_with_boards_to_buy_cannot_be_cut() -> None:
    stock = Stock("1", inches("24"), inches("6"), inches("1"), None, cost=500)
    blank = Blank("part", inches("12"), inches("2"), inches("1"))
    plan = solve(Job(Saw(inches("1/8")), KEEP, (stock,), (blank,)))
    assert to_buy(plan) == {"1": 1}
    with pytest.raises(WorkshopError, match="Record the purchase"):
        carried_out(plan)


def test_two_boards_cut_alike_count_twice() -> None:
    board = (inches("12"), inches("6"), inches("1"))
    blanks = [(inches("8"), inches("6"), 2)]
    plan = one_board(board, blanks, Saw(inches("1/8")), inches("3/4"))
    assert [layout.copies for layout in plan.layouts] == [2]
    went = carried_out(plan)
    # by hand, each board: 8 x 6 x 1/4 planed away, 1/8 x 6 x 1 sawn, 3 7/8 x 6 scrap
    assert went.chips == 2 * 12 * inch**3
    assert went.kerf * 4 == 6 * inch**3
    assert went.scrap * 4 == 186 * inch**3
