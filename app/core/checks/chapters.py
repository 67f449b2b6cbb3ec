"""Chapters that players would show."""

from app.core.chapters import faults
from app.core.finding import Finding
from app.core.story import Story

TITLE = "Chapters"


def find(story: Story) -> tuple[Finding, ...]:
    """None at all, or every fault of their list."""
    if not story.chapter_starts_ms:
        return (Finding("film", "No chapters yet.", "Name the chapters."),)
    return tuple(
        Finding("film", fault, "Change the chapters.")
        for fault in faults(story.chapter_starts_ms, story.length_ms)
    )
