"""A cutting plan in the words of the sheet that is printed."""

from __future__ import annotations

from app.core.cutting.job import Job, Keep, Saw
from app.core.cutting.plan import Plan
from app.core.length import inches
from app.services.sheet_build import diagrams, sawing
from tests.core.cutting.test_by_period import series


def test_the_printed_order_of_cuts_stands_by_settings() -> None:
    tables = sawing(series())
    assert [one.title for one in tables] == [
        "1. Crosscut stop at 10 in, across the grain",
        "2. Crosscut stop at 24 in, across the grain",
        "3. Rip fence at 2 1/2 in, along the grain",
    ]
    assert tables[0].rows == (
        (
            "1",
            "C1, on each of 2",
            "left end, squared first",
            "base; offcut C1-a until box",
        ),
    )
    assert tables[1].rows[0][-1] == "scrap; the rest goes on"


def test_the_printed_diagrams_end_with_how_they_are_read() -> None:
    pictures = diagrams(series())
    assert [one.title for one in pictures] == [
        "C1, 2 times",
        "How to read the diagrams",
    ]
    nothing = Plan(Job(Saw(inches("1/8")), Keep(inches("8"), inches("1")), (), ()), ())
    assert diagrams(nothing) == ()
