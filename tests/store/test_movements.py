"""The ledger of wood: what it refuses, and what holds whatever is recorded."""

from __future__ import annotations

import re
import tempfile
import threading
from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import select, text
from sqlalchemy.orm import Session

from app.core import leaving, receiving, shopwork
from app.core.cutting.plan import Direction
from app.core.errors import NotFound, WorkshopError
from app.core.length import Length, inches
from app.core.movement import (
    Made,
    Movement,
    MovementKind,
    PanelStrip,
    Piece,
    PieceKind,
    Taken,
)
from app.core.part import Dimensions
from app.core.shopwork import PartWanted
from app.store import balance, movements, rack, thread
from app.store.rack import Pile
from app.store.schema import Episode, MovementLine, MovementRow, Series
from app.store.workspace import Workspace, open_workspace

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
DAY = date(2026, 3, 2)


STRAY = (
    "INSERT INTO stock (id, version, label, kind, species, length_nm, width_nm, "
    "thickness_nm, strips, name, part_key, place, made_by) "
    "VALUES (99, 1, 'Q9', 'board', 'oak', 1, 1, 1, '[]', '', '', '', 1)"
)


def board(species: str = "walnut", length: str = "96") -> Piece:
    size = Dimensions(inches(length), inches("6"), inches("1"))
    return Piece(PieceKind.BOARD, species, size)


def put(
    work: Session, movement: Movement, episode_id: int | None = None
) -> MovementRow:
    return movements.record(
        work,
        movement,
        on=DAY,
        now=NOON,
        zone="UTC",
        currency="USD",
        episode_id=episode_id,
    )


def take_back(work: Session, movement_id: int) -> MovementRow:
    return movements.reverse(
        work, movement_id, on=DAY, now=NOON, zone="UTC", note="a mistake"
    )


def bought(work: Session, piece: Piece, quantity: int = 1, paid: int = 0) -> Pile:
    row = put(work, receiving.bought([Made(piece, quantity)], paid))
    return rack.piles(work, [row.lines[0].stock_id or 0])[0]


def part_one(work: Session, number: int = 1) -> int:
    series = work.scalar(select(Series)) or Series(slug="porch", title="Porch pieces")
    episode = Episode(number=number, slug="tray", title="Tray")
    series.episodes.append(episode)
    work.add(series)
    work.flush()
    return episode.id


@pytest.mark.parametrize(
    ("species", "label"),
    [
        ("walnut", "W1"),
        ("hard maple", "M1"),
        ("walnut + maple", "WM1"),
        ("épinette", "E1"),
        ("樺", "X1"),
    ],
)
def test_a_label_is_the_species_letters_and_a_running_number(
    workspace: Workspace, species: str, label: str
) -> None:
    with workspace.write() as work:
        assert bought(work, board(species)).label == label
        assert bought(work, board("cherry")).label == "C2"


def test_a_wanted_label_is_kept_unless_it_is_taken(workspace: Workspace) -> None:
    with workspace.write() as work:
        lines = [Made(board(), 1, label="C2"), Made(board("cherry"), 1, label="C2")]
        put(work, receiving.opening_count(lines))
        labels = sorted(pile.label for pile in rack.on_hand(work))
    assert labels == ["C2", "C3"]


@pytest.mark.parametrize("wanted", ["../settings", "W 1", "", "Ω1", "W" * 21])
def test_a_label_that_fits_no_address_is_replaced(
    workspace: Workspace, wanted: str
) -> None:
    with workspace.write() as work:
        put(work, receiving.opening_count([Made(board(), 1, label=wanted)]))
        assert rack.on_hand(work)[0].label == "W1"


