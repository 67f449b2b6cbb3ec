"""The printable plan, set by a typesetting engine that needs no network.

The maker's text reaches it as JSON data, never as source; it sees no folder but
its template's, no packages and no fonts but those named here, and a fixed time.
"""

import json

import typst

from app.core.document import to_plain
from app.publish import typeset, wording
from app.publish.sheet import Sheet

TITLE = "Plan (PDF)"
FILE = "plan.pdf"
# The engine stamps a document; the same sheet must give the same bytes.
TIMESTAMP = 946_684_800  # 2000-01-01, UTC


def render(sheet: Sheet) -> bytes:
    """Sizes, parts, cut list, diagrams, set-ups, steps and cautions to print."""
    with typeset.folder() as root, typeset.fonts() as fonts:
        made = typst.compile(
            str(root / typeset.PLAN),
            root=str(root),
            font_paths=[str(fonts)],
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs={"sheet": json.dumps(_facts(sheet), ensure_ascii=False)},
            timestamp=TIMESTAMP,
        )
    return bytes(made)


def _facts(sheet: Sheet) -> dict[str, object]:
    facts: dict[str, object] = to_plain(sheet)
    unit = sheet.unit
    facts["sizes"] = [
        {"label": s.label, "text": wording.size(s, unit), "working": s.working}
        for s in sheet.sizes
    ]
    facts["parts"] = [
        [
            str(p.quantity),
            p.name,
            p.species,
            p.box.text(unit),
            p.box.text(wording.other(unit)),
        ]
        for p in sheet.parts
    ]
    facts["cut_list"] = [
        [
            str(c.quantity),
            c.name,
            c.species,
            c.box.text(unit),
            c.box.text(wording.other(unit)),
            c.into,
        ]
        for c in sheet.cut_list
    ]
    facts["wood"] = [
        *(wording.wood(line, sheet) for line in sheet.wood),
        *wording.in_build(sheet),
    ]
    del facts["went"]  # said already; its numbers outgrow the typesetter's
    facts["supplies"] = [wording.used(line) for line in sheet.supplies]
    facts["tools"] = [wording.used(line) for line in sheet.tools]
    told = [block.text for block in sheet.blocks if block.key == "disclosure"]
    facts["disclosure_text"] = "\n".join(told)
    facts["caution_texts"] = {line.key: line.text for line in sheet.cautions}
    # What is for the maker alone never reaches the page for the public.
    for private in ("checks", "costs", "blocks"):
        del facts[private]
    return facts
