"""Thick boards resawn: offered where it pays, recorded before the plan is cut."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.cutting.written import read_plan
from app.core.errors import WorkshopError
from app.core.length import inches
from app.core.movement import Movement, Piece, PieceKind
from app.core.part import Dimensions
from app.services import before_sawing, plans, sawn_first
from app.store import plans as store
from app.store.rack import pile
from app.store.schema import MovementRow
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services import yard
from tests.services.porch_rack import put
from tests.services.yard import in_short

__all__ = ["in_short"]

# Blanks of 7/16 x 5 1/8 x 30 1/2 in.
SIDES = "side,2,3/8,5,30,walnut"
KERF = inches("1/16")


@pytest.fixture
def bench(workspace: Workspace) -> Workspace:
    yard.shop(workspace, resaw_height="8")
    yard.start(workspace, SIDES)
    return workspace


def thick(length: str = "40", width: str = "6", thickness: str = "2") -> Piece:
    size = Dimensions(inches(length), inches(width), inches(thickness))
    return Piece(PieceKind.BOARD, "walnut", size)


def told(workspace: Workspace) -> before_sawing.BeforeSawing:
    return before_sawing.show_for(workspace, yard.episode_id(workspace))


def test_a_thick_board_serves_a_thin_part_only_where_the_shop_resaws(
    bench: Workspace,
) -> None:
    put(bench, thick(thickness="1 1/4"))
    yard.make(bench)
    (line,) = told(bench).resawn
    # (1 1/4 - 1/16) / 2 - 1/16.
    assert (line.before, line.boards) == (inches("1 1/4"), 2)
    assert line.after == inches("17/32")
    face = inches("40").nm * inches("6").nm
    assert line.waste == face * inches("3/16").nm  # one kerf and both faces of two
    plan = yard.plan(bench)
    assert not plan.unplaced
    assert "band-saw.tall-work-tips" in {caution.key for caution in plan.cautions}
    yard.shop(bench, resaw_height="0")
    assert plan.stale or yard.plan(bench).stale
    yard.make(bench)
    assert yard.plan(bench).unplaced
    assert told(bench).resawn == ()
    (hint,) = told(bench).hints
    assert hint.startswith("W1 is thick enough to be resawn for side")


def test_the_ledger_has_the_kerf_and_the_chips_of_resawing(bench: Workspace) -> None:
    put(bench, thick(thickness="1 1/4"), cost=4001)
    yard.make(bench)
    yard.cut(bench)
    bought, resawn, cut = yard.records(bench)
    assert (bought[0], resawn[0], cut[0]) == ("bought", "cut", "cut")
    face = inches("40").nm * inches("6").nm
    assert resawn[2] == face * KERF.nm
    # What flattening both faces takes off two boards.
    assert resawn[3] == face * 2 * inches("1/16").nm
    (sides,) = yard.lying(bench, PieceKind.BLANK)
    assert (sides.part_key, sides.quantity) == ("side", 2)
    assert yard.money_there(bench) == 4001
    assert yard.seen(bench).to_cut == 0


def test_offcuts_of_a_resawn_board_name_the_board_they_came_from(
    bench: Workspace,
) -> None:
    put(bench, thick(length="60", thickness="1 1/4"))
    yard.make(bench)
    yard.cut(bench)
    offcuts = yard.lying(bench, PieceKind.OFFCUT)
    assert {one.piece.size.thickness for one in offcuts} == {inches("17/32")}
    for one in offcuts:
        with bench.read() as work:
            source = pile(work, one.name.removeprefix("Offcut of "))
        assert source.piece.size.thickness == inches("17/32")


def test_a_thick_board_is_bought_whole_and_then_resawn(bench: Workspace) -> None:
    yard.make(bench, "walnut, 1 1/4, 6, 36, 40.01\nwalnut, 5/8, 6, 36, 25.00")
    plan = yard.plan(bench)
    (line,) = plan.to_buy
    assert (line.quantity, line.thickness, line.cost) == (1, inches("1 1/4"), 4001)
    plans.buy(bench, yard.SLUG, 1, plan.version, yard.DAY, "", NOON)
    after = yard.plan(bench)
    assert not after.stale
    assert after.can_be_cut
    assert [one.cuts for one in after.layouts] == [one.cuts for one in plan.layouts]
    yard.cut(bench)
    assert yard.money_there(bench) == 4001
    assert yard.balanced(bench)


def test_half_a_board_left_over_lies_on_the_rack_with_its_money(
    workspace: Workspace,
) -> None:
    yard.shop(workspace, resaw_height="8")
    yard.start(workspace, "side,1,3/8,5,30,walnut")
    put(workspace, thick(length="32", thickness="1 1/4"), cost=3000)
    yard.make(workspace)
    yard.cut(workspace)
    whole = [
        one
        for one in yard.lying(workspace, PieceKind.OFFCUT)
        if one.piece.size.length == inches("32")
    ]
    assert [one.piece.size.width for one in whole] == [inches("6")]
    assert whole[0].cost == 1500
    assert yard.money_there(workspace) == 3000


def test_planing_is_told_with_its_wood_and_money(workspace: Workspace) -> None:
    yard.start(workspace, "side,2,3/4,5,30,walnut")
    put(workspace, thick(length="64", thickness="1"), cost=2000)
    yard.make(workspace)
    found = told(workspace)
    (line,) = found.planed
    # 1 in down to 13/16 in, two blanks of 5 1/8 x 30 1/2 in.
    depth = inches("3/16").nm
    assert line.chips == 2 * depth * inches("5 1/8").nm * inches("30 1/2").nm
    share = 3 / 16 * 2 * 5.125 * 30.5 / (64 * 6)
    assert line.money == round(2000 * share)
    assert (found.chips, found.money) == (line.chips, line.money)
    assert (line.before, line.after) == (inches("1"), inches("13/16"))


def test_the_printed_plan_says_what_is_resawn_before_the_cuts(bench: Workspace) -> None:
    put(bench, thick(thickness="1 1/4"))
    yard.make(bench)
    sheet = yard.sheet(bench)
    first, *cuts = sheet.sawing
    assert cuts
    (board,) = sheet.wood
    assert board.label == "W1"
    assert "band-saw.tall-work-tips" in {one.key for one in sheet.cautions}
    assert first.title == "Resaw first"
    ((count, named, before, into),) = first.rows
    assert (count, named) == ("1", "W1")
    assert before.startswith("1 1/4 in")
    assert into.startswith("2 boards, flat on both faces 17/32 in")


def test_half_a_board_that_is_not_there_is_refused_in_words(bench: Workspace) -> None:
    put(bench, thick(thickness="1 1/4"))
    yard.make(bench)
    with bench.write() as work:
        row = store.latest(work, yard.episode_id_of(work))
        assert row is not None
        plan = read_plan(row.job, row.answer)
        other = tuple(one for one in plan.layouts if one.stock.endswith("2/2"))
        assert other
        with pytest.raises(WorkshopError, match="not on the rack"):
            sawn_first.taken(work, replace(plan, layouts=other), nothing)


def nothing(movement: Movement) -> MovementRow:
    raise AssertionError(f"{movement.kind} was recorded")
