"""A part is made of wood."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No wood taken from the rack and none planned yet."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), [LACK]),
        (Story(wood=1), []),
        (Story(wood=1, wood_planned=1), []),
    ],
)
def test_a_part_without_wood_is_told(story: Story, said: list[str]) -> None:
    assert told("wood", story) == said
