"""One photo is the cover."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No cover photo chosen yet."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(photos=2), [LACK]),
        (Story(photos=2, cover=True), []),
    ],
)
def test_a_part_without_a_cover_is_told(story: Story, said: list[str]) -> None:
    assert told("cover", story) == said
