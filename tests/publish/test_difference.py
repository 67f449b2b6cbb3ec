"""What changed since a frozen revision, to be read by a person."""

from __future__ import annotations

from dataclasses import replace

from app.publish.difference import difference
from app.publish.sheet import ChapterLine
from tests.publish.sheets import finished, planter


def test_equal_sheets_differ_in_nothing() -> None:
    assert difference(planter(), replace(planter(), revision=3, date="")) == ()


def test_a_changed_line_is_shown_with_what_stood_around_it() -> None:
    chapters = tuple(
        ChapterLine(c.start_ms, "Strips and panel" if i == 1 else c.title)
        for i, c in enumerate(planter().chapters)
    )
    (found,) = difference(planter(), finished(replace(planter(), chapters=chapters)))
    assert found.title == "Chapters"
    assert [(line.kind, line.text) for line in found.lines] == [
        ("same", "Chapters"),
        ("same", "0:00 What we build"),
        ("gone", "1:35 Strips & panel"),
        ("new", "1:35 Strips and panel"),
        ("same", "5:10 Bevels at 30° --> six walls"),
    ]


def test_a_line_that_begins_like_the_marks_of_a_difference_is_shown() -> None:
    before = replace(planter(), title="-- first")
    (found,) = difference(before, replace(planter(), title="++ second"))
    assert [(line.kind, line.text) for line in found.lines] == [
        ("gone", "-- first"),
        ("new", "++ second"),
    ]
