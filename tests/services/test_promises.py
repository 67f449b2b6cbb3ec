"""Promises to viewers: open until a part keeps them."""

from __future__ import annotations

from datetime import date

import pytest

from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.services import promises
from app.services.promises import PromiseTyped
from app.store.workspace import Workspace
from tests.services.shop import MONDAY, SLUG, porch


def test_open_promises_come_first_the_next_due_before_others(
    workspace: Workspace,
) -> None:
    first, second, third = porch(workspace)
    kept = promises.record(workspace, first, PromiseTyped("kept", due="2026-01-01"))
    promises.record(workspace, first, PromiseTyped("some day"))
    promises.record(workspace, second, PromiseTyped("in May", due="2026-05-01"))
    promises.record(workspace, first, PromiseTyped("last week", due="2026-02-23"))
    promises.keep(workspace, kept, third, "In the tray.", 1)
    told = promises.of_series(workspace, SLUG, MONDAY)
    assert [p.text for p in told.open] == ["last week", "in May", "some day"]
    assert [p.late for p in told.open] == [True, False, False]
    assert [(p.text, p.kept_how) for p in told.kept] == [("kept", "In the tray.")]


def test_each_part_sees_what_it_made_keeps_and_could_keep(workspace: Workspace) -> None:
    first, second, third = porch(workspace)
    made = promises.record(workspace, first, PromiseTyped("a planter", "1:02:03"))
    open_still = promises.of_episode(workspace, second, MONDAY).open_elsewhere
    assert [(p.id, p.video_ms, p.at) for p in open_still] == [
        (made, 3_723_000, "1:02:03")
    ]
    promises.keep(workspace, made, second, "", 1)
    assert [p.id for p in promises.of_episode(workspace, second, MONDAY).kept_here] == [
        made
    ]
    assert not promises.of_episode(workspace, third, MONDAY).open_elsewhere
    (told,) = promises.of_episode(workspace, first, MONDAY).made
    assert told.kept_in is not None
    assert told.kept_in.number == 2


def test_a_promise_is_changed_reopened_and_removed(workspace: Workspace) -> None:
    first, second, _ = porch(workspace)
    made = promises.record(workspace, first, PromiseTyped("a lid"))
    promises.keep(workspace, made, second, "With a lid.", 1)
    promises.reopen(workspace, made, 2)
    promises.edit(workspace, made, PromiseTyped("a lid of cherry", "", "2026-04-01"), 3)
    (told,) = promises.of_series(workspace, SLUG, MONDAY).open
    assert (told.text, told.due_on, told.kept_how) == (
        "a lid of cherry",
        date(2026, 4, 1),
        "",
    )
    promises.remove(workspace, made, told.version)
    assert promises.of_series(workspace, SLUG, MONDAY).open == ()


def test_the_part_that_makes_a_promise_cannot_keep_it(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    made = promises.record(workspace, first, PromiseTyped("a lid"))
    with pytest.raises(WorkshopError, match="Choose another") as caught:
        promises.keep(workspace, made, first, "", 1)
    assert caught.value.input == "in_episode"


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        (PromiseTyped("  "), "text"),
        (PromiseTyped("a lid", at="half way"), "at"),
        (PromiseTyped("a lid", at="1:75:00"), "at"),
        (PromiseTyped("a lid", at="2:60"), "at"),
        (PromiseTyped("a lid", at="25:00:00"), "at"),
        (PromiseTyped("a lid", due="next week"), "due"),
    ],
)
def test_what_cannot_be_read_names_its_field(
    workspace: Workspace, typed: PromiseTyped, field: str
) -> None:
    first, *_ = porch(workspace)
    with pytest.raises(WorkshopError) as caught:
        promises.record(workspace, first, typed)
    assert caught.value.input == field
    assert promises.of_series(workspace, SLUG, MONDAY).open == ()


def test_a_stale_edit_shows_what_is_saved(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    made = promises.record(workspace, first, PromiseTyped("a lid"))
    promises.edit(workspace, made, PromiseTyped("two lids"), 1)
    with pytest.raises(StaleEdit) as caught:
        promises.edit(workspace, made, PromiseTyped("no lid"), 1)
    assert caught.value.stored["text"] == "two lids"


def test_promises_of_a_series_that_is_not_there(workspace: Workspace) -> None:
    with pytest.raises(NotFound):
        promises.of_series(workspace, "no-such", MONDAY)
