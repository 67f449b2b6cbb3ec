"""Players show chapters under conditions. Common practice, no source."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), ["No chapters yet."]),
        (Story(chapter_starts_ms=(0, 45_000, 70_000)), []),
        (
            Story(chapter_starts_ms=(0, 45_000)),
            ["There are 2 chapters; players show a list from 3 on."],
        ),
        (
            Story(chapter_starts_ms=(5_000, 45_000, 70_000)),
            ["The first chapter starts at 0:05; it has to start at 0:00."],
        ),
        (
            Story(chapter_starts_ms=(0, 8_000, 70_000)),
            ["The chapter at 0:00 is only 8 s long; each needs 10 s."],
        ),
        (
            Story(chapter_starts_ms=(0, 95_000, 310_500), length_ms=312_000),
            ["The last chapter, at 5:10, is only 1.5 s long; each needs 10 s."],
        ),
    ],
)
def test_a_list_of_chapters_that_a_host_would_refuse_is_told(
    story: Story, said: list[str]
) -> None:
    assert told("chapters", story) == said
