"""Some hosts refuse angle brackets."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

LACK = "Angle brackets: some hosts refuse a text with them."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (Story(title="a < b"), [LACK]),
        (Story(description="a --> b"), [LACK]),
        (Story(title="Six & more"), []),
    ],
)
def test_an_angle_bracket_is_told_wherever_it_stands(
    story: Story, said: list[str]
) -> None:
    assert told("angle_brackets", story) == said
