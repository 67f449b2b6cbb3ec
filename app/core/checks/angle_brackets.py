"""Signs that some hosts refuse."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Angle brackets"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether the title or the description holds any."""
    if not any(mark in story.title + story.description for mark in "<>"):
        return ()
    what = "Angle brackets: some hosts refuse a text with them."
    return (Finding("out", what, "Write it without them."),)
