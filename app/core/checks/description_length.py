"""A description that a host would cut off or refuse."""

from app.core.finding import Finding
from app.core.hosts import DESCRIPTION_MOST
from app.core.story import Story

TITLE = "Length of the description"


def find(story: Story) -> tuple[Finding, ...]:
    """How long it is, where that is too long, and its longest block."""
    if (much := len(story.description)) <= DESCRIPTION_MOST:
        return ()
    what = f"The description has {much} characters; {DESCRIPTION_MOST} are usual."
    if story.passages:
        longest = max(story.passages, key=lambda passage: len(passage.text))
        count = len(longest.text)
        what += f" Its longest block is “{longest.title}”, with {count}."
    return (Finding("out", what, "Write a block shorter in your own words."),)
