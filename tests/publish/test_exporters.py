"""Every exporter that is found, held against readers that are not ours."""

from __future__ import annotations

import csv
import io
import json
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
import webvtt
from markdown_it import MarkdownIt
from pypdf import PdfReader

from app.core import safety
from app.core.length import Length
from app.publish import pack
from app.publish.sheet import (
    Box,
    ChapterLine,
    Measured,
    Sheet,
    StepLine,
    from_json,
    to_json,
)
from tests.publish.sheets import NASTY, bare, hostile, planter

SAVED = Path(__file__).parent / "saved"
EXPORTERS = pack.exporters()
TEXTS = [name for name in EXPORTERS if not name.endswith((".pdf", ".html"))]
SHEETS = {"bare": bare(), "planter": planter(), "hostile": hostile()}


def test_the_pack_has_every_file_that_is_promised() -> None:
    assert set(EXPORTERS) == {
        *("description.txt", "materials.csv", "materials.md", "cut_list.csv"),
        *("cautions.txt", "chapters.txt", "chapters.vtt", "plan.pdf"),
        *("episode.html", "episode.jsonld"),
        *("private/checks.json", "private/costs.csv"),
    }


@pytest.mark.parametrize("name", EXPORTERS)
@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_one_sheet_always_gives_the_same_bytes(name: str, sheet: Sheet) -> None:
    exporter = EXPORTERS[name]
    assert exporter.TITLE
    made = exporter.render(sheet)
    assert isinstance(made, bytes)
    assert exporter.render(from_json(json.loads(json.dumps(to_json(sheet))))) == made


@pytest.mark.parametrize("name", TEXTS)
def test_a_text_is_as_it_was_read_by_eye(name: str) -> None:
    assert EXPORTERS[name].render(planter()) == (SAVED / name).read_bytes()


@pytest.mark.parametrize("name", [n for n in EXPORTERS if not n.startswith("private")])
def test_costs_and_checks_stay_with_the_maker(name: str) -> None:
    sheet = planter()
    alone = replace(sheet, checks=(), costs=())
    assert EXPORTERS[name].render(sheet) == EXPORTERS[name].render(alone)


@pytest.mark.parametrize("name", [n for n in EXPORTERS if n.endswith(".csv")])
@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_tables_are_what_a_spreadsheet_reads_and_runs_nothing(
    name: str, sheet: Sheet
) -> None:
    content = EXPORTERS[name].render(sheet).decode()
    # RFC 4180, 2.1 and 2.4: CRLF after every record, as many fields in each.
    assert content.endswith("\r\n")
    assert content.count("\n") == content.count("\r\n")
    rows = list(csv.reader(io.StringIO(content, newline=""), strict=True))
    assert len({len(row) for row in rows}) == 1
    # OWASP ASVS 5.0, 1.2.10: no text starts a formula.
    assert not [
        cell for row in rows for cell in row if cell.startswith(("=", "+", "@"))
    ]


def test_a_table_gives_back_what_was_typed_but_for_the_guarding_quote() -> None:
    content = EXPORTERS["cut_list.csv"].render(hostile()).decode()
    first = next(csv.DictReader(io.StringIO(content, newline="")))
    assert first["blank"] == f"'{NASTY}"
    assert (first["length_in"], first["length_mm"]) == ("28.0000", "711.20")


