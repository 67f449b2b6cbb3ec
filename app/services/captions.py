"""A caption file by itself: what is in it, as one document."""

from __future__ import annotations

from app.core.captions import read_captions
from app.core.cue import Remark


def captions_document(
    data: bytes, cues: bool = False, *, name: str = ""
) -> dict[str, object]:
    """What a caption file holds.

    Gives ``cues`` (their number), ``skipped`` and ``warnings`` (line and why),
    and with ``cues`` true ``cue_list``: start and end in milliseconds, and the
    text as a viewer reads it. Nothing is read out of the words yet, so ``said``,
    ``promises`` and ``mentions`` are empty. Raises WorkshopError where the file
    holds no captions.
    """
    found = read_captions(data, name)
    document: dict[str, object] = {
        "cues": len(found.cues),
        "skipped": _remarks(found.skipped),
        "warnings": _remarks(found.warnings),
        "said": [],
        "promises": [],
        "mentions": [],
    }
    if cues:
        document["cue_list"] = [
            {"start_ms": cue.start_ms, "end_ms": cue.end_ms, "text": cue.text}
            for cue in found.cues
        ]
    return document


def _remarks(remarks: tuple[Remark, ...]) -> list[dict[str, object]]:
    return [{"line": remark.line, "why": remark.why} for remark in remarks]
