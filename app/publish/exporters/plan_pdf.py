"""The printable plan: sizes, drawings, cut list, set-ups, steps and cautions."""

from app.core import safety
from app.core.document import to_plain
from app.publish import full_size, typeset, wording
from app.publish.sheet import Sheet

TITLE = "Plan (PDF)"
FILE = "plan.pdf"


def render(sheet: Sheet) -> bytes:
    """Sizes, parts, cut list, diagrams, set-ups, steps and cautions to print."""
    return typeset.pdf(typeset.PLAN, _facts(sheet))


def _facts(sheet: Sheet) -> dict[str, object]:
    facts: dict[str, object] = to_plain(sheet)
    unit = sheet.unit
    facts["groups"] = [
        {
            "title": group.title,
            "sizes": [
                {"label": s.label, "text": wording.size(s, unit), "working": s.working}
                for s in group.sizes
            ],
            "tables": [to_plain(table) for table in group.tables],
        }
        for group in sheet.size_groups
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
    facts["drawings"] = [
        to_plain(drawing) for drawing in sheet.drawings if not drawing.true_size
    ]
    facts["full_size"] = [
        full_size.facts(drawing) for drawing in sheet.drawings if drawing.true_size
    ]
    facts["supplies"] = [wording.used(line) for line in sheet.supplies]
    facts["tools"] = [wording.used(line) for line in sheet.tools]
    told = [block.text for block in sheet.blocks if block.key == "disclosure"]
    facts["disclosure_text"] = "\n".join(told)
    facts["caution_texts"] = _caution_texts(sheet)
    # What is for the maker alone never reaches the page for the public.
    for private in ("checks", "costs", "blocks"):
        del facts[private]
    return facts


def _caution_texts(sheet: Sheet) -> dict[str, str]:
    """What stands beside the steps, by its key.

    The sheet tells the cautions of the work that was done; whoever builds from the
    plan does all of it, also the steps that are not ticked off yet.
    """
    named = {key for step in sheet.steps for key in step.cautions}
    known = {one.key: one.text for one in safety.all_cautions() if one.key in named}
    return known | {line.key: line.text for line in sheet.cautions}
