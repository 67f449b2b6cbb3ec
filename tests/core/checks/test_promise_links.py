"""A kept promise links both ways."""

from __future__ import annotations

import pytest

from app.core.story import Other, Story, Told
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (
            Story(
                promises_linked=(Told("a tray", Other(1, "https://films.example/1")),)
            ),
            [],
        ),
        (
            Story(promises_linked=(Told("a tray", Other(3)),)),
            ["“a tray” points to part 3, which has no address yet."],
        ),
    ],
)
def test_a_link_to_a_part_without_an_address_is_told(
    story: Story, said: list[str]
) -> None:
    assert told("promise_links", story) == said