def test_a_decimal_is_rounded_once_from_the_exact_length() -> None:
    third = Measured.of(Length(25_400_000 // 3))
    line = replace(planter().cut_list[0], box=Box(third, third, third))
    content = EXPORTERS["cut_list.csv"].render(replace(planter(), cut_list=(line,)))
    (row,) = csv.DictReader(io.StringIO(content.decode(), newline=""))
    # 25.4/3 = 8.4667 mm = 0.3333 in
    assert (row["width_in"], row["width_mm"]) == ("0.3333", "8.47")


@pytest.mark.parametrize("sheet", [planter(), hostile()], ids=["planter", "hostile"])
def test_chapters_are_read_back_by_an_independent_reader(sheet: Sheet) -> None:
    content = EXPORTERS["chapters.vtt"].render(sheet).decode()
    cues = list(webvtt.from_string(content))
    assert [cue.start for cue in cues] == [
        "00:00:00.000",
        "00:01:35.000",
        "00:05:10.500",
    ]
    # W3C WebVTT 4.2.3: chapters nest or do not overlap; ours follow each other.
    assert [cue.end for cue in cues] == ["00:01:35.000", "00:05:10.500", "00:12:34.000"]
    unescaped = [
        cue.text.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
        for cue in cues
    ]
    assert unescaped == [chapter.title for chapter in sheet.chapters]
    # 4.1: an arrow inside a cue would start another one.
    assert content.count("-->") == len(sheet.chapters)


def test_chapters_past_the_hour_and_without_a_known_length() -> None:
    chapters = (ChapterLine(0, "a\n\nb"), ChapterLine(3_723_000, "late"))
    sheet = replace(planter(), chapters=chapters, length_ms=None)
    content = EXPORTERS["chapters.vtt"].render(sheet).decode()
    first, last = webvtt.from_string(content)
    assert (first.text, first.end) == ("a b", "01:02:03.000")
    assert (last.start, last.end) == ("01:02:03.000", "01:02:13.000")
    assert EXPORTERS["chapters.txt"].render(sheet).endswith(b"1:02:03 late\n")


def test_linked_data_has_the_terms_that_readers_look_for() -> None:
    # schema.org: HowTo, VideoObject, Clip, HowToStep, HowToSupply, HowToTool.
    found = json.loads(EXPORTERS["episode.jsonld"].render(planter()))
    assert (found["@context"], found["@type"]) == ("https://schema.org", "HowTo")
    assert "steps" not in found  # superseded by step
    assert {"name", "supply", "tool", "step"} <= found.keys()
    video = found["video"]
    assert video["@type"] == "VideoObject"
    for term in ("name", "description", "thumbnailUrl", "uploadDate", "embedUrl"):
        assert video[term], term
    assert video["duration"] == "PT12M34S"  # ISO 8601
    assert [(c["startOffset"], c["endOffset"]) for c in video["hasPart"]] == [
        *((0, 95), (95, 310), (310, 754))
    ]
    assert {c["@type"] for c in video["hasPart"]} == {"Clip"}
    assert [s["position"] for s in found["step"]] == [1, 2, 3]
    assert found["performTime"] == "PT1H30M"


def test_linked_data_cannot_end_the_script_it_stands_in() -> None:
    made = EXPORTERS["episode.jsonld"].render(hostile())
    assert not re.search(rb"[<>&]", made)
    assert json.loads(made)["name"] == NASTY


class _Page(HTMLParser):
    """What a browser would load, run and show."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.loaded: list[str] = []
        self.shown: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        named = dict(attrs)
        self.loaded += [named["src"] or ""] if "src" in named else []
        self.loaded += [named["href"] or ""] if tag == "link" else []
        assert not [name for name in named if name.startswith("on")]

    def handle_data(self, data: str) -> None:
        self.shown.append(data)


def test_the_page_runs_nothing_and_loads_nothing_but_its_photos() -> None:
    page = _Page()
    page.feed(EXPORTERS["episode.html"].render(hostile()).decode())
    assert page.tags.count("script") == 1  # the linked data
    assert page.loaded == ["photos/01-planter.jpg", "photos/02-strips.jpg"]
    assert NASTY in "".join(page.shown)


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_markdown_is_read_as_text_and_links_alone(sheet: Sheet) -> None:
    made = EXPORTERS["materials.md"].render(sheet).decode()
    html = MarkdownIt("commonmark").render(made)
    assert "<script" not in html
    assert "<code" not in html
    links = re.findall(r'href="([^"]*)"', html)
    assert all(link.startswith("https://") for link in links)
    assert len(links) == (0 if sheet is SHEETS["bare"] else 3)


def _printed(sheet: Sheet) -> str:
    """What an independent reader finds on the pages of the plan."""
    plan = PdfReader(io.BytesIO(EXPORTERS["plan.pdf"].render(sheet)))
    text = "\n".join(page.extract_text() for page in plan.pages)
    return " ".join(text.split())


def test_the_plan_prints_the_build_with_its_cautions() -> None:
    printed = _printed(planter())
    for said in (
        "Herb planter",
        "1/2 in (true size 0.008 less), or 12.5 mm",
        "180° / sides = 180° / 6",
        "9/16 x 2 1/8 x 28 in",
        "blade tilt 30°; fence 4 1/2 in (114.3 mm); face down: outer face",
        "Wait 1 h until it may be unclamped.",
        "Stand beside the line of cut.",
        "The manual of your own machine, local codes and licensed practice come",
        "I was given hardwax oil for this build.",
    ):
        assert said in printed, said
    assert "18.40" not in printed


def test_the_plan_says_the_cautions_of_steps_that_are_not_done_yet() -> None:
    still = StepLine("Oil it", "brush or cloth", cautions=("brush-or-cloth.vapour",))
    sheet = planter()
    printed = _printed(replace(sheet, steps=(*sheet.steps, still)))
    (vapour,) = safety.cautions(["brush-or-cloth.vapour"])
    assert vapour.text not in {line.text for line in sheet.cautions}
    assert vapour.text in printed


def test_typed_markup_is_printed_and_never_run() -> None:
    # In the engine's language # starts code and $ mathematics.
    printed = _printed(hostile())
    assert '*#panic("y")*' in printed
    assert "$x$" in printed


def test_an_empty_part_still_prints_a_page() -> None:
    assert "Boot rack" in _printed(bare())


@pytest.mark.parametrize(
    ("unit", "points"),
    # US Letter is 8.5 x 11 in; A4 210 x 297 mm (ISO 216); 72 points to the inch.
    [("in", (612, 792)), ("mm", (595, 842))],
)
def test_the_plan_comes_on_the_paper_of_the_makers_tape(
    unit: str, points: tuple[int, int]
) -> None:
    made = EXPORTERS["plan.pdf"].render(replace(planter(), unit=unit))
    page = PdfReader(io.BytesIO(made)).pages[0].mediabox
    assert (round(page.width), round(page.height)) == points
