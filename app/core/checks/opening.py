"""The first sentence is what most people read."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "An opening sentence"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is one yet."""
    if story.opening.strip():
        return ()
    what = "No opening sentence written yet."
    return (Finding("head", what, "Write the opening."),)
