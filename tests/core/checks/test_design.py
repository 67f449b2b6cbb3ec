"""A part has a design."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No design yet, so no sizes and no parts."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), [LACK]),
        (Story(designed=True), []),
    ],
)
def test_a_part_without_a_design_is_told(story: Story, said: list[str]) -> None:
    assert told("design", story) == said
