"""Photos have words for those who cannot see them."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(photos=2), []),
        (
            Story(photos=2, photos_wordless=1),
            ["No words for who cannot see them: 1 of 2 photos."],
        ),
    ],
)
def test_photos_without_words_are_counted(story: Story, said: list[str]) -> None:
    assert told("photo_words", story) == said
