"""What was promised to viewers stays open until a part keeps it."""

from app.core.finding import Finding
from app.core.story import Story, Told

TITLE = "Promises"


def find(story: Story) -> tuple[Finding, ...]:
    """Each promise of this part that no part keeps yet."""
    return tuple(_open(told) for told in story.promises_open)


def _open(told: Told) -> Finding:
    due = f", due {told.other.due}" if told.other.due else ""
    what = f"Promised, not kept yet{due}: “{told.text}”."
    return Finding("out", what, "Keep it on the page of the part it comes in.")
