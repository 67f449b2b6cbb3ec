"""The description, block by block, computed from a sheet's facts.

The maker's own words win: an edited block keeps the digest of the computed text
it replaced, so that a change of the facts can be told without touching the edit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256

from app.core.film_time import film_time
from app.publish import wording
from app.publish.sheet import Block, Part, PromiseLine, Sheet

TITLES = {
    "opening": "Opening",
    "used": "What was used",
    "sizes": "Sizes",
    "chapters": "Chapters",
    "links": "The other parts",
    "cautions": "Cautions",
    "disclosure": "Disclosure",
}
# A form gives the sizes of the finished piece first and those for the machines
# after them; all stand in the plan, and a description has little room.
SIZES_MOST = 8


@dataclass(frozen=True, slots=True)
class Edit:
    """A block in the maker's words; ``facts``: digest of what it replaced."""

    text: str
    facts: str


@dataclass(frozen=True, slots=True)
class Written:
    """A block as it goes out, beside what the facts alone would say.

    ``changed``: it was edited, and its facts have moved on since.
    """

    key: str
    title: str
    text: str
    computed: str
    edited: bool = False
    changed: bool = False


def digest(text: str) -> str:
    """What identifies a computed text."""
    return sha256(text.encode()).hexdigest()


def written(sheet: Sheet, edits: Mapping[str, Edit]) -> tuple[Written, ...]:
    """Every block in the order it goes out, the maker's words before ours."""
    return tuple(_written(key, sheet, edits.get(key)) for key in order(sheet))


def _written(key: str, sheet: Sheet, edit: Edit | None) -> Written:
    text = computed(key, sheet)
    if edit is None:
        return Written(key, TITLES[key], text, text)
    moved_on = edit.facts != digest(text)
    return Written(key, TITLES[key], edit.text, text, True, moved_on)


def blocks(sheet: Sheet, edits: Mapping[str, Edit]) -> tuple[Block, ...]:
    """The blocks for the sheet itself."""
    return tuple(Block(w.key, w.title, w.text) for w in written(sheet, edits))


def order(sheet: Sheet) -> tuple[str, ...]:
    """Something given is told first, before any fold: 16 CFR 255.0(f)."""
    if not sheet.given:
        return tuple(TITLES)
    return ("disclosure", *(key for key in TITLES if key != "disclosure"))


def computed(key: str, sheet: Sheet) -> str:
    """What the facts say for one block; empty where there are none."""
    return _COMPUTE[key](sheet)


def _opening(sheet: Sheet) -> str:
    words = sheet.opening.strip() or sheet.introduces.strip() or f"{sheet.title}."
    count = f"Part {sheet.number} of {sheet.of}" if sheet.of > 1 else "Part 1"
    return f"{words}\n{count} of the series {sheet.series}."


def _used(sheet: Sheet) -> str:
    lists = {
        "Wood": [
            *(wording.wood(line, sheet) for line in sheet.wood),
            *wording.in_build(sheet),
        ],
        "Supplies": [wording.used(line) for line in sheet.supplies],
        "Tools": [wording.used(line) for line in sheet.tools],
    }
    return "\n".join(_listed(title, lines) for title, lines in lists.items() if lines)


def _sizes(sheet: Sheet) -> str:
    sizes = [
        f"{line.label}: {wording.size(line, sheet.unit)}"
        for line in sheet.sizes[:SIZES_MOST]
    ]
    parts = [wording.part(line, sheet.unit) for line in sheet.parts]
    lists = {"Sizes": sizes, "Finished parts (thickness x width x length)": parts}
    return "\n".join(_listed(title, lines) for title, lines in lists.items() if lines)


def _chapters(sheet: Sheet) -> str:
    lines = [f"{film_time(c.start_ms)} {c.title}" for c in sheet.chapters]
    return "\n".join(["Chapters", *lines]) if lines else ""


def _links(sheet: Sheet) -> str:
    lines = [_neighbour(link) for link in sheet.neighbours]
    lines += [_keeps(line, sheet) for line in sheet.keeps]
    lines += [_kept(line, sheet) for line in sheet.kept]
    return _listed(f"The series {sheet.series}", lines) if lines else ""


def _neighbour(link: Part) -> str:
    where = link.url or (f"planned for {link.due}" if link.due else "still to come")
    return f"Part {link.number}, {link.title}: {where}"


def _keeps(line: PromiseLine, sheet: Sheet) -> str:
    at = f" at {film_time(line.video_ms)}" if line.video_ms is not None else ""
    told = f"promised{at} in {wording.named(line.other, sheet.series)}"
    how = f" {line.how}" if line.how else ""
    return f"Kept here: “{line.text}”, {told}.{how} {line.other.url}".strip()


def _kept(line: PromiseLine, sheet: Sheet) -> str:
    at = f" at {film_time(line.video_ms)}" if line.video_ms is not None else ""
    kept = f"kept in {wording.named(line.other, sheet.series)}"
    return f"Promised here{at}: “{line.text}”, {kept}. {line.other.url}".strip()


def _cautions(sheet: Sheet) -> str:
    """The first caution of every step, tool and material; the plan has them all."""
    leading = {step.cautions[0] for step in sheet.steps if step.cautions}
    subjects: set[str] = set()
    texts: dict[str, None] = {}
    for line in sheet.cautions:
        if line.key in leading or line.about not in subjects:
            texts[line.text] = None
        subjects.add(line.about)
    if len(texts) < len({line.text for line in sheet.cautions}):
        texts["These are the first of each step; read all of them in the plan."] = None
    return _listed("Cautions", list(texts)) if texts else ""


def _disclosure(sheet: Sheet) -> str:
    names = [line.name for line in sheet.given]
    told = f"I was given {wording.in_order(names)} for this build." if names else ""
    return "\n".join(filter(None, [told, sheet.disclosure.strip()]))


def _listed(title: str, lines: list[str]) -> str:
    return "\n".join([title, *(f"- {line}" for line in lines)])


_COMPUTE = {
    "opening": _opening,
    "used": _used,
    "sizes": _sizes,
    "chapters": _chapters,
    "links": _links,
    "cautions": _cautions,
    "disclosure": _disclosure,
}
