"""A viewer is led to every other part, or told when it comes."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "The other parts"


def find(story: Story) -> tuple[Finding, ...]:
    """Each part of the series that can be neither seen nor expected."""
    return tuple(
        Finding(
            "out",
            f"Part {other.number} has no address and no date.",
            f"Give part {other.number} a date on its page.",
        )
        for other in story.neighbours
        if not other.url and not other.due
    )
