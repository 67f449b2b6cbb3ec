"""Photos: opened safely, turned upright, copied without place or serial number.

The original is never changed. What pages and publish packs show are copies made
anew from the pixels, so nothing that the camera wrote beside them survives.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from threading import BoundedSemaphore
from typing import Any

import app
from app.core.errors import WorkshopError

WORKER = "app.publish.picture_worker"
LARGEST = 40_000_000  # bytes of one photo
PATIENCE = 60  # seconds
# Two at a time: each may take two gigabytes while it unpacks.
_turns = BoundedSemaphore(2)

CONTENT_TYPES = {
    "JPEG": "image/jpeg",
    "PNG": "image/png",
    "WEBP": "image/webp",
    "HEIF": "image/heic",
}
SUFFIXES = {"JPEG": ".jpg", "PNG": ".png", "WEBP": ".webp", "HEIF": ".heic"}
WOULD_DO = "Choose a photo as JPEG, PNG, WebP or HEIC."
KNOWN_OTHERS = {
    b"GIF8": "a GIF",
    b"II*\0": "a TIFF",
    b"MM\0*": "a TIFF",
    b"%PDF": "a PDF",
    b"BM": "a BMP",
}
REFUSALS = {
    "damaged": "is cut short or damaged: not all of the picture is there. "
    "Copy it from the camera once more.",
    "pixels": "has more than 60 million pixels, too many to unpack safely. "
    "Save a smaller copy and send that.",
    "unpacks": "carries text that unpacks to more than any photo needs, so it was "
    "not opened. Save the picture anew and send that.",
    "memory": "takes more memory to unpack than a photo should. "
    "Save a smaller copy and send that.",
    "time": "takes too long to unpack. Save a smaller copy and send that.",
    "crash": "cannot be opened: the decoder gave up on it. "
    "Save the picture anew and send that.",
}


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo as it can be kept.

    ``width`` and ``height`` are pixels of the upright original. ``taken_at`` is
    the camera's clock, ``YYYY-MM-DDTHH:MM:SS`` or empty; ``taken_offset`` its
    minutes from UTC where the camera wrote them. ``web`` (at most 1600 pixels a
    side) and ``thumb`` (at most 400) are JPEG files with nothing but pixels.
    """

    format: str
    width: int
    height: int
    taken_at: str
    taken_offset: int | None
    web: bytes
    thumb: bytes


def read_picture(data: bytes, name: str = "The photo") -> Picture:
    """Open a photo and make its copies.

    ``name`` is what its sentence calls it. Raises WorkshopError, with
    ``input="photos"``, for whatever is not a whole, ordinary photo.
    """
    if not data:
        raise _refused(name, f"is empty: it has no bytes. {WOULD_DO}")
    if len(data) > LARGEST:
        raise _refused(
            name,
            f"is {len(data) // 1_000_000} MB; a photo may have "
            f"{LARGEST // 1_000_000} MB. Save a smaller copy and send that.",
        )
    head, body = _worked(data, name)
    reason = head.get("refused")
    if reason == "unknown":
        raise _refused(name, f"is {_looks_like(data)}. {WOULD_DO}")
    if reason is not None:
        raise _refused(name, REFUSALS[reason])
    web = head["web"]
    facts = ("format", "width", "height", "taken_at", "taken_offset")
    values: list[Any] = [*(head[key] for key in facts), body[:web], body[web:]]
    return Picture(*values)


def _worked(data: bytes, name: str) -> tuple[dict[str, Any], bytes]:
    folder = str(Path(app.__file__).resolve().parent.parent)
    try:
        with _turns:
            done = subprocess.run(  # noqa: S603  our own module, no text of a user's
                [sys.executable, "-m", WORKER],
                input=data,
                capture_output=True,
                timeout=PATIENCE,
                check=False,
                env=os.environ | {"PYTHONPATH": folder},
            )
    except subprocess.TimeoutExpired as error:
        raise _refused(name, REFUSALS["time"]) from error
    if done.returncode != 0:
        raise _refused(name, REFUSALS["crash"])
    head, _, body = done.stdout.partition(b"\n")
    return json.loads(head), body


def _looks_like(data: bytes) -> str:
    for start, what in KNOWN_OTHERS.items():
        if data.startswith(start):
            return f"{what}, which is not taken as a photo"
    if b"<svg" in data[:2000].lower():
        return "an SVG drawing, which is not taken as a photo"
    return "not a photo, or damaged from its first bytes on"


def _refused(name: str, why: str) -> WorkshopError:
    shown = name if name == "The photo" else f"“{name[:80]}”"
    return WorkshopError(f"{shown} {why}", input="photos")
