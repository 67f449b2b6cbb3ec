"""The wood of a whole series: planned together, kept, and told to each part."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import select

from app.core.cutting.series import both_ways
from app.core.cutting.written import read_plan
from app.core.errors import StaleEdit, WorkshopError
from app.services import episodes, files, series, series_wood, tasks
from app.services.series_wood_view import SeriesPlanView
from app.store import rack
from app.store.schema import Episode, PartRow
from app.store.series_plan import SeriesPlan
from app.store.workspace import Workspace, open_workspace
from tests.conftest import NOON
from tests.core.cutting.checker import check
from tests.services.porch_rack import put, walnut
from tests.services.test_plans import SLUG, cut, make, porch, seen
from tests.services.yard import shop

__all__ = ["porch"]

WORK = 50_000
SELLS = "walnut, 1, 6, 96, 60.00"


def plan_all(workspace: Workspace, sells: str = SELLS, version: int = 0) -> None:
    series_wood.make(workspace, SLUG, version, sells, NOON, WORK)


def wood(workspace: Workspace) -> series_wood.SeriesWoodView:
    return series_wood.show(workspace, SLUG)


def planned(workspace: Workspace) -> SeriesPlanView:
    found = wood(workspace).plan
    assert found is not None
    return found


def kept(workspace: Workspace) -> tuple[str, int]:
    """What is stored: the dealer's lines and the version."""
    with workspace.read() as work:
        row = work.scalars(select(SeriesPlan)).one()
        check(read_plan(row.job, row.answer))
        check(read_plan(row.job, row.apart))
        return row.job["dealer"], row.version


def test_a_series_without_designs_has_no_wood_to_plan(workspace: Workspace) -> None:
    slug = series.create(workspace, "Empty", "")
    episodes.add(workspace, slug, "First", "", "")
    shown = series_wood.show(workspace, slug)
    assert shown.plan is None
    assert shown.missing == series_wood.MISSING
    with pytest.raises(WorkshopError, match="still to be cut"):
        series_wood.begin(workspace, slug, 0, "")


def test_the_plan_is_there_on_the_next_visit_with_what_was_typed(
    porch: Workspace,
) -> None:
    plan_all(porch)
    assert kept(porch) == (SELLS, 1)
    shown = wood(porch)
    assert (shown.dealer, shown.version, shown.parts) == (SELLS, 1, (1, 2))
    assert planned(porch).stale == ""


def test_the_second_part_cuts_up_what_the_first_one_was_told_to_keep(
    porch: Workspace,
) -> None:
    plan_all(porch)
    first, second = planned(porch).parts
    assert first.keep
    assert {one.other for one in first.keep} == {"part 2"}
    assert [one.name for one in first.keep] == [one.name for one in second.cuts_up]
    assert {one.other for one in second.cuts_up} == {"part 1"}


def test_what_is_bought_now_is_what_the_first_part_needs(porch: Workspace) -> None:
    plan_all(porch)
    plan = planned(porch)
    assert plan.now == plan.parts[0]
    assert sum(part.cost for part in plan.parts) == plan.cost
    assert plan.cost == plan.saving.together <= plan.saving.apart
    assert plan.proof.endswith(".")


def test_a_changed_rack_or_design_makes_the_plan_stale(porch: Workspace) -> None:
    plan_all(porch)
    put(porch, walnut("96", "8"))
    assert "the rack changed" in planned(porch).stale
    with porch.write() as work:
        part = work.scalars(select(PartRow)).first()
        assert part is not None
        part.quantity += 1
    assert "the design and the rack changed" in planned(porch).stale


def test_a_part_that_is_cut_leaves_the_rest_of_the_series_to_plan(
    porch: Workspace,
) -> None:
    put(porch, walnut("96", "8"))
    plan_all(porch)
    make(porch)
    cut(porch)
    assert planned(porch).stale
    assert wood(porch).parts == (2,)
    plan_all(porch, version=1)
    assert [part.name for part in planned(porch).parts] == ["part 2"]


def test_two_windows_cannot_plan_over_each_other(porch: Workspace) -> None:
    plan_all(porch)
    with pytest.raises(StaleEdit) as refused:
        plan_all(porch, sells="", version=0)
    assert refused.value.stored["dealer"] == SELLS
    assert kept(porch) == (SELLS, 1)


