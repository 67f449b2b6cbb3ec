"""The other parts can be seen or expected."""

from __future__ import annotations

import pytest

from app.core.story import Other, Story
from tests.core.checks.stories import told


@pytest.mark.parametrize(
    ("story", "said"),
    [
        (Story(), []),
        (
            Story(
                neighbours=(
                    Other(1, "https://films.example/1"),
                    Other(3, "", "2026-04-12"),
                )
            ),
            [],
        ),
        (
            Story(neighbours=(Other(1), Other(3))),
            [
                "Part 1 has no address and no date.",
                "Part 3 has no address and no date.",
            ],
        ),
    ],
)
def test_a_part_with_neither_address_nor_date_is_told(
    story: Story, said: list[str]
) -> None:
    assert told("neighbours", story) == said
