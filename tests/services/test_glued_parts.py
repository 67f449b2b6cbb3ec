"""Wide parts of strips: planned, cut, glued up and built, to the last nm³."""

from __future__ import annotations

import pytest

from app.core.errors import NotFound, WorkshopError
from app.core.length import inches
from app.core.movement import PieceKind
from app.services import before_sawing, building, glued_parts, plans, rack_work
from app.services.rack_work import Clock
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services import yard
from tests.services.porch_rack import put, walnut
from tests.services.yard import in_short

__all__ = ["in_short"]

CLOCK = Clock(NOON.date(), NOON)
# Its blank is 13/16 x 12 1/8 x 30 1/2 in.
TOP = "top,1,3/4,12,30,walnut"
KEY = "top.of-3"


@pytest.fixture
def bench(workspace: Workspace) -> Workspace:
    """Two boards on the rack, neither wide enough for the top; strips are allowed."""
    yard.shop(workspace, glue_narrowest="2")
    yard.start(workspace, TOP)
    put(workspace, walnut("70", "5"), walnut("40", "5"))
    return workspace


def glue(workspace: Workspace, key: str = KEY, **typed: str) -> None:
    glued_parts.glue_up(workspace, yard.SLUG, 1, key, typed, CLOCK)


def to_glue(workspace: Workspace) -> glued_parts.GluedPart:
    (found,) = glued_parts.show(workspace, yard.episode_id(workspace))
    return found


def test_the_plan_tells_the_strips_of_a_part_too_wide_for_any_board(
    bench: Workspace,
) -> None:
    yard.make(bench)
    plan = yard.plan(bench)
    assert not plan.unplaced
    told = before_sawing.show_for(bench, yard.episode_id(bench))
    (part,) = told.glued
    # 12 1/8 and two glue lines of 1/8 in three strips.
    assert (part.name, part.strips, part.width) == ("top", 3, inches("4 1/8"))
    assert part.joints == inches("1/4")
    assert told.tried
    assert [(one.name, one.quantity) for one in plan.blanks] == [("top strip", 3)]
    assert not plan.stale


def test_a_shop_that_glues_nothing_up_leaves_the_part_without_a_place(
    bench: Workspace,
) -> None:
    yard.shop(bench, glue_narrowest="0")
    yard.make(bench)
    assert "Wider than any walnut board" in yard.plan(bench).unplaced[0].why
    told = before_sawing.show_for(bench, yard.episode_id(bench))
    assert told.hints == (
        "top could be glued up from strips: say under Settings how narrow they may be.",
    )


@pytest.mark.parametrize(("word", "placed"), [("no", False), ("yes", True)])
def test_a_list_says_of_a_part_that_it_comes_from_one_board(
    workspace: Workspace, word: str, placed: bool
) -> None:
    yard.shop(workspace, glue_narrowest="2")
    yard.start(workspace, f"{TOP},{word}", f"{yard.HEAD},glue up")
    put(workspace, walnut("99", "5"))
    yard.make(workspace)
    assert bool(yard.plan(workspace).unplaced) is not placed


def test_strips_become_the_part_and_the_part_is_built(bench: Workspace) -> None:
    yard.make(bench)
    yard.cut(bench)
    (strips,) = yard.lying(bench, PieceKind.STRIP)
    assert (strips.part_key, strips.quantity) == (KEY, 3)
    assert yard.seen(bench).to_cut == 0
    waiting = building.show(bench, yard.episode_id(bench))
    assert waiting is not None
    assert waiting.missing == ("1 × top is not glued up yet.",)
    found = to_glue(bench)
    assert (found.name, found.strips, found.possible, found.lacking) == ("top", 3, 1, 0)
    glue(bench)
    (panel,) = yard.lying(bench, PieceKind.PANEL)
    assert panel.part_key == "top"
    assert panel.piece.size.width == inches("12 1/8")
    widths = [one.width for one in panel.piece.strips]
    assert sum(one.nm for one in widths) == panel.piece.size.width.nm
    assert len(widths) == 3
    assert glued_parts.show(bench, yard.episode_id(bench)) == ()
    assert yard.seen(bench).to_cut == 0
    building.finish(bench, yard.SLUG, 1, {}, CLOCK)
    built = building.show(bench, yard.episode_id(bench))
    assert built is not None
    assert built.built
    assert yard.balanced(bench)


