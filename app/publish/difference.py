"""What changed between two sheets, block by block, as lines to read."""

from __future__ import annotations

import difflib
from dataclasses import dataclass

from app.publish.exporters import cut_list_csv, materials_markdown
from app.publish.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Change:
    """One line: same, gone or new; ``skip`` where lines that stayed are left out."""

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class Changed:
    """One block that differs."""

    title: str
    lines: tuple[Change, ...]


_KINDS = {" ": "same", "-": "gone", "+": "new"}
CONTEXT = 2


def difference(before: Sheet, after: Sheet) -> tuple[Changed, ...]:
    """The blocks that differ, with a little of what stayed around each change."""
    old, new = _texts(before), _texts(after)
    titles = dict.fromkeys((*old, *new))
    pairs = ((title, old.get(title, ""), new.get(title, "")) for title in titles)
    return tuple(
        Changed(title, _changes(was, now)) for title, was, now in pairs if was != now
    )


def _texts(sheet: Sheet) -> dict[str, str]:
    texts = {"Title": sheet.title, "Address of the video": sheet.video_url}
    texts |= {block.title: block.text for block in sheet.blocks}
    texts["Materials list"] = materials_markdown.body(sheet)
    texts["Cut list"] = cut_list_csv.render(sheet).decode().replace("\r\n", "\n")
    texts["Steps"] = "\n".join(
        f"{step.name}. {step.detail}".strip() for step in sheet.steps
    )
    texts["Set-ups"] = "\n".join(
        f"{s.machine}: {', '.join(s.settings)}; {s.cuts}" for s in sheet.set_ups
    )
    texts["Photos"] = "\n".join(f"{p.file} {p.alt}".strip() for p in sheet.photos)
    return texts


def _changes(was: str, now: str) -> tuple[Change, ...]:
    lines = difflib.unified_diff(
        was.splitlines(), now.splitlines(), lineterm="", n=CONTEXT
    )
    # Two lines of file names and the first jump say nothing about the block.
    read = list(lines)[3:]
    return tuple(_change(line) for line in read)


def _change(line: str) -> Change:
    if line.startswith("@"):
        return Change("skip", "")
    return Change(_KINDS[line[0]], line[1:])
