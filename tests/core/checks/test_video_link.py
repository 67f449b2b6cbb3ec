"""The video has an address."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No address of the video yet."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), [LACK]),
        (Story(video_url="https://films.example/1"), []),
    ],
)
def test_a_video_without_an_address_is_told(story: Story, said: list[str]) -> None:
    assert told("video_link", story) == said
