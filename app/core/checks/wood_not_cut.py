"""Wood that is only planned may still turn out another."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Wood that is planned only"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether any of it is."""
    if not story.wood_planned:
        return ()
    what = "The wood is planned, not cut yet."
    return (Finding("wood", what, "Mark the plan as cut."),)
