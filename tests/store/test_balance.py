"""Wood and money balance, whatever is recorded; damage is found."""

from __future__ import annotations

import re
import tempfile
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import select, text
from sqlalchemy.orm import Session

from app.core import leaving, receiving, shopwork
from app.core.cutting.plan import Direction
from app.core.errors import WorkshopError
from app.core.length import Length, inches
from app.core.movement import (
    Made,
    Movement,
    Piece,
    PieceKind,
)
from app.core.part import Dimensions
from app.core.shopwork import PartWanted
from app.store import balance, rack
from app.store.schema import MovementLine
from app.store.workspace import Workspace, open_workspace
from tests.store.ledger import board, bought, part_one, put, take_back

STRAY = (
    "INSERT INTO stock (id, version, label, kind, species, length_nm, width_nm, "
    "thickness_nm, strips, name, part_key, place, made_by) "
    "VALUES (99, 1, 'Q9', 'board', 'oak', 1, 1, 1, '[]', '', '', '', 1)"
)


@pytest.mark.parametrize(
    ("damage", "says"),
    [
        ("UPDATE movement SET scrap = '1' WHERE id = 2", r"Record 2 \(cut.*nm³ go in"),
        ("UPDATE stock SET width_nm = 1 WHERE id = 1", "Record 1 .*every movement"),
        ("UPDATE movement_line SET quantity = 9 WHERE id = 2", "Record 2"),
        (
            "UPDATE movement_line SET volume = '5' WHERE id = 1",
            "Record 1 .*a line's volume is not that of its pieces",
        ),
        ("DELETE FROM movement_line WHERE movement_id = 1", "every movement must"),
        (
            "UPDATE movement SET reverses_id = 2 WHERE reverses_id = 3",
            "Record 4 .*does not mirror record 2",
        ),
        (STRAY, "Stock Q9 was put on the rack by no record"),
    ],
)
def test_checking_names_the_first_record_that_is_not_sound(
    workspace: Workspace, damage: str, says: str
) -> None:
    with workspace.write() as work:
        pile = bought(work, board(), 2, 100)
        sizes = [inches("24")]
        put(
            work,
            shopwork.cut_by_hand(
                pile.taking(1), Direction.CROSSCUT, sizes, inches("1/8")
            ),
        )
        lost = put(work, leaving.lost(rack.pile(work, "W1").taking(1)))
        take_back(work, lost.id)
        assert balance.verify(work) is None
    with workspace.write() as work:
        work.execute(text(damage))
    with workspace.read() as work:
        found = balance.verify(work)
    assert found is not None
    assert re.search(says, found), found


def test_a_pile_that_falls_below_zero_on_the_way_is_found(
    workspace: Workspace,
) -> None:
    """The sums come out, but the second record took what came only later."""
    with workspace.write() as work:
        pile = bought(work, board(), 1)
        put(work, leaving.lost(pile.taking(1)))
        put(work, receiving.found([Made(pile.piece, 1, stock_id=pile.stock_id)]))
    with workspace.write() as work:
        # As if two had been lost and two found.
        twice = str(2 * pile.piece.volume)
        for statement in (
            f"UPDATE movement_line SET quantity = 2, volume = '{twice}' WHERE id > 1",
            f"UPDATE movement SET to_outside = '{twice}' WHERE id = 2",
            f"UPDATE movement SET from_outside = '{twice}' WHERE id = 3",
        ):
            work.execute(text(statement))
    with workspace.read() as work:
        assert balance.verify(work) == (
            "Record 2 (lost, 2026-03-02): it takes more of W1 than there was."
        )


