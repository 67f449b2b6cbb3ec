"""Caption text to cues: which kind of file it is, and in which letters.

WebVTT is read as the standard says. SubRip has no standard; it is read
tolerantly, and what was left out is told with its line.
"""

from __future__ import annotations

import codecs

from app.core import captions_subrip, captions_webvtt
from app.core.cue import Captions
from app.core.errors import WorkshopError

LARGEST = 5_000_000  # bytes; an hour of captions is about 100 000


def read_captions(data: bytes, name: str = "") -> Captions:
    """The cues of a caption file.

    ``name`` is the file's own name: without a WebVTT first line, ``.vtt`` means
    a broken WebVTT file rather than SubRip. Raises WorkshopError, with
    ``input="captions"``, where there is no usable list of cues.
    """
    _refuse_the_hopeless(data)
    if captions_webvtt.has_signature(_utf8(data)):
        return captions_webvtt.read(_utf8(data), damaged=_is_damaged(data))
    text = _decoded(data)
    if name.lower().endswith(".vtt") or captions_webvtt.has_signature(text):
        raise not_captions(
            "The file is not WebVTT: its first line must be “WEBVTT” and the text "
            "UTF-8. Export the captions again, or rename the file .srt if it is SubRip."
        )
    found = captions_subrip.read(text)
    if not found.cues:
        raise not_captions(
            "There is no caption in the file: no line such as "
            "“00:00:01,000 --> 00:00:03,500” with text below it. "
            "Choose a WebVTT (.vtt) or SubRip (.srt) file."
        )
    return found


def not_captions(sentence: str) -> WorkshopError:
    """The refusal of a file, beside the field it came in by."""
    return WorkshopError(sentence, input="captions")


def _refuse_the_hopeless(data: bytes) -> None:
    if not data.strip(b"\0\t\n\r "):
        raise not_captions("The file is empty. Choose the captions of the final cut.")
    if len(data) > LARGEST:
        raise not_captions(
            f"The file is {len(data) // 1_000_000} MB; captions are text of at most "
            f"{LARGEST // 1_000_000} MB. Is it the film itself?"
        )


def _decoded(data: bytes) -> str:
    """UTF-16 by its mark, then UTF-8, then Windows-1252."""
    for mark in (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE):
        if data.startswith(mark):
            return data.decode("utf-16", errors="replace")
    if data.startswith(codecs.BOM_UTF8) or not _is_damaged(data):
        return _utf8(data)
    # Five bytes are unassigned in Windows-1252.
    return data.decode("cp1252", errors="replace")


def _utf8(data: bytes) -> str:
    """UTF-8 without its mark; what is not UTF-8 becomes the replacement sign."""
    return data.removeprefix(codecs.BOM_UTF8).decode("utf-8", errors="replace")


def _is_damaged(data: bytes) -> bool:
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return True
    return False
