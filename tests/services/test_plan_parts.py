"""Wishes that stay with a plan, and boards of it that are cut before the rest."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from app.core.cutting.job import Pin
from app.core.cutting.plan import Plan
from app.core.cutting.written import read_plan
from app.core.errors import WorkshopError
from app.core.length import inches
from app.services import (
    gathering,
    plan_search,
    plan_wishes,
    plans,
    rack_work,
    settings,
)
from app.services.plan_job import Asked, job_now
from app.services.plan_wishes import Wishes
from app.store import plans as store
from app.store import rack
from app.store.schema import PlanRow
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.porch_rack import put, walnut
from tests.services.test_plan_search import episode
from tests.services.test_plans import DAY, SLUG, lying, make, porch, seen

__all__ = ["porch"]


def labels(workspace: Workspace) -> list[str]:
    with workspace.read() as work:
        return [pile.label for pile in rack.on_hand(work)]


def wish(workspace: Workspace, wishes: Wishes, version: int = 0) -> None:
    asked = Asked("", wishes)
    plan_search.start(workspace, SLUG, 1, version, asked, NOON, 30)


def used(workspace: Workspace) -> dict[str, int]:
    plan = seen(workspace).plan
    assert plan
    return {one.stock: one.copies for one in plan.layouts}


def two_boards(workspace: Workspace) -> None:
    """The strips fit on the long board alone, the base on the short one too."""
    put(workspace, walnut("90", "3"), walnut("12", "8"))


def test_planning_again_keeps_the_wishes(porch: Workspace) -> None:
    two_boards(porch)
    long, short = labels(porch)
    wishes = Wishes((Pin("base", short, 1),), stages=2, first="rip")
    wish(porch, wishes)
    assert seen(porch).asked.wishes == wishes
    make(porch, version=1, first="rip")
    assert seen(porch).asked.wishes == wishes
    assert [line.words for line in seen(porch).wishes] == [
        f"1 × Base out of {short}",
        "2 rounds of cuts",
        "First cut on a board: rip",
    ]
    assert long in used(porch)


def test_a_board_left_out_of_a_plan_is_not_cut(porch: Workspace) -> None:
    put(porch, walnut("60", "8"), walnut("62", "8"))
    one, other = labels(porch)
    wish(porch, Wishes(without=(one,)))
    assert set(used(porch)) == {other}
    assert not seen(porch).plan.stale  # type: ignore[union-attr]
    wish(porch, seen(porch).asked.wishes.less(0), version=1)
    assert seen(porch).asked.wishes == Wishes()


def test_a_pin_to_a_board_that_has_gone_is_said_so(porch: Workspace) -> None:
    put(porch, walnut("60", "8"), walnut("62", "8"))
    board, _ = labels(porch)
    wish(porch, Wishes((Pin("base", board),)))
    assert seen(porch).wishes[0].gone == ""
    clock = rack_work.Clock(NOON.date(), NOON)
    given = {"quantity": "1", "note": "A neighbour asked for it."}
    rack_work.give_away(porch, board, given, clock)
    assert "not on the rack" in seen(porch).wishes[0].gone
    with porch.read() as work:
        job = job_now(work, episode(porch), seen(porch).asked)
    assert job.pins == ()


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"pin-0-blank": "base", "pin-0-stock": ""}, "pin-0-stock"),
        ({"pin-0-blank": "", "pin-0-stock": "W"}, "pin-0-blank"),
        (
            {"pin-0-blank": "base", "pin-0-stock": "W", "pin-0-quantity": "some"},
            "pin-0-quantity",
        ),
        ({"rounds": "4"}, "rounds"),
        ({"first": "diagonal"}, "first"),
    ],
)
def test_a_wish_that_cannot_be_read_names_its_field(
    typed: dict[str, str], field: str
) -> None:
    with pytest.raises(WorkshopError) as refused:
        plan_wishes.read(typed, ())
    assert refused.value.input == field


def test_wishes_are_read_as_typed() -> None:
    typed = {
        "pin-0-quantity": "2",
        "pin-0-blank": "base",
        "pin-0-stock": "W-1",
        "pin-0-how": "rather",
        "pin-1-blank": "",
        "pin-1-stock": "",
        "rounds": "free",
        "first": "rip",
    }
    assert plan_wishes.read(typed, ("W-2", "W-2")) == Wishes(
        (Pin("base", "W-1", 2, firm=False),), ("W-2",), None, "rip"
    )


def test_the_saws_limits_and_the_worth_of_offcuts_reach_the_planner(
    porch: Workspace,
) -> None:
    typed = settings.typed(settings.load(porch)) | {
        "widest_crosscut": "14",
        "longest_rip": "0",
        "shortest_sawn": "10",
        "offcut_full_length": "36",
    }
    settings.save(porch, typed, 0)
    with porch.read() as work:
        job = job_now(work, episode(porch), Asked())
    assert job.machine.longest_crosscut == inches("14")
    assert job.machine.longest_rip is None
    assert job.machine.shortest_piece == inches("10")
    assert job.offcut_value.full_length == inches("36")


def apart(workspace: Workspace) -> None:
    """A plan of two boards: the base comes from the short one."""
    two_boards(workspace)
    wish(workspace, Wishes())
    assert set(used(workspace)) == set(labels(workspace))


def at(workspace: Workspace, label: str) -> int:
    plan = seen(workspace).plan
    assert plan
    return [one.stock for one in plan.layouts].index(label)


def test_one_board_cut_leaves_the_rest_planned(porch: Workspace) -> None:
    apart(porch)
    long, short = labels(porch)
    plans.mark_some_cut(porch, SLUG, 1, 1, {at(porch, short): 1}, DAY, NOON)
    assert ("blank", "base", 1, 1) in lying(porch)
    rest = seen(porch)
    assert rest.plan
    assert not rest.plan.stale
    assert [one.stock for one in rest.plan.layouts] == [long]
    assert rest.to_cut == 3
    plans.mark_cut(porch, SLUG, 1, rest.version, DAY, NOON)
    assert ("strip", "wall.strip-1", 3, 1) in lying(porch)
    with porch.read() as work:
        rows = work.scalars(select(PlanRow).order_by(PlanRow.id)).all()
        assert [bool(row.cut_on) for row in rows] == [True, True]


def test_planning_again_touches_only_what_is_not_cut(porch: Workspace) -> None:
    apart(porch)
    _, short = labels(porch)
    plans.mark_some_cut(porch, SLUG, 1, 1, {at(porch, short): 1}, DAY, NOON)
    make(porch, version=seen(porch).version)
    plan = seen(porch).plan
    assert plan
    assert [line.name for line in plan.blanks] == ["Wall strip"]
    assert not plan.cut_on


def test_a_window_from_before_the_split_cannot_mark_the_rest(porch: Workspace) -> None:
    apart(porch)
    _, short = labels(porch)
    plans.mark_some_cut(porch, SLUG, 1, 1, {at(porch, short): 1}, DAY, NOON)
    before = lying(porch)
    with pytest.raises(WorkshopError):
        plans.mark_cut(porch, SLUG, 1, 1, DAY, NOON)
    assert lying(porch) == before


@pytest.mark.parametrize("chosen", [{}, {9: 1}, {0: 2}])
def test_what_is_not_in_the_plan_cannot_be_marked(
    porch: Workspace, chosen: dict[int, int]
) -> None:
    apart(porch)
    before = lying(porch)
    with pytest.raises(WorkshopError) as refused:
        plans.mark_some_cut(porch, SLUG, 1, 1, chosen, DAY, NOON)
    assert refused.value.input == "layout"
    assert lying(porch) == before
    assert seen(porch).version == 1


def test_marking_every_board_leaves_no_rest(porch: Workspace) -> None:
    apart(porch)
    plans.mark_some_cut(porch, SLUG, 1, 1, {0: 1, 1: 1}, DAY, NOON)
    view = seen(porch)
    assert view.to_cut == 0
    assert view.plan
    assert view.plan.cut_on


def test_a_sheet_shows_what_was_cut_before_the_rest_too(porch: Workspace) -> None:
    apart(porch)
    long, short = labels(porch)
    plans.mark_some_cut(porch, SLUG, 1, 1, {at(porch, short): 1}, DAY, NOON)
    with porch.read() as work:
        sheet = gathering.sheet(work, episode(porch), NOON.date())
    told = " ".join(picture.title for picture in sheet.diagrams)
    assert long in told
    assert short in told


def test_a_blank_comes_out_of_the_board_it_is_bound_to(porch: Workspace) -> None:
    put(porch, walnut("60", "8"), walnut("62", "8"))
    one, other = labels(porch)
    for version, board in enumerate((one, other)):
        wish(porch, Wishes((Pin("base", board),)), version)
        plan = kept(porch)
        where = {
            x.stock for x in plan.layouts if any(p.blank == "base" for p in x.pieces)
        }
        assert where == {board}
        assert not plan.unplaced


def test_a_board_is_preferred_where_that_costs_no_money(porch: Workspace) -> None:
    put(porch, walnut("60", "8"), walnut("62", "8"))
    for version, board in enumerate(labels(porch)):
        wish(porch, Wishes((Pin("base", board, firm=False),)), version)
        plan = kept(porch)
        where = {
            x.stock for x in plan.layouts if any(p.blank == "base" for p in x.pieces)
        }
        assert where == {board}


def kept(workspace: Workspace) -> Plan:
    """The latest plan as it is stored."""
    with workspace.read() as work:
        row = store.latest(work, episode(workspace))
        assert row is not None
        return read_plan(row.job, row.answer)
