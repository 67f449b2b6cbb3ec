"""The description: computed from the facts, the maker's words first."""

from __future__ import annotations

from dataclasses import replace

from app.publish.description import TITLES, Edit, blocks, computed, digest, written
from app.publish.sheet import CautionLine, Sheet, StepLine
from tests.publish.sheets import bare, planter


def test_blocks_come_in_the_order_of_a_description() -> None:
    assert [block.key for block in blocks(bare(), {})] == [
        *("opening", "used", "sizes", "chapters", "links", "cautions", "disclosure")
    ]


def test_something_given_is_told_before_anything_else() -> None:
    # 16 CFR 255.0(f): a notice is unavoidable; below the fold it can be missed.
    assert blocks(planter(), {})[0].key == "disclosure"
    assert blocks(planter(), {})[0].text.startswith("I was given hardwax oil")


def test_every_size_is_said_in_both_systems_and_what_rounding_hid() -> None:
    text = computed("sizes", planter())
    assert "outside side: 4 1/2 in, or 114.3 mm" in text
    assert "wall: 1/2 in (true size 0.008 less), or 12.5 mm" in text
    assert (
        "6 x wall, walnut and maple: 1/2 x 4 1/2 x 6 in (12.7 x 114.3 x 152.4 mm)"
        in text
    )


def test_a_metric_shop_says_millimetres_first() -> None:
    text = computed("sizes", replace(planter(), unit="mm"))
    assert "outside side: 114.3 mm, or 4 1/2 in" in text
    assert (
        "6 x wall, walnut and maple: 12.7 x 114.3 x 152.4 mm (1/2 x 4 1/2 x 6 in)"
        in text
    )


def test_a_block_without_facts_is_empty_and_leaves_no_gap() -> None:
    sheet = bare()
    assert {b.key for b in sheet.blocks if b.text} == {"opening"}
    assert "\n\n" not in sheet.description


def test_an_edit_stands_whatever_the_facts_do_and_is_marked() -> None:
    seen = computed("chapters", planter())
    edits = {"chapters": Edit("Mine.", digest(seen))}

    def chapters(sheet: Sheet) -> tuple[str, bool, bool]:
        (found,) = (w for w in written(sheet, edits) if w.key == "chapters")
        return found.text, found.edited, found.changed

    assert chapters(planter()) == ("Mine.", True, False)
    assert chapters(replace(planter(), chapters=())) == ("Mine.", True, True)


def test_a_block_emptied_by_the_maker_stays_empty() -> None:
    told = blocks(planter(), {"cautions": Edit("", "")})
    assert next(b.text for b in told if b.key == "cautions") == ""


def test_every_block_has_a_title() -> None:
    assert all(TITLES.values())


def test_the_sizes_for_the_machines_stay_in_the_plan() -> None:
    many = tuple(replace(planter().sizes[0], label=f"size {i}") for i in range(20))
    text = computed("sizes", replace(planter(), sizes=many))
    assert "size 7:" in text
    assert "size 8:" not in text


def test_cautions_are_the_first_of_every_step_and_thing_and_name_the_rest() -> None:
    lines = (
        CautionLine("saw.a", "Table saw", "Use the riving knife."),
        CautionLine("saw.b", "Table saw", "Stand aside."),
        CautionLine("saw.c", "Table saw", "Let thin strips fall free."),
        CautionLine("glue.a", "Glue", "Wash skin."),
    )
    steps = (
        StepLine("Rip", "table saw", cautions=("saw.a",)),
        StepLine("Rip thin", "table saw", cautions=("saw.c",)),
    )
    sheet = replace(planter(), cautions=lines, steps=steps)
    assert computed("cautions", sheet).splitlines() == [
        "Cautions",
        "- Use the riving knife.",
        "- Let thin strips fall free.",
        "- Wash skin.",
        "- These are the first of each step; read all of them in the plan.",
    ]
