"""Hosts take descriptions of a usual length."""

from __future__ import annotations

import pytest

from app.core.story import Passage, Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(description="d" * 5000), []),
        (
            Story(description="d" * 5001),
            ["The description has 5001 characters; 5000 are usual."],
        ),
        (
            Story(
                description="d" * 5001,
                passages=(Passage("Opening", "o"), Passage("Sizes", "s" * 9)),
            ),
            [
                (
                    "The description has 5001 characters; 5000 are usual. "
                    "Its longest block is “Sizes”, with 9."
                )
            ],
        ),
    ],
)
def test_a_description_too_long_is_told_with_its_longest_block(
    story: Story, said: list[str]
) -> None:
    assert told("description_length", story) == said
