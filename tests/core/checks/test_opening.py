"""A part opens with a sentence."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No opening sentence written yet."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), [LACK]),
        (Story(opening=" \n"), [LACK]),
        (Story(opening="Six sides."), []),
    ],
)
def test_a_part_without_an_opening_is_told(story: Story, said: list[str]) -> None:
    assert told("opening", story) == said
