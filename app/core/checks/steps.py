"""Without steps nobody knows which cautions belong to the build."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Steps"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is any yet."""
    if story.steps:
        return ()
    what = "No steps yet, so the cautions may be too few."
    return (Finding("bench", what, "Write the steps down."),)
