"""Material connections are disclosed where a viewer sees them: 16 CFR 255.5."""

from collections.abc import Iterator

from app.core.finding import Finding
from app.core.hosts import BEFORE_THE_FOLD
from app.core.story import Story

TITLE = "Disclosure"


def find(story: Story) -> tuple[Finding, ...]:
    """No notice at all, a gift that it leaves out, one that it names too late."""
    return tuple(_found(story))


def _found(story: Story) -> Iterator[Finding]:
    told = story.disclosure.casefold()
    seen = story.description[:BEFORE_THE_FOLD].casefold()
    if not told.strip():
        what = "No disclosure yet: say what you were given."
        yield Finding("series", what, "Write the disclosure.")
    for name in story.given:
        if name.casefold() not in told:
            what = f"You were given {name}; the disclosure does not say so."
            yield Finding("out", what, "Say so in the disclosure.")
        elif name.casefold() not in seen:
            what = f"That you were given {name} comes late."
            yield Finding("out", what, "Name it before the fold.")
