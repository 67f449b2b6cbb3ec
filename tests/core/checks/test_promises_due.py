"""A promise stays open until it is kept."""

from __future__ import annotations

import pytest

from app.core.story import Other, Story, Told
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (
            Story(promises_open=(Told("a lid", Other(2)),)),
            ["Promised, not kept yet: “a lid”."],
        ),
        (
            Story(promises_open=(Told("a lid", Other(2, "", "2026-05-01")),)),
            ["Promised, not kept yet, due 2026-05-01: “a lid”."],
        ),
    ],
)
def test_a_promise_that_no_part_keeps_is_told_with_its_date(
    story: Story, said: list[str]
) -> None:
    assert told("promises_due", story) == said
