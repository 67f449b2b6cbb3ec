"""A promise that is kept links both ways."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Links of promises"


def find(story: Story) -> tuple[Finding, ...]:
    """Each kept promise whose other part cannot be reached."""
    return tuple(
        Finding(
            "out",
            f"“{told.text}” points to part {told.other.number}, which has no address "
            "yet.",
            f"Paste its address on the page of part {told.other.number}.",
        )
        for told in story.promises_linked
        if not told.other.url
    )