def random_movement(data: st.DataObject, work: Session) -> Movement:
    """Something that a shop might do next."""
    piles = rack.on_hand(work)
    if not piles or data.draw(st.integers(0, 4)) == 0:
        size = st.integers(2, 10**10).map(Length)
        piece = Piece(
            data.draw(st.sampled_from([PieceKind.BOARD, PieceKind.SHEET])),
            data.draw(st.sampled_from(["walnut", "maple"])),
            Dimensions(data.draw(size), data.draw(size), data.draw(size)),
        )
        count, paid = data.draw(st.integers(1, 5)), data.draw(st.integers(0, 9999))
        return receiving.bought([Made(piece, count)], paid)
    pile = data.draw(st.sampled_from(piles))
    taken = pile.taking(data.draw(st.integers(1, pile.quantity)))
    action = data.draw(st.sampled_from(("cut", "plane", "build", "lose", "throw")))
    if action == "cut":
        direction = data.draw(st.sampled_from(Direction))
        across = direction is Direction.RIP
        whole = pile.piece.size.width if across else pile.piece.size.length
        size = Length(data.draw(st.integers(1, whole.nm)))
        kerf = Length(data.draw(st.integers(0, whole.nm)))
        return shopwork.cut_by_hand(taken, direction, [size], kerf)
    if action == "plane" and pile.piece.size.thickness.nm > 1:
        left = data.draw(st.integers(1, pile.piece.size.thickness.nm - 1))
        thinner = replace(pile.piece.size, thickness=Length(left))
        return shopwork.surfaced(taken, thinner)
    if action == "build":
        volume = data.draw(st.integers(1, taken.volume))
        kerf_volume = data.draw(st.integers(0, taken.volume))
        part = PartWanted("part", "Part", 1, volume)
        return shopwork.built([taken], [part], kerf=kerf_volume)
    return leaving.lost(taken) if action == "lose" else leaving.discarded(taken, "rot")


def rebuilt(work: Session) -> dict[int, tuple[int, int]]:
    """What is on hand, by walking through every line here on its own."""
    count: Counter[int] = Counter()
    money: Counter[int] = Counter()
    for line in work.scalars(select(MovementLine).order_by(MovementLine.id)):
        if line.stock_id is None:
            continue
        sign = 1 if line.side == "made" else -1
        count[line.stock_id] += sign * line.quantity
        money[line.stock_id] += sign * line.cost
        assert count[line.stock_id] >= 0
    return {key: (has, money[key]) for key, has in count.items() if has}


def on_hand(work: Session) -> dict[int, tuple[int, int]]:
    return {pile.stock_id: (pile.quantity, pile.cost) for pile in rack.on_hand(work)}


@settings(max_examples=8, deadline=None)
@given(st.data())
def test_whatever_a_shop_does_wood_and_money_balance_and_can_be_taken_back(
    data: st.DataObject,
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        workspace = open_workspace(Path(folder))
        states = [{}]
        with workspace.write() as work:
            episode_id = part_one(work)
        for _ in range(data.draw(st.integers(1, 8))):
            with workspace.write() as work:
                owner = data.draw(st.sampled_from([None, episode_id]))
                put(work, random_movement(data, work), owner)
                states.append(on_hand(work))
        with workspace.read() as work:
            assert rebuilt(work) == on_hand(work)
            assert balance.verify(work) is None
            assert balance.of_workspace(work).exact
            assert balance.of_episode(work, episode_id).exact
            books = balance.of_workspace(work)
            stood = sum(pile.volume for pile in rack.on_hand(work))
            assert (books.kept, books.kept_cost) == (
                stood,
                sum(pile.cost for pile in rack.on_hand(work)),
            )
        # Taken back from the last to the first, each leaves what was before it.
        for movement_id in range(len(states) - 1, 0, -1):
            with workspace.write() as work:
                take_back(work, movement_id)
                assert on_hand(work) == states[movement_id - 1]
        with workspace.read() as work:
            assert balance.verify(work) is None
        workspace.close()


@settings(max_examples=8, deadline=None)
@given(st.data())
def test_a_refused_reversal_leaves_the_rack_as_it_was(data: st.DataObject) -> None:
    with tempfile.TemporaryDirectory() as folder:
        workspace = open_workspace(Path(folder))
        for _ in range(5):
            with workspace.write() as work:
                put(work, random_movement(data, work))
        with workspace.read() as work:
            before = on_hand(work)
        try:
            with workspace.write() as work:
                take_back(work, data.draw(st.integers(1, 5)))
        except WorkshopError:
            with workspace.read() as work:
                assert on_hand(work) == before
        with workspace.read() as work:
            assert balance.verify(work) is None
            assert balance.of_workspace(work).exact
        workspace.close()
