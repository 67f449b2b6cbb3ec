"""A plan may lack wood."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (Story(unplaced=1), ["1 blank has no place in the plan."]),
        (Story(unplaced=7), ["7 blanks have no place in the plan."]),
    ],
)
def test_blanks_without_wood_are_counted(story: Story, said: list[str]) -> None:
    assert told("blanks_unplaced", story) == said
