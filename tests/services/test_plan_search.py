"""Looking for a plan beside the pages: watched, stopped, left, refused."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator

import pytest

from app.core.cutting.effort import Standing, Watch
from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.cutting.solve import solve
from app.core.errors import StaleEdit, WorkshopError
from app.services import plan_search, plans, settings, tasks
from app.services.plan_job import Asked
from app.services.plan_search import SearchView
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.porch_rack import put, walnut
from tests.services.test_plans import DEALER, SLUG, porch, seen

__all__ = ["porch"]


class Patient:
    """A solver that goes on until it is told to end, as one of a hard job does."""

    def __init__(self) -> None:
        self.ended = threading.Event()
        self.go_on = threading.Event()
        self.better = threading.Event()
        self.watch: Watch | None = None
        self.plan: Plan | None = None

    def __call__(self, job: Job, left: Callable[[], float], watch: Watch) -> Plan:
        plan = solve(job)
        self.watch, self.plan = watch, plan
        self.tell(9000, 4000)
        try:
            while left() > 0 and not self.go_on.wait(0.002):
                pass
        finally:
            self.ended.set()
        return plan

    def tell(self, cost: int, bound: int) -> None:
        assert self.watch
        assert self.plan
        plan = self.plan
        self.watch(Standing(cost, bound, lambda: plan))
        self.better.set()


@pytest.fixture
def patient(monkeypatch: pytest.MonkeyPatch) -> Iterator[Patient]:
    """Every search goes on until it is stopped."""
    made = Patient()
    monkeypatch.setattr(plan_search, "solve", made)
    yield made
    made.go_on.set()


def start(workspace: Workspace, version: int = 0, patience: float = 0.0) -> None:
    asked = Asked(DEALER)
    plan_search.start(workspace, SLUG, 1, version, asked, NOON, patience)


def episode(workspace: Workspace) -> int:
    with workspace.read() as work:
        return plans.episodes.within(work, SLUG, 1).id


def look(workspace: Workspace) -> SearchView:
    found = plan_search.look(workspace, episode(workspace))
    assert found is not None
    return found


def begun(workspace: Workspace, patient: Patient, version: int = 0) -> SearchView:
    """A search under way that has found its first plan."""
    start(workspace, version)
    assert patient.better.wait(10)
    return look(workspace)


def test_a_plan_that_is_found_soon_is_kept_before_the_page_answers(
    porch: Workspace,
) -> None:
    start(porch, patience=30)
    assert seen(porch).plan
    assert look(porch).over
    assert not look(porch).unkept


def test_a_search_gives_the_same_plan_as_planning_at_once(porch: Workspace) -> None:
    start(porch, patience=30)
    watched = seen(porch).plan
    plans.make(porch, SLUG, 1, 1, DEALER, "either", NOON)
    at_once = seen(porch).plan
    assert watched
    assert at_once
    assert watched.layouts == at_once.layouts


def test_a_page_sees_the_best_plan_so_far_and_its_gap(
    porch: Workspace, patient: Patient
) -> None:
    standing = begun(porch, patient)
    assert (standing.over, standing.cost, standing.found) == (False, 9000, 1)
    assert "At most" in standing.gap
    patient.tell(6000, 4000)
    standing = look(porch)
    assert (standing.cost, standing.found) == (6000, 2)
    assert [round(bar.height) for bar in standing.bars] == [100, 40]


def test_stopping_keeps_the_best_plan_so_far_without_waiting(
    porch: Workspace, patient: Patient
) -> None:
    standing = begun(porch, patient)
    plan_search.keep_best(porch, episode(porch), standing.id, NOON)
    assert seen(porch).plan
    assert seen(porch).version == 1
    assert patient.ended.wait(10)
    tasks.wait(standing.id, 10)
    assert seen(porch).version == 1


def test_leaving_a_search_leaves_everything_as_it_was(
    porch: Workspace, patient: Patient
) -> None:
    plans.make(porch, SLUG, 1, 0, "", "either", NOON)
    before = seen(porch)
    standing = begun(porch, patient, version=1)
    plan_search.leave(porch, episode(porch), standing.id)
    assert patient.ended.wait(10)
    tasks.wait(standing.id, 10)
    assert seen(porch) == before
    assert look(porch).unkept


def test_a_rack_that_changes_meanwhile_refuses_the_plan_whole(
    porch: Workspace, patient: Patient
) -> None:
    standing = begun(porch, patient)
    put(porch, walnut("60", "8"))
    with pytest.raises(WorkshopError, match="nothing was saved"):
        plan_search.keep_best(porch, episode(porch), standing.id, NOON)
    assert seen(porch).plan is None
    assert "nothing was saved" in look(porch).told


def test_a_plan_made_elsewhere_meanwhile_is_not_written_over(
    porch: Workspace, patient: Patient
) -> None:
    standing = begun(porch, patient)
    plans.make(porch, SLUG, 1, 0, "", "either", NOON)
    first = seen(porch)
    with pytest.raises(StaleEdit):
        plan_search.keep_best(porch, episode(porch), standing.id, NOON)
    assert seen(porch) == first


def test_the_same_cuts_are_not_planned_twice_at_once(
    porch: Workspace, patient: Patient
) -> None:
    begun(porch, patient)
    with pytest.raises(WorkshopError, match="being planned already"):
        start(porch)


def test_a_search_of_an_earlier_start_of_the_program_is_not_known(
    porch: Workspace,
) -> None:
    for end in (
        lambda: plan_search.keep_best(porch, episode(porch), "gone", NOON),
        lambda: plan_search.leave(porch, episode(porch), "gone"),
    ):
        with pytest.raises(WorkshopError, match="started"):
            end()


def test_a_mistake_of_the_planner_is_told_and_nothing_saved(
    porch: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> Plan:
        raise ZeroDivisionError

    monkeypatch.setattr(plan_search, "solve", broken)
    with pytest.raises(WorkshopError, match="error number"):
        start(porch, patience=10)
    assert seen(porch).plan is None
    monkeypatch.undo()
    start(porch, patience=30)
    assert seen(porch).plan


def test_the_shop_says_how_long_to_look(porch: Workspace, patient: Patient) -> None:
    typed = settings.typed(settings.load(porch)) | {"plan_seconds": "1"}
    settings.save(porch, typed, 0)
    start(porch, patience=30)
    assert patient.ended.is_set()
    assert seen(porch).plan


@pytest.mark.parametrize("typed", ["", "0", "121", "2.5", "ten"])
def test_a_time_limit_is_whole_seconds(porch: Workspace, typed: str) -> None:
    form = settings.typed(settings.load(porch)) | {"plan_seconds": typed}
    with pytest.raises(WorkshopError, match="whole seconds") as refused:
        settings.save(porch, form, 0)
    assert refused.value.input == "plan_seconds"
