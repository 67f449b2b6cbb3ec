"""A part without a design has no sizes to tell."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "A design"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is one yet."""
    if story.designed:
        return ()
    what = "No design yet, so no sizes and no parts."
    return (Finding("design", what, "Choose a form and its sizes."),)
