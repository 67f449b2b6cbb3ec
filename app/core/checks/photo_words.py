"""A photo is described for those who cannot see it."""

from app.core.finding import Finding
from app.core.story import Story

TITLE = "Words for photos"


def find(story: Story) -> tuple[Finding, ...]:
    """How many photos have no words."""
    if not story.photos_wordless:
        return ()
    count = f"{story.photos_wordless} of {story.photos} photos"
    what = f"No words for who cannot see them: {count}."
    return (Finding("bench", what, "Say what the photos show."),)
