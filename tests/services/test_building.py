"""From a cut plan to parts: panels glued up, planed, built, taken back."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.errors import NotFound, WorkshopError
from app.core.length import inches
from app.services import building, plans, rack, rack_work
from app.services.building import BuildingView
from app.store import balance, schema
from app.store import rack as on_rack
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.ring import CLOCK, cut_strips, ring

ROWS = ("walnut", "maple", "walnut")


@pytest.fixture
def episode_id(workspace: Workspace) -> int:
    """Part 1 with a designed six-sided ring and the boards for it."""
    return ring(workspace, *ROWS, width="6", price="30")


@pytest.fixture
def cut(workspace: Workspace, episode_id: int) -> int:
    """The same with its strips cut; gives the episode."""
    cut_strips(workspace, episode_id)
    return episode_id


def seen(workspace: Workspace, episode_id: int) -> BuildingView:
    view = building.show(workspace, episode_id)
    assert view is not None
    return view


def test_before_the_cut_the_margin_says_what_is_missing(
    workspace: Workspace, episode_id: int
) -> None:
    view = seen(workspace, episode_id)
    (panel,) = view.panels
    assert (panel.made, panel.possible, panel.to_glue) == (0, 0, 1)
    assert panel.missing == (
        "A panel still takes 1 more of walnut, 1 more of maple, 1 more of walnut."
    )
    assert view.missing == ("1 × Wall panel is not glued up yet.",)


def test_glueing_up_before_the_strips_are_cut_changes_nothing(
    workspace: Workspace, episode_id: int
) -> None:
    with pytest.raises(WorkshopError, match="1 walnut strips for Wall panel are need"):
        building.glue_up(workspace, "porch", 1, "wall_panel", {}, CLOCK)
    assert seen(workspace, episode_id).records == ()


def test_strips_become_the_panel_in_the_designs_order(
    workspace: Workspace, cut: int
) -> None:
    building.glue_up(workspace, "porch", 1, "wall_panel", {}, CLOCK)
    (panel,) = seen(workspace, cut).panels
    (pile,) = panel.on_hand
    assert (panel.made, panel.to_glue) == (1, 0)
    assert [strip.species for strip in pile.piece.strips] == [
        "walnut",
        "maple",
        "walnut",
    ]
    assert pile.piece.size == panel.size
    assert pile.episode_number == 1


def test_a_measured_panel_is_what_it_measures(workspace: Workspace, cut: int) -> None:
    building.glue_up(workspace, "porch", 1, "wall_panel", {"width": "6 1/16"}, CLOCK)
    (pile,) = seen(workspace, cut).panels[0].on_hand
    assert pile.piece.size.width == inches("6 1/16")
    assert sum(strip.width.nm for strip in pile.piece.strips) == inches("6 1/16").nm


def test_a_finished_build_balances_and_leaves_nothing_waiting(
    workspace: Workspace, cut: int
) -> None:
    building.glue_up(workspace, "porch", 1, "wall_panel", {}, CLOCK)
    label = seen(workspace, cut).panels[0].on_hand[0].label
    building.plane(workspace, "porch", 1, label, {"thickness": "3/4"}, CLOCK)
    assert seen(workspace, cut).missing == ()
    building.finish(workspace, "porch", 1, {}, CLOCK)
    view = seen(workspace, cut)
    assert view.built
    assert view.wood.exact
    wall = view.parts[0]
    assert (wall.quantity, view.wood.parts) == (6, 6 * wall.volume)
    with workspace.read() as work:
        assert balance.verify(work) is None
        assert balance.of_workspace(work).exact
        assert [p for p in on_rack.on_hand(work) if p.part_key] == []
    with pytest.raises(WorkshopError, match="built already"):
        building.finish(workspace, "porch", 1, {}, CLOCK)


def test_the_kerf_of_a_build_is_worked_out_by_hand(
    workspace: Workspace, cut: int
) -> None:
    """Six walls out of one panel: five cuts between them.

    5 x 1/8 in kerf x 6 in wide x 13/16 in thick (3/4 and the 1/16 left to
    plane) = 3.046875 in3. The panel is 6 x 4 + 5 x 1/8 + 1/2 = 25 1/8 in long;
    six blanks of 4 in and five kerfs take 24 5/8 in, and 1/2 x 6 x 13/16 =
    2.4375 in3 falls off its end.
    """
    before = seen(workspace, cut).wood
    building.glue_up(workspace, "porch", 1, "wall_panel", {}, CLOCK)
    building.finish(workspace, "porch", 1, {}, CLOCK)
    after = seen(workspace, cut).wood
    in3 = inches("1").nm ** 3
    assert (after.kerf - before.kerf) * 1_000_000 == 3_046_875 * in3
    assert (after.scrap - before.scrap) * 10_000 == 24_375 * in3


def test_building_before_everything_is_there_names_what_is_missing(
    workspace: Workspace, cut: int
) -> None:
    with pytest.raises(WorkshopError, match="1 × Wall panel is not glued up yet"):
        building.finish(workspace, "porch", 1, {}, CLOCK)


def test_records_are_taken_back_in_turn_and_the_rack_is_as_before(
    workspace: Workspace, cut: int
) -> None:
    before = rack.show(workspace).lots
    building.glue_up(workspace, "porch", 1, "wall_panel", {}, CLOCK)
    building.finish(workspace, "porch", 1, {}, CLOCK)
    glued, built = seen(workspace, cut).records[-2:]
    with pytest.raises(WorkshopError, match=rf"Record {built.id} \(built"):
        building.undo(workspace, "porch", 1, glued.id, "", CLOCK)
    building.undo(workspace, "porch", 1, built.id, "too soon", CLOCK)
    building.undo(workspace, "porch", 1, glued.id, "", CLOCK)
    assert rack.show(workspace).lots == before
    assert seen(workspace, cut).panels[0].possible == 1


def test_a_cut_taken_back_can_be_planned_and_cut_again(
    workspace: Workspace, cut: int
) -> None:
    (record,) = seen(workspace, cut).records
    building.undo(workspace, "porch", 1, record.id, "wrong board", CLOCK)
    view = plans.show(workspace, cut)
    assert view.plan is not None
    assert view.plan.cut_on is None
    plans.mark_cut(workspace, "porch", 1, view.version, "2026-03-02", NOON)
    assert seen(workspace, cut).panels[0].possible == 1


def test_another_parts_record_is_not_taken_back_here(
    workspace: Workspace, cut: int
) -> None:
    with pytest.raises(NotFound):
        building.undo(workspace, "porch", 1, 1, "", CLOCK)


def test_wood_left_over_names_its_part_when_the_next_one_uses_it(
    workspace: Workspace, cut: int
) -> None:
    with workspace.write() as work:
        second = schema.Episode(number=2, slug="tray", title="Tray", series_id=1)
        work.add(second)
        work.flush()
        offcut = next(p for p in on_rack.on_hand(work) if p.piece.kind == "offcut")
        assert (offcut.episode_number, offcut.series_title) == (1, "Porch pieces")
        size = offcut.piece.size
        thinner = replace(size, thickness=size.thickness - inches("1/16"))
        movement = rack_work.shopwork.surfaced(offcut.taking(1), thinner)
        rack_work.record(work, movement, "", CLOCK, episode_id=second.id)
        (used,) = on_rack.wood_used(work, second.id)
    assert (used.label, used.origin_number) == (offcut.label, 1)
