"""Chapters as a WebVTT track.

Source: W3C WebVTT, 4.1 (file), 4.2.3 (chapters do not overlap), 6.3 (times).
"""

from app.publish.sheet import Sheet

TITLE = "Chapters (WebVTT)"
FILE = "chapters.vtt"
# Where the film's length is not known the last chapter still needs an end.
LAST_CHAPTER_MS = 10_000


def render(sheet: Sheet) -> bytes:
    """Each chapter lasts until the next one; the last to the end of the film."""
    starts = [chapter.start_ms for chapter in sheet.chapters]
    after = [*starts[1:], last_end(sheet)][: len(starts)]
    cues = (
        f"{_stamp(chapter.start_ms)} --> {_stamp(end)}\n{_escaped(chapter.title)}\n"
        for chapter, end in zip(sheet.chapters, after, strict=True)
    )
    return "\n".join(["WEBVTT\n", *cues]).encode()


def last_end(sheet: Sheet) -> int:
    """When the last chapter ends, milliseconds."""
    last = sheet.chapters[-1].start_ms if sheet.chapters else 0
    if sheet.length_ms is not None and sheet.length_ms > last:
        return sheet.length_ms
    return last + LAST_CHAPTER_MS


def _stamp(ms: int) -> str:
    seconds, rest = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{seconds:02d}.{rest:03d}"


def _escaped(title: str) -> str:
    text = " ".join(title.replace("\0", "").split())
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
