"""What was given is said where it is seen. Source: 16 CFR 255.5, 255.0(f)."""

from __future__ import annotations

import pytest

from app.core.story import Story
from tests.core.checks.stories import told

GIFT = "I was given a band clamp."


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), ["No disclosure yet: say what you were given."]),
        (Story(disclosure="Nobody paid."), []),
        (
            Story(disclosure="Enjoy!", given=("Band clamp",)),
            ["You were given Band clamp; the disclosure does not say so."],
        ),
        (Story(disclosure=GIFT, description=GIFT, given=("Band clamp",)), []),
        (
            Story(
                disclosure=GIFT, description="o" * 5000 + GIFT, given=("Band clamp",)
            ),
            ["That you were given Band clamp comes late."],
        ),
    ],
)
def test_a_gift_is_disclosed_and_seen(story: Story, said: list[str]) -> None:
    assert told("disclosure", story) == said
