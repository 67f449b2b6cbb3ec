"""Long work: how far it is, stopping it, what a refusal or a mistake leaves."""

from __future__ import annotations

import threading

import pytest

from app.core.errors import NotFound, WorkshopError
from app.services import tasks
from app.services.tasks import Progress, Stage


def test_work_is_done_and_says_where_to_go_on() -> None:
    def work(report: Progress) -> str:
        report(1, 2, "Reading photos")
        return "/series/trays"

    state = tasks.wait(tasks.start("Bring in", work), 5)
    assert (state.stage, state.result) == (Stage.DONE, "/series/trays")
    assert (state.done, state.of, state.words) == (1, 2, "Reading photos")


def test_a_page_sees_how_far_the_work_is() -> None:
    reported, go_on = threading.Event(), threading.Event()

    def work(report: Progress) -> str:
        report(3, 7, "Photo 3")
        reported.set()
        go_on.wait(5)
        return ""

    task = tasks.start("Bring in", work)
    assert reported.wait(5)
    state = tasks.state(task)
    assert (state.done, state.of, state.over) == (3, 7, False)
    go_on.set()
    assert tasks.wait(task, 5).over


def test_stopped_work_ends_at_its_next_report() -> None:
    started, stopped = threading.Event(), threading.Event()

    def work(report: Progress) -> str:
        started.set()
        stopped.wait(5)
        report(1, 1, "")
        raise AssertionError("the report should have stopped it")

    task = tasks.start("Plan the cuts", work)
    assert started.wait(5)
    tasks.stop(task)
    stopped.set()
    assert tasks.wait(task, 5).stage is Stage.STOPPED


def test_a_refusal_is_shown_in_its_own_words() -> None:
    def work(_report: Progress) -> str:
        raise WorkshopError("The zip holds a path that leads out of it.")

    state = tasks.wait(tasks.start("Bring in", work), 5)
    assert state.stage is Stage.REFUSED
    assert state.refusal == "The zip holds a path that leads out of it."


def test_a_mistake_shows_a_number_and_no_traceback(
    caplog: pytest.LogCaptureFixture,
) -> None:
    def work(_report: Progress) -> str:
        raise RuntimeError("secret place")

    state = tasks.wait(tasks.start("Bring in", work), 5)
    assert state.stage is Stage.BROKEN
    assert "secret place" not in state.refusal
    assert caplog.records[-1].getMessage().split()[1] in state.refusal


def test_work_from_before_the_last_start_is_not_known() -> None:
    with pytest.raises(NotFound, match="started anew"):
        tasks.state("long-gone")
    with pytest.raises(NotFound):
        tasks.stop("long-gone")
