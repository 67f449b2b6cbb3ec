"""A part says which wood it is made of."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Wood"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is any yet."""
    if story.wood:
        return ()
    what = "No wood taken from the rack and none planned yet."
    return (Finding("wood", what, "Plan the cuts."),)
