"""Hosts take titles of a usual length."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(title="t" * 100), []),
        (Story(title="t" * 101), ["The title has 101 characters; 100 are usual."]),
    ],
)
def test_a_title_is_too_long_from_the_first_character_too_many_on(
    story: Story, said: list[str]
) -> None:
    assert told("title_length", story) == said
