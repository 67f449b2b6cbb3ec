"""Other parts and the pack point to the video."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "The video's address"


def find(story: Story) -> tuple[Finding, ...]:
    """Whether there is one yet."""
    if story.video_url:
        return ()
    what = "No address of the video yet."
    return (Finding("head", what, "Paste the address."),)
