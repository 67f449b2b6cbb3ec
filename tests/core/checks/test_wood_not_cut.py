"""Planned wood is not cut wood."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "The wood is planned, not cut yet."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (Story(wood=3), []),
        (Story(wood=3, wood_planned=1), [LACK]),
    ],
)
def test_wood_that_is_only_planned_is_told(story: Story, said: list[str]) -> None:
    assert told("wood_not_cut", story) == said
