"""The episode as linked data: a HowTo with its video.

Terms of schema.org, written as JSON-LD 1.1; nothing is fetched for it.
"""

import json
from typing import Any

from app.publish import wording
from app.publish.exporters.chapters_vtt import last_end
from app.publish.sheet import Sheet, StepLine, UsedLine

TITLE = "Linked data"
FILE = "episode.jsonld"
# Safe inside a script element too: an end tag cannot be spelled.
_HARMLESS = {ord(mark): f"\\u{ord(mark):04x}" for mark in "<>&\u2028\u2029"}


def render(sheet: Sheet) -> bytes:
    """One JSON object, keys sorted."""
    text = json.dumps(how_to(sheet), ensure_ascii=False, indent=1, sort_keys=True)
    return f"{text.translate(_HARMLESS)}\n".encode()


def how_to(sheet: Sheet) -> dict[str, Any]:
    """The build: what it takes, its steps and its video."""
    facts: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": sheet.title,
        "description": sheet.description,
        "isPartOf": {
            "@type": "CreativeWorkSeries",
            "name": sheet.series,
        },
        "position": sheet.number,
        "supply": [
            *(
                {"@type": "HowToSupply", **_wood(sheet, i)}
                for i in range(len(sheet.wood))
            ),
            *({"@type": "HowToSupply", **_used(line)} for line in sheet.supplies),
        ],
        "tool": [{"@type": "HowToTool", **_used(line)} for line in sheet.tools],
        "step": [_step(i, step) for i, step in enumerate(sheet.steps, 1)],
        "video": _video(sheet),
    }
    minutes = sum(step.bench_minutes for step in sheet.steps)
    return _without_nothing(
        facts | {"performTime": minutes and _duration(minutes * 60)}
    )


def _wood(sheet: Sheet, at: int) -> dict[str, Any]:
    line = sheet.wood[at]
    said = wording.source(line, sheet.series)
    name = f"{line.species} {line.what}, {wording.both(line.box, sheet.unit)}"
    return {
        "name": name + (f", {said}" if said else "") + wording.left(line, sheet.unit),
        "requiredQuantity": line.quantity,
    }


def _used(line: UsedLine) -> dict[str, Any]:
    return _without_nothing(
        {"name": line.name, "requiredQuantity": line.quantity, "url": line.url}
    )


def _step(position: int, step: StepLine) -> dict[str, Any]:
    return {
        "@type": "HowToStep",
        "name": step.name,
        "text": step.detail or step.name,
        "position": position,
    }


def _video(sheet: Sheet) -> dict[str, Any]:
    length = None if sheet.length_ms is None else _duration(sheet.length_ms // 1000)
    return _without_nothing(
        {
            "@type": "VideoObject",
            "name": sheet.title,
            "description": sheet.description,
            "uploadDate": sheet.date,
            "url": sheet.video_url,
            "embedUrl": sheet.video_url,
            "thumbnailUrl": sheet.cover and sheet.cover.file,
            "duration": length,
            "hasPart": _clips(sheet),
        }
    )


def _clips(sheet: Sheet) -> list[dict[str, Any]]:
    starts = [chapter.start_ms for chapter in sheet.chapters]
    ends = [*starts[1:], last_end(sheet)][: len(starts)]
    return [
        _without_nothing(
            {
                "@type": "Clip",
                "name": chapter.title,
                "clipNumber": number,
                "startOffset": chapter.start_ms // 1000,
                "endOffset": end // 1000,
                "url": sheet.video_url and _at(sheet.video_url, chapter.start_ms),
            }
        )
        for number, (chapter, end) in enumerate(
            zip(sheet.chapters, ends, strict=True), 1
        )
    ]


def _at(url: str, ms: int) -> str:
    # W3C Media Fragments URI 1.0, 4.2.1: a time in seconds after the hash.
    return f"{url.partition('#')[0]}#t={ms // 1000}"


def _duration(seconds: int) -> str:
    """ISO 8601: ``PT1H5M30S``."""
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    parts = ((hours, "H"), (minutes, "M"), (seconds, "S"))
    return "PT" + ("".join(f"{n}{unit}" for n, unit in parts if n) or "0S")


def _without_nothing(facts: dict[str, Any]) -> dict[str, Any]:
    # A start at 0 seconds is something; an empty text or list is nothing.
    return {key: fact for key, fact in facts.items() if fact not in ("", None, [])}
