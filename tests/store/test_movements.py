"""The ledger of wood: what it records, refuses and takes back."""

from __future__ import annotations

import threading
from dataclasses import replace

import pytest

from app.core import leaving, receiving, shopwork
from app.core.cutting.plan import Direction
from app.core.errors import NotFound, WorkshopError
from app.core.length import inches
from app.core.movement import (
    Made,
    Movement,
    MovementKind,
    PanelStrip,
    PieceKind,
    Taken,
)
from app.core.shopwork import PartWanted
from app.store import balance, rack
from app.store.workspace import Workspace
from tests.store.ledger import board, bought, part_one, put, take_back


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


def test_a_strip_of_a_panel_is_remembered_in_its_place(workspace: Workspace) -> None:
    order = (PanelStrip("walnut", inches("2")), PanelStrip("maple", inches("4")))
    panel = replace(board("walnut + maple"), kind=PieceKind.PANEL, strips=order)
    with workspace.write() as work:
        bought(work, panel)
    with workspace.read() as work:
        assert rack.on_hand(work)[0].piece == panel
