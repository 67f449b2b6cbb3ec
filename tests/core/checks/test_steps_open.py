"""Steps are ticked off at the bench."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (Story(steps=4, steps_done=4), []),
        (Story(steps=4, steps_done=1), ["Not ticked off yet: 3 of 4 steps."]),
    ],
)
def test_steps_that_are_not_ticked_are_counted(story: Story, said: list[str]) -> None:
    assert told("steps_open", story) == said
