"""Stories that the checks are tried on, and what one check says of a story."""

from __future__ import annotations

from app.core.checking import checks
from app.core.story import Other, Passage, Story, Told

FILM = "https://films.example/porch-2"


def whole() -> Story:
    """A part that lacks nothing."""
    return Story(
        title="Herb planter",
        opening="Six bevelled sides.",
        video_url=FILM,
        designed=True,
        wood=4,
        steps=12,
        steps_done=12,
        photos=2,
        cover=True,
        captions=True,
        chapter_starts_ms=(0, 95_000, 310_500),
        length_ms=754_000,
        passages=(Passage("Disclosure", "I was given hardwax oil."),),
        description="I was given hardwax oil.",
        disclosure="I was given hardwax oil.",
        given=("hardwax oil",),
        neighbours=(
            Other(1, "https://films.example/porch-1"),
            Other(3, "", "2026-04-12"),
        ),
        promises_linked=(Told("a tray", Other(1, "https://films.example/porch-1")),),
    )


def told(check: str, story: Story) -> list[str]:
    """What a check finds, its sentences alone."""
    return [finding.what for finding in checks()[check].find(story)]
