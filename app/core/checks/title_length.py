"""A title that a host would cut off or refuse."""

from app.core.finding import Finding
from app.core.hosts import TITLE_MOST
from app.core.story import Story

TITLE = "Length of the title"


def find(story: Story) -> tuple[Finding, ...]:
    """How long it is, where that is too long."""
    if (much := len(story.title)) <= TITLE_MOST:
        return ()
    what = f"The title has {much} characters; {TITLE_MOST} are usual."
    return (Finding("head", what, "Shorten the title."),)