@pytest.mark.parametrize(
    ("quantity", "cost", "says"),
    [
        (3, 0, "3 of W1 are wanted and 2 are on the rack"),
        (1, 101, "W1 carries 100 in money"),
        (2, 99, "the last pieces take all of it"),
    ],
)
def test_no_pile_gives_more_wood_or_money_than_it_has(
    workspace: Workspace, quantity: int, cost: int, says: str
) -> None:
    with workspace.write() as work:
        pile = bought(work, board(), 2, 100)
    taken = Taken(pile.stock_id, pile.piece, quantity, cost)
    with pytest.raises(WorkshopError, match=says), workspace.write() as work:
        put(work, leaving.discarded(taken, "split"))
    with workspace.read() as work:
        assert rack.on_hand(work) == (pile,)


def test_one_pile_named_twice_in_a_movement_is_counted_together(
    workspace: Workspace,
) -> None:
    with workspace.write() as work:
        pile = bought(work, board(), 2)
    twice = (pile.taking(2), pile.taking(1))
    movement = Movement(
        MovementKind.LOST, taken=twice, to_outside=3 * pile.piece.volume
    )
    with (
        pytest.raises(WorkshopError, match="3 of W1 are wanted"),
        workspace.write() as work,
    ):
        put(work, movement)


def test_a_piece_that_is_not_what_it_is_said_to_be_is_refused(
    workspace: Workspace,
) -> None:
    """Else a short board could be cut as a long one, and wood would appear."""
    with workspace.write() as work:
        pile = bought(work, board(length="24"))
    swapped = Taken(pile.stock_id, board(length="96"), 1)
    with (
        pytest.raises(WorkshopError, match="W1 is not the piece"),
        workspace.write() as work,
    ):
        put(work, leaving.given_away(swapped))
    joining = Made(board(length="96"), 1, stock_id=pile.stock_id)
    with (
        pytest.raises(WorkshopError, match="cannot join that pile"),
        workspace.write() as work,
    ):
        put(work, receiving.found([joining]))


def test_stock_that_is_not_there_cannot_be_taken(workspace: Workspace) -> None:
    with (
        pytest.raises(WorkshopError, match="not in this workspace"),
        workspace.write() as work,
    ):
        put(work, leaving.lost(Taken(7, board(), 1)))


def test_two_windows_cannot_use_the_same_board(workspace: Workspace) -> None:
    """Both see one board and both use it up at the same moment; one is refused."""
    with workspace.write() as work:
        bought(work, board())
    start = threading.Barrier(2)
    refused = []

    def use() -> None:
        with workspace.read() as work:
            (pile,) = rack.on_hand(work)
        start.wait()
        try:
            with workspace.write() as work:
                put(work, leaving.discarded(pile.taking(1), "used"))
        except WorkshopError as error:
            refused.append(str(error))

    windows = [threading.Thread(target=use) for _ in range(2)]
    for window in windows:
        window.start()
    for window in windows:
        window.join()
    assert refused == [
        "1 of W1 are wanted and 0 are on the rack. Take fewer, or count the pile again."
    ]
    with workspace.read() as work:
        assert rack.on_hand(work) == ()
        assert balance.verify(work) is None


def test_new_piles_know_the_part_they_came_out_of(workspace: Workspace) -> None:
    with workspace.write() as work:
        episode_id = part_one(work)
        pile = bought(work, board())
        cut = shopwork.cut_by_hand(
            pile.taking(1), Direction.CROSSCUT, [inches("24")], inches("1/8")
        )
        put(work, cut, episode_id)
        offcut = next(p for p in rack.on_hand(work) if p.piece.kind == "offcut")
        thin = replace(offcut.piece.size, thickness=inches("3/4"))
        put(work, shopwork.surfaced(offcut.taking(1), thin))
        planed = next(p for p in rack.on_hand(work) if p.piece.kind == "offcut")
    assert pile.episode_id is None
    assert (offcut.episode_id, planed.episode_id) == (episode_id, episode_id)
    assert (offcut.series_slug, offcut.episode_number) == ("porch", 1)


