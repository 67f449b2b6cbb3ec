"""What a pack lacks is told in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.publish.missing import missing
from app.publish.sheet import ChapterLine, Sheet, UsedLine
from tests.publish.sheets import bare, finished, planter


def told(sheet: Sheet) -> set[str]:
    return {line.text for line in missing(sheet)}


# Limits of chapter lists: common practice, no source.
@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        ((0, 45, 70), set()),
        ((0, 45), {"There are 2 chapters; players show a list from 3 on."}),
        ((5, 45, 70), {"The first chapter starts at 0:05; it has to start at 0:00."}),
        ((0, 8, 70), {"The chapter at 0:00 is only 8 s long; each needs 10 s."}),
    ],
)
def test_a_list_of_chapters_that_a_host_would_refuse_is_told(
    seconds: tuple[int, ...], said: set[str]
) -> None:
    chapters = tuple(ChapterLine(s * 1000, f"c{s}") for s in seconds)
    sheet = finished(replace(planter(), chapters=chapters))
    assert {text for text in told(sheet) if "hapter" in text} == said


def test_a_chapter_after_the_end_of_the_film_is_too_short() -> None:
    sheet = replace(planter(), length_ms=312_000)
    said = "The last chapter, at 5:10, is only 1.5 s long; each needs 10 s."
    assert said in told(sheet)


def test_an_empty_part_is_told_everything_it_lacks() -> None:
    assert {
        "No design yet, so no sizes and no parts.",
        "No wood taken from the rack and none planned yet.",
        "No steps yet, so the cautions may be too few.",
        "No cover photo chosen yet.",
        "No address of the video yet.",
        "No chapters yet.",
        "No opening sentence written yet.",
        "No disclosure yet: say what you were given.",
    } == told(bare())


def test_too_long_a_title_or_description_is_told_with_its_count() -> None:
    sheet = finished(replace(planter(), title="t" * 101, opening="o" * 5001))
    said = told(sheet)
    assert "The title has 101 characters; 100 are usual." in said
    assert any(text.startswith("The description has ") for text in said)


def test_a_gift_that_the_notice_names_only_below_the_fold_is_told() -> None:
    gift = UsedLine("band clamp", given=True)
    sheet = replace(planter(), tools=(gift,))
    sheet = finished(sheet)
    late = replace(sheet, blocks=(*sheet.blocks[1:], sheet.blocks[0]))
    assert "That you were given band clamp comes late." not in told(sheet)
    assert "That you were given band clamp comes late." in told(late)


def test_nothing_is_missing_from_a_part_that_has_it_all() -> None:
    sheet = planter()
    whole = replace(
        sheet,
        wood=tuple(replace(line, planned=False) for line in sheet.wood),
        photos=tuple(replace(photo, alt="seen") for photo in sheet.photos),
        chapters=tuple(
            replace(c, title=c.title.replace(">", "")) for c in sheet.chapters
        ),
        kept=(),
        open=(),
    )
    assert told(finished(whole)) == set()
