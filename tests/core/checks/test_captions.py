"""The final cut can be read."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "No captions of the final cut yet."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), [LACK]),
        (Story(captions=True), []),
    ],
)
def test_a_film_without_captions_is_told(story: Story, said: list[str]) -> None:
    assert told("captions", story) == said
