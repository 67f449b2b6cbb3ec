"""The first two parts of the demo series."""

# ruff: noqa: E501  the words of the story stay in one piece
from __future__ import annotations

from tests.make_demo.telling import GAUGE, WAXED, Part, Told

BEGUN = (
    Part(
        "A six-sided holder for kitchen tools",
        "Bevelling six walls and folding them shut with tape.",
        "Six walls, one bevel and a band of maple: a holder for the spoons and turners that have been rolling about on the windowsill.",
        "2026-03-13",
        "straight_vessel",
        {
            "sides": "6",
            "outside_inscribed": "4 1/2",
            "height": "6 1/2",
            "wall": "1/2",
            "strip_rows": "4",
            "base_thickness": "3/8",
            "species": "cherry, cherry, maple, cherry",
            "finish": "penetrating oil",
        },
        "cherry, 13/16, 6, 48, 31.50\nmaple, 13/16, 8, 48, 37.90\ncherry, 13/16, 6, 96, 58.00",
        ("cherry", "maple"),
        "2026-03-07",
        "",
        "https://video.example/windowsill/1",
        "11:20",
        (
            (
                "",
                "0:40",
                "Picked the cherry for its straight edge; the maple only has to give one strip for the band.",
            ),
            (
                "Rip",
                "2:05",
                "Ripped the strips a little wide. The band sits third from below: mark the order before the glue comes out.",
            ),
            (
                "Glue",
                "4:10",
                "Glue-up flat between three clamps. **Squeeze-out scraped** after forty minutes, while it was still like rubber.",
            ),
            (
                "Bevel",
                "6:30",
                "Bevel set to 30° and proved on six scraps: the ring closed without a gap I could slip paper into.",
            ),
            (
                "",
                "9:45",
                "Two coats of oil, inside before the glue and outside after it. The maple band came out warmer than I expected beside the cherry.",
            ),
        ),
        (
            ("boards-1", "", "A cherry board and a maple board on the bench"),
            ("clamps-1", "Glue", "Four strips in three clamps, the maple one third"),
            ("tape-1", "tape", "Six walls in a row, outer faces up, two lines of tape"),
            ("saw-1", "base", "The six-sided base against the mitre gauge's fence"),
            (
                "done-1",
                "",
                "The finished six-sided holder with three wooden turners in it",
            ),
            ("offcuts-1", "", "What was left over: cherry and maple, on the shelf"),
        ),
        (
            ("0:00", "What it will be"),
            ("0:40", "Choosing the boards"),
            ("2:05", "Ripping the strips"),
            ("4:10", "Glue-up"),
            ("6:30", "The bevel"),
            ("8:20", "Folding it shut"),
            ("9:45", "Finish"),
        ),
        (
            ("0:00", "0:06", "Six sides, thirty degrees on every edge."),
            (
                "0:07",
                "0:13",
                "Four and a half inches across the flats, six and a half inches tall.",
            ),
            (
                "0:41",
                "0:47",
                "The walls are half an inch thick, cherry with one band of maple.",
            ),
            (
                "6:31",
                "6:38",
                "Set the blade to thirty degrees and try it on scrap first.",
            ),
            ("8:21", "8:27", "Outer faces up, tape across the joints, then fold."),
            (
                "10:50",
                "10:58",
                "The offcuts go on the shelf: next time they become a cover for the herb pot.",
            ),
        ),
        (
            Told(
                "An eight-sided cover for the herb pot, started from these offcuts",
                "10:50",
                "2026-03-27",
                2,
                "Its cherry and its maple are the holder's offcuts.",
            ),
            Told(
                "A close look at how the joints hold after a summer on the sill",
                "11:05",
                "2026-09-30",
            ),
        ),
        (WAXED, GAUGE),
        True,
    ),
    Part(
        "An eight-sided cover for the herb pot",
        "Bands that climb from wall to wall, and a shallower bevel.",
        "The same folding trick with eight walls and three woods. Two panels give all of them, and the bands climb round the pot.",
        "2026-03-27",
        "straight_vessel",
        {
            "sides": "8",
            "outside_inscribed": "6 1/4",
            "height": "5 1/4",
            "wall": "1/2",
            "base": "none",
            "strip_rows": "4",
            "pattern": "stepped",
            "species": "walnut, maple, cherry, maple",
            "finish": "waterborne varnish",
        },
        "walnut, 13/16, 7, 48, 49.00\nmaple, 13/16, 8, 48, 37.90\ncherry, 13/16, 6, 48, 31.50",
        ("walnut",),
        "2026-03-21",
        "",
        "https://video.example/windowsill/2",
        "9:35",
        (
            (
                "",
                "0:30",
                "The cherry and the maple are the holder's offcuts. Only the walnut had to be bought.",
            ),
            (
                "Glue",
                "3:00",
                "Two panels of four strips. A has the walnut lowest, B the maple: the letter goes on both before the clamps come off.",
            ),
            (
                "Bevel",
                "5:15",
                "22.5° this time. A tenth of a degree shows more on eight walls than on six.",
            ),
            (
                "Tape",
                "7:00",
                "All eight in a row before the tape, outside up: every band has to stand one strip higher on the next wall. Two of each four are turned upside down for that.",
            ),
        ),
        (
            (
                "boards-2",
                "",
                "A walnut board, and cherry and maple offcuts of the first build",
            ),
            ("clamps-2", "Glue", "Panel A in clamps: walnut, maple, cherry, maple"),
            (
                "tape-2",
                "tape",
                "Eight walls in a row, taped, the bands a strip higher on each",
            ),
            ("done-2", "", "The finished eight-sided cover, its bands climbing round"),
        ),
        (
            ("0:00", "Where we left off"),
            ("0:30", "Offcuts first"),
            ("3:00", "Two panels, three woods"),
            ("5:15", "Eight bevels"),
            ("7:00", "The bands climb"),
            ("8:00", "Varnish, for the watering"),
        ),
        (
            (
                "0:00",
                "0:07",
                "Last time I promised a cover for the herb pot. Here it is.",
            ),
            ("0:08", "0:15", "Eight sides, six and a quarter inches across the flats."),
            (
                "3:01",
                "3:07",
                "Two panels, four strips each, in walnut, maple and cherry.",
            ),
            ("5:16", "5:23", "The bevel is twenty-two and a half degrees."),
            ("9:10", "9:18", "Next comes the shelf for the spice jars."),
        ),
        (
            Told(
                "A shelf for the spice jars between the two",
                "9:10",
                "2026-04-10",
                3,
                "It stands between them, walnut boards and all.",
            ),
        ),
        (WAXED, GAUGE),
        True,
    ),
)
