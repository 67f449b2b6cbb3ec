"""A plan that lacks wood cannot be cut whole."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Blanks without wood"


def find(story: Story) -> tuple[Finding, ...]:
    """How many blanks the plan found no wood for."""
    if not story.unplaced:
        return ()
    has = "1 blank has" if story.unplaced == 1 else f"{story.unplaced} blanks have"
    what = f"{has} no place in the plan."
    return (Finding("wood", what, "List more boards and plan again."),)
