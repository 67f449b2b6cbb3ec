"""What a publish pack still lacks, in words, with the place to mend it."""

from __future__ import annotations

from collections.abc import Iterator

from app.core import chapters
from app.publish.description import (
    BEFORE_THE_FOLD,
    DESCRIPTION_MOST,
    TITLE_MOST,
)
from app.publish.sheet import CheckLine, Sheet


def missing(sheet: Sheet) -> tuple[CheckLine, ...]:
    """Every lack, in the order of the page.

    ``where`` is a section of the page, its head, or the series.
    """
    return (
        *_build(sheet),
        *_film(sheet),
        *_words(sheet),
        *_disclosure(sheet),
        *_promises(sheet),
    )


def _build(sheet: Sheet) -> Iterator[CheckLine]:
    if not sheet.build:
        yield CheckLine("design", "No design yet, so no sizes and no parts.")
    if not sheet.wood:
        yield CheckLine("wood", "No wood taken from the rack and none planned yet.")
    elif any(line.planned for line in sheet.wood):
        yield CheckLine("wood", "The wood is planned, not cut yet.")
    if not sheet.steps:
        yield CheckLine("bench", "No steps yet, so the cautions may be too few.")
    if sheet.cover is None:
        yield CheckLine("bench", "No cover photo chosen yet.")
    if wordless := [photo for photo in sheet.photos if not photo.alt]:
        count = f"{len(wordless)} of {len(sheet.photos)} photos"
        yield CheckLine("bench", f"No words for who cannot see them: {count}.")


def _film(sheet: Sheet) -> Iterator[CheckLine]:
    if not sheet.video_url:
        yield CheckLine("head", "No address of the video yet.")
    if not sheet.chapters:
        yield CheckLine("film", "No chapters yet.")
    starts = [chapter.start_ms for chapter in sheet.chapters]
    for fault in chapters.faults(starts, sheet.length_ms):
        yield CheckLine("film", fault)


def _words(sheet: Sheet) -> Iterator[CheckLine]:
    if not sheet.opening.strip():
        yield CheckLine("head", "No opening sentence written yet.")
    if (much := len(sheet.title)) > TITLE_MOST:
        yield CheckLine(
            "out", f"The title has {much} characters; {TITLE_MOST} are usual."
        )
    if (much := len(sheet.description)) > DESCRIPTION_MOST:
        longest = max(sheet.blocks, key=lambda block: len(block.text))
        yield CheckLine(
            "out",
            f"The description has {much} characters; {DESCRIPTION_MOST} are usual. "
            f"Its longest block is “{longest.title}”, with {len(longest.text)}.",
        )
    if any(mark in sheet.title + sheet.description for mark in "<>"):
        yield CheckLine("out", "Angle brackets: some hosts refuse a text with them.")
    for link in sheet.neighbours:
        if not link.url and not link.due:
            yield CheckLine("out", f"Part {link.number} has no address and no date.")


def _disclosure(sheet: Sheet) -> Iterator[CheckLine]:
    told = "\n".join(b.text for b in sheet.blocks if b.key == "disclosure")
    if not told.strip():
        yield CheckLine("series", "No disclosure yet: say what you were given.")
    for item in sheet.given:
        if item.name.casefold() not in told.casefold():
            yield CheckLine(
                "out", f"You were given {item.name}; the disclosure does not say so."
            )
        elif item.name.casefold() not in _before_the_fold(sheet):
            yield CheckLine("out", f"That you were given {item.name} comes late.")


def _before_the_fold(sheet: Sheet) -> str:
    return sheet.description[:BEFORE_THE_FOLD].casefold()


def _promises(sheet: Sheet) -> Iterator[CheckLine]:
    for line in sheet.open:
        due = f", due {line.other.due}" if line.other.due else ""
        yield CheckLine("out", f"Promised, not kept yet{due}: “{line.text}”.")
    for line in (*sheet.keeps, *sheet.kept):
        if not line.other.url:
            yield CheckLine(
                "out",
                f"“{line.text}” points to part {line.other.number}, which has no "
                "address yet.",
            )
