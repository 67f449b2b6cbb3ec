"""Sheets that the publish tests render: an invented planter of three species."""

from __future__ import annotations

from dataclasses import replace

from app.core.length import Length, inches
from app.publish.description import blocks
from app.publish.sheet import (
    Box,
    CautionLine,
    ChapterLine,
    CheckLine,
    CostLine,
    CutLine,
    LeftLine,
    Measured,
    Part,
    PartLine,
    PhotoLine,
    Picture,
    PromiseLine,
    SetUpLine,
    Sheet,
    SizeLine,
    StepLine,
    UsedLine,
    WentLine,
    WoodLine,
)

SERIES = "Porch pieces"
FIRST = Part(SERIES, 1, "Lantern stand", "https://films.example/porch-1")
SECOND = Part(SERIES, 2, "Herb planter", "https://films.example/porch-2")
THIRD = Part(SERIES, 3, "Window tray", "", "2026-04-12")
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100" role="img">'
    "<title>Planter from above</title>"
    '<path d="M60 10h80l40 40-40 40H60L20 50z" fill="#e8c9a0" stroke="#111"/></svg>'
)
NASTY = '=1+1 <script>alert("x")</script> & *#panic("y")* \\ "q" [a](b) $x$ @z `r`'


def box(thickness: str, width: str, length: str) -> Box:
    """A piece by its sizes in inches."""
    return Box(*(Measured.of(inches(text)) for text in (thickness, width, length)))


def bare() -> Sheet:
    """An episode of which nothing is known but its name."""
    return finished(Sheet(SERIES, "porch-pieces", 4, 5, "Boot rack", "boot-rack"))


def planter() -> Sheet:
    """A part 2 with everything in it."""
    sheet = Sheet(
        series=SERIES,
        series_slug="porch-pieces",
        number=2,
        of=3,
        title="Herb planter",
        slug="herb-planter",
        date="2026-03-02",
        opening="Six bevelled sides, one square blank for the base, no plastic.",
        video_url=SECOND.url,
        length_ms=754_000,
        build="Straight-sided vessel",
        disclosure="Nobody paid for this film.",
        sizes=(
            _length("outside_side", "outside side", inches("4 1/2")),
            _length("wall", "wall", Length(12_500_000)),
            SizeLine(
                "edge_bevel", "edge bevel", "30°", "30°", "180° / sides = 180° / 6"
            ),
        ),
        parts=(
            PartLine("wall", 6, "walnut and maple", box("1/2", "4 1/2", "6")),
            PartLine("base", 1, "cherry", box("3/8", "7 1/4", "7 1/4")),
        ),
        cut_list=(
            CutLine(
                "walnut strip", 2, "walnut", box("9/16", "2 1/8", "28"), "wall panel"
            ),
            CutLine(
                "maple strip", 1, "maple", box("9/16", "2 1/8", "28"), "wall panel"
            ),
            CutLine("base", 1, "cherry", box("7/16", "9 1/4", "9 3/4")),
        ),
        wood=(
            WoodLine(
                *("walnut", "board", 1, box("3/4", "6", "48"), "W3"),
                left=(
                    LeftLine("offcut", 1, box("3/4", "5 3/4", "17")),
                    LeftLine("offcut", 2, box("3/4", "1 1/4", "9 1/2")),
                ),
            ),
            WoodLine("cherry", "strip", 1, box("1/4", "1", "9"), "C7", FIRST),
            WoodLine(
                "maple", "offcut", 2, box("3/4", "2 1/4", "30"), "M2", FIRST, True
            ),
        ),
        went=(
            WentLine("parts", 61 * 10**23),
            WentLine("kerf", 12 * 10**23),
            WentLine("chips", 9 * 10**23),
            WentLine("scrap", 0),
        ),
        supplies=(
            UsedLine("wood glue", "60 ml"),
            UsedLine(
                "hardwax oil", "2 coats", "https://shop.example/oil?a=1&b=2", True
            ),
        ),
        tools=(UsedLine("table saw"), UsedLine("band clamp", "2")),
        chapters=(
            ChapterLine(0, "What we build"),
            ChapterLine(95_000, "Strips & panel"),
            ChapterLine(310_500, "Bevels at 30° --> six walls"),
        ),
        neighbours=(FIRST, THIRD),
        keeps=(PromiseLine("a planter from the lantern's offcuts", 512_000, FIRST),),
        kept=(
            PromiseLine("a tray of the same strips", 700_000, THIRD, "In the base."),
        ),
        open=(PromiseLine("how to line it", None, replace(SECOND, due="2026-05-01")),),
        cautions=(
            CautionLine(
                "table-saw.kickback", "Table saw", "Stand beside the line of cut."
            ),
            CautionLine(
                "wood-dust.lungs", "Wood dust", "Collect dust and wear a mask."
            ),
            CautionLine(
                "general.scope", "In general", "Your tool's manual comes first."
            ),
        ),
        set_ups=(
            SetUpLine(
                "bevel",
                "table saw",
                "both long edges of every wall",
                ("blade tilt 30°", "fence 4 1/2 in (114.3 mm)"),
                "outer face",
                "six walls close round without a gap",
            ),
        ),
        steps=(
            StepLine("Rip the strips", "table saw", "Heart side up.", "", 30),
            StepLine(
                "Glue the panel",
                "clamps",
                waits=("Wait 1 h until it may be unclamped.",),
                bench_minutes=20,
            ),
            StepLine(
                "Bevel the walls",
                "table saw",
                "",
                "bevel",
                40,
                (),
                ("table-saw.kickback",),
            ),
        ),
        drawings=(Picture("Planter from above", "A hexagon.", SVG),),
        diagrams=(Picture("Board W3", "Two strips on a board.", SVG),),
        photos=(
            PhotoLine("photos/01-planter.jpg", "a" * 64, "The planter", "Oiled.", True),
            PhotoLine("photos/02-strips.jpg", "b" * 64, "", ""),
        ),
        checks=(
            CheckLine("wood", "The wood is planned, not cut yet."),
            CheckLine("bench", "No words for who cannot see them: 1 of 2 photos."),
            CheckLine("out", "Angle brackets: some hosts refuse a text with them."),
            CheckLine(
                "out", "Promised, not kept yet, due 2026-05-01: “how to line it”."
            ),
            CheckLine(
                "out",
                "“a tray of the same strips” points to part 3, which has no address "
                "yet.",
            ),
        ),
        costs=(
            CostLine("walnut board W3", "1", 1840, 712),
            CostLine("wood glue", "60 ml", 90),
        ),
    )
    return finished(sheet)


def finished(sheet: Sheet) -> Sheet:
    """With its blocks."""
    return replace(sheet, blocks=blocks(sheet, {}))


def hostile() -> Sheet:
    """Every text of the maker's is one that would break a careless format."""
    sheet = planter()
    changes = {
        name: tuple(_spoiled(line) for line in getattr(sheet, name))
        for name in ("supplies", "tools", "chapters", "parts", "cut_list", "steps")
    }
    return finished(replace(sheet, title=NASTY, opening=NASTY, series=NASTY, **changes))


def _spoiled(line: object) -> object:
    name = "title" if isinstance(line, ChapterLine) else "name"
    return replace(line, **{name: NASTY})  # type: ignore[type-var]


def _length(key: str, label: str, length: Length) -> SizeLine:
    shown = Measured.of(length)
    hidden = " (true size 0.008 less)" if key == "wall" else ""
    return SizeLine(
        key, label, f"{shown.inch} in{hidden}", f"{shown.mm} mm", "as chosen"
    )