def test_a_line_no_dealer_writes_is_refused_by_its_number(porch: Workspace) -> None:
    with pytest.raises(WorkshopError, match="Line 1") as refused:
        plan_all(porch, sells="walnut")
    assert refused.value.input == "dealer"
    assert wood(porch).plan is None


def test_a_rack_that_changed_meanwhile_keeps_the_plan_out(porch: Workspace) -> None:
    begun = series_wood.begin(porch, SLUG, 0, SELLS)
    found = both_ways(begun.job, work=WORK)
    put(porch, walnut("96", "8"))
    with pytest.raises(WorkshopError, match="changed while"):
        series_wood.keep(porch, begun, found, NOON)
    assert wood(porch).plan is None


def test_a_search_beside_the_pages_keeps_its_plan(porch: Workspace) -> None:
    shop(porch, plan_seconds="1")
    begun = series_wood.begin(porch, SLUG, 0, SELLS)
    task = series_wood.search(porch, begun, NOON, lambda: "/there")
    state = tasks.wait(task, 60)
    assert (state.stage, state.result) == (tasks.Stage.DONE, "/there")
    assert kept(porch) == (SELLS, 1)


def test_whoever_stops_the_search_keeps_the_best_plan_so_far(porch: Workspace) -> None:
    def stopped(done: int, of: int, words: str = "") -> None:
        raise tasks.Stopped

    watched = series_wood._Watched(stopped, 20, "USD")
    assert watched.left() == 0.0
    begun = series_wood.begin(porch, SLUG, 0, SELLS)
    found = both_ways(begun.job, left=watched.left, watch=watched.see)
    series_wood.keep(porch, begun, found, NOON)
    assert planned(porch).parts
    assert watched.words.startswith("Best plan so far: ")


def test_a_piece_meant_for_another_part_is_told_to_the_one_that_plans(
    porch: Workspace,
) -> None:
    labels = put_two(porch)
    plan_all(porch, sells="")
    first, second = sentences(porch, 1), sentences(porch, 2)
    assert sorted([*first, *second]) == sorted(labels)
    for told, other in ((first, "part 2"), (second, "part 1")):
        for label, sentence in told.items():
            assert sentence == f"The series’ plan keeps {label} for {other}."


def put_two(workspace: Workspace) -> list[str]:
    """Two boards, each enough for one part; gives their labels."""
    put(workspace, walnut("36", "8"), walnut("37", "8"))
    with workspace.read() as work:
        return [pile.label for pile in rack.on_hand(work)]


def sentences(workspace: Workspace, number: int) -> dict[str, str]:
    with workspace.read() as work:
        episode = work.scalars(select(Episode).where(Episode.number == number)).one()
        return dict(series_wood.kept_for_others(work, episode))


def test_the_plan_of_a_part_says_which_of_its_boards_others_should_have(
    porch: Workspace,
) -> None:
    labels = put_two(porch)
    plan_all(porch, sells="")
    make(porch, 1)
    make(porch, 2)
    told = [plans_of(porch, number) for number in (1, 2)]
    # Each part alone takes the same board, which only one of them should have.
    assert sorted(map(len, told)) == [0, 1]
    ((sentence,),) = [one for one in told if one]
    assert any(f"keeps {label} for part" in sentence for label in labels)


def plans_of(workspace: Workspace, number: int) -> tuple[str, ...]:
    return seen(workspace, number).for_others


def test_the_plan_goes_out_with_the_series_and_comes_in_again(
    porch: Workspace, tmp_path: Path
) -> None:
    put(porch, walnut("96", "8"))
    plan_all(porch)
    first, again = tmp_path / "first.zip", tmp_path / "again.zip"
    files.export_series(porch, SLUG, first)
    other = open_workspace(tmp_path / "other")
    files.import_series(other, first, lambda *_: None)
    assert kept(other) == (SELLS, 1)
    assert planned(other).parts == planned(porch).parts
    files.export_series(other, SLUG, again)
    assert first.read_bytes() == again.read_bytes()
    other.close()
