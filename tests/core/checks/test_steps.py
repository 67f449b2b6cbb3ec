"""The cautions follow from the steps."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No steps yet, so the cautions may be too few."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), [LACK]),
        (Story(steps=1), []),
    ],
)
def test_a_part_without_steps_is_told(story: Story, said: list[str]) -> None:
    assert told("steps", story) == said