def test_a_strip_that_is_lost_is_wanted_again_alone(bench: Workspace) -> None:
    yard.make(bench)
    yard.cut(bench)
    (strips,) = yard.lying(bench, PieceKind.STRIP)
    gone = {"quantity": "1", "reason": "split"}
    rack_work.discard(bench, strips.label, gone, CLOCK)
    assert yard.seen(bench).to_cut == 1
    assert to_glue(bench).lacking == 1
    with pytest.raises(WorkshopError, match="3 strips of top are needed and 2"):
        glue(bench)
    put(bench, walnut("40", "5"))
    yard.make(bench)
    plan = yard.plan(bench)
    assert [(one.name, one.quantity) for one in plan.blanks] == [("top strip", 1)]
    assert not plan.stale
    yard.cut(bench)
    assert to_glue(bench).possible == 1
    glue(bench)
    assert yard.seen(bench).to_cut == 0


def test_strips_that_are_missing_and_those_of_other_parts_are_planned_together(
    workspace: Workspace,
) -> None:
    yard.shop(workspace, glue_narrowest="2")
    yard.start(workspace, TOP.replace("top,1", "top,2"))
    put(workspace, walnut("99", "5"), walnut("99", "5"))
    yard.make(workspace)
    yard.cut(workspace)
    (strips,) = yard.lying(workspace, PieceKind.STRIP)
    assert strips.quantity == 6
    gone = {"quantity": "4", "reason": "split"}
    rack_work.discard(workspace, strips.label, gone, CLOCK)
    assert yard.seen(workspace).to_cut == 2  # one strip, and a top
    put(workspace, walnut("99", "5"), walnut("40", "5"))
    yard.make(workspace)
    plan = yard.plan(workspace)
    assert [(one.name, one.quantity) for one in plan.blanks] == [("top strip", 4)]
    assert not plan.stale
    yard.cut(workspace)
    assert to_glue(workspace).possible == 2
    glue(workspace, quantity="2")
    assert yard.seen(workspace).to_cut == 0


def test_boards_marked_one_by_one_leave_the_other_strips_planned(
    bench: Workspace,
) -> None:
    yard.make(bench)
    version = yard.seen(bench).version
    plans.mark_some_cut(bench, yard.SLUG, 1, version, {0: 1}, yard.DAY, NOON)
    assert not yard.plan(bench).stale
    assert to_glue(bench).lacking == yard.seen(bench).to_cut > 0
    yard.cut(bench)
    assert to_glue(bench).possible == 1
    glue(bench)
    assert yard.seen(bench).to_cut == 0


def test_a_part_thrown_out_after_glueing_is_wanted_again(bench: Workspace) -> None:
    yard.make(bench)
    yard.cut(bench)
    glue(bench)
    (panel,) = yard.lying(bench, PieceKind.PANEL)
    rack_work.discard(bench, panel.label, {"quantity": "1", "reason": "bowed"}, CLOCK)
    assert yard.seen(bench).to_cut == 1


def test_a_measured_panel_is_recorded_as_measured(bench: Workspace) -> None:
    yard.make(bench)
    yard.cut(bench)
    with pytest.raises(WorkshopError, match="too narrow for a panel"):
        glue(bench, width="12 1/2")
    glue(bench, width="12 1/4", thickness="13/16")
    (panel,) = yard.lying(bench, PieceKind.PANEL)
    assert panel.piece.size.width == inches("12 1/4")
    assert yard.balanced(bench)


@pytest.mark.parametrize("key", ["top", "lid.of-3", "top.of-"])
def test_what_the_design_does_not_glue_up_is_not_found(
    bench: Workspace, key: str
) -> None:
    with pytest.raises(NotFound):
        glue(bench, key)


def test_without_strips_there_is_nothing_to_glue(bench: Workspace) -> None:
    with pytest.raises(WorkshopError, match="Cut them first"):
        glue(bench)


def test_strips_are_bought_where_that_is_cheaper_than_one_wide_board(
    workspace: Workspace,
) -> None:
    yard.shop(workspace, glue_narrowest="2")
    yard.start(workspace, TOP)
    yard.make(workspace, "walnut, 1, 13, 36, 90\nwalnut, 1, 5, 96, 25")
    assert yard.plan(workspace).buy_cost == 2500
    yard.make(workspace, "walnut, 1, 13, 36, 25\nwalnut, 1, 5, 96, 25")
    assert before_sawing.show_for(workspace, yard.episode_id(workspace)).glued == ()


def test_the_printed_plan_says_what_is_glued_up_after_the_cuts(
    bench: Workspace,
) -> None:
    yard.make(bench)
    *cuts, last = yard.sheet(bench).sawing
    assert cuts
    assert last.title == "Glue up from the strips"
    assert last.rows == (
        ("1", "top", "3 strips of 4 1/8 in (104.8 mm)", "1/4 in (6.4 mm) in all"),
    )
