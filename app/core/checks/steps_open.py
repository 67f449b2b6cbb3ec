"""Steps that nobody ticked were not done, or not written down."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Steps not ticked off"


def find(story: Story) -> tuple[Finding, ...]:
    """How many steps of the build are open."""
    left = story.steps - story.steps_done
    if left <= 0:
        return ()
    what = f"Not ticked off yet: {left} of {story.steps} steps."
    return (Finding("bench", what, "Tick the steps that are done."),)