def test_an_episode_counts_the_wood_it_took_and_where_it_was_left_over(
    workspace: Workspace,
) -> None:
    """What it makes on the way, and what it took back, is not wood used."""
    with workspace.write() as work:
        first, second = part_one(work), part_one(work, 2)
        pile = bought(work, board(), 2, 3000)
        sizes, kerf = [inches("24")], inches("1/8")
        cut = shopwork.cut_by_hand(pile.taking(1), Direction.CROSSCUT, sizes, kerf)
        put(work, cut, first)
        offcut = next(p for p in rack.on_hand(work) if p.piece.kind == "offcut")
        again = shopwork.cut_by_hand(offcut.taking(1), Direction.RIP, [kerf], kerf)
        put(work, again, second)
        strip = next(p for p in rack.on_hand(work) if p.episode_id == second)
        put(work, shopwork.built([strip.taking(1)], [PartWanted("pin", "Pin", 1, 5)]))
        other = rack.pile(work, pile.label)
        slip = shopwork.cut_by_hand(other.taking(1), Direction.RIP, [kerf], kerf)
        take_back(work, put(work, slip, second).id)
        used = {n: rack.wood_used(work, n) for n in (first, second)}
    assert [(item.label, item.quantity) for item in used[first]] == [(pile.label, 1)]
    assert used[first][0].origin_id is None
    (item,) = used[second]
    assert (item.label, item.origin_number, item.origin_series_slug) == (
        offcut.label,
        1,
        "porch",
    )
    assert item.volume == offcut.piece.volume


def test_a_reversal_is_refused_while_later_records_build_on_it(
    workspace: Workspace,
) -> None:
    with workspace.write() as work:
        pile = bought(work, board(), 2, 100)
        put(work, leaving.discarded(pile.taking(1), "split"))
    with (
        pytest.raises(WorkshopError, match=r"Record 2 \(discarded, 2026-03-02\)"),
        workspace.write() as work,
    ):
        take_back(work, 1)
    with workspace.write() as work:
        take_back(work, 2)
        take_back(work, 1)
        assert rack.on_hand(work) == ()
        assert balance.verify(work) is None


@pytest.mark.parametrize(
    ("movement_id", "says"),
    [(1, "was taken back already on 2026-03-02"), (2, "is itself an undoing")],
)
def test_a_record_is_taken_back_once(
    workspace: Workspace, movement_id: int, says: str
) -> None:
    with workspace.write() as work:
        bought(work, board())
        take_back(work, 1)
    with pytest.raises(WorkshopError, match=says), workspace.write() as work:
        take_back(work, movement_id)


def test_a_record_that_is_not_there_is_not_found(workspace: Workspace) -> None:
    with pytest.raises(NotFound), workspace.write() as work:
        take_back(work, 99)


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


def test_a_strip_of_a_panel_is_remembered_in_its_place(workspace: Workspace) -> None:
    order = (PanelStrip("walnut", inches("2")), PanelStrip("maple", inches("4")))
    panel = replace(board("walnut + maple"), kind=PieceKind.PANEL, strips=order)
    with workspace.write() as work:
        bought(work, panel)
    with workspace.read() as work:
        assert rack.on_hand(work)[0].piece == panel


def test_a_boards_way_is_told_in_both_directions(workspace: Workspace) -> None:
    with workspace.write() as work:
        episode_id = part_one(work)
        pile = bought(work, board())
        sizes = [inches("24"), inches("24")]
        cut = shopwork.cut_by_hand(
            pile.taking(1), Direction.CROSSCUT, sizes, inches("1/8")
        )
        put(work, cut, episode_id)
        blank = rack.pile(work, "W2")
        side = PartWanted("side", "Side", 2, blank.piece.volume)
        put(work, shopwork.built([blank.taking(2)], [side]), episode_id)
        after = thread.became(work, pile.stock_id)
        before = thread.came_from(work, blank.stock_id)
        story = thread.history(work, pile.stock_id)
    assert [(kin.steps, kin.label or kin.name, kin.quantity) for kin in after] == [
        (1, "W2", 2),
        (2, "Side", 2),
        (1, "W3", 1),
    ]
    assert [(kin.steps, kin.label) for kin in before] == [(1, "W1")]
    assert [event.kind for event in story] == ["bought", "cut"]


# ---- whatever is recorded


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
