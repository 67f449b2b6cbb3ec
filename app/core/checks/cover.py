"""One photo stands for the part."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "A cover photo"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is one yet."""
    if story.cover:
        return ()
    what = "No cover photo chosen yet."
    return (Finding("bench", what, "Choose the cover."),)
