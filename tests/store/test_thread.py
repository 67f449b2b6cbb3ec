"""The way of a board, forward and back."""

from __future__ import annotations

from app.core import shopwork
from app.core.cutting.plan import Direction
from app.core.length import inches
from app.core.shopwork import PartWanted
from app.store import rack, thread
from app.store.workspace import Workspace
from tests.store.ledger import board, bought, part_one, put


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
