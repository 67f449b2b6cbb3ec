"""Who cannot hear the film reads it."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Captions"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is any yet."""
    if story.captions:
        return ()
    what = "No captions of the final cut yet."
    return (Finding("film", what, "Add the captions."),)
