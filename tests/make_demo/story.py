"""What happens in the demo series: five builds of one windowsill, all invented."""

# ruff: noqa: E501  the words of the story stay in one piece
from __future__ import annotations

from dataclasses import dataclass, field

TITLE = "One Windowsill, Five Builds"
SUMMARY = "One kitchen windowsill gets five things made of three woods. Each build borrows a technique from the last one and its wood from what was left over."
DISCLOSURE = "I paid for all wood and tools shown. No link here earns me anything."


@dataclass(frozen=True)
class Told:
    """A promise: what, when in the film, until when, and the part that keeps it."""

    text: str
    at: str
    due: str = ""
    kept_in: int = 0
    how: str = ""


@dataclass(frozen=True)
class Part:
    """One episode. ``day`` is the first day in the shop, ISO; empty: planned only."""

    title: str
    introduces: str
    opening: str
    due: str
    form: str = ""
    inputs: dict[str, str] = field(default_factory=dict)
    dealer: str = ""
    day: str = ""
    url: str = ""
    length: str = ""
    notes: tuple[tuple[str, str, str], ...] = ()  # step words, film time, text
    photos: tuple[tuple[str, str, str], ...] = ()  # shot, step words, what it shows
    chapters: tuple[tuple[str, str], ...] = ()
    spoken: tuple[tuple[str, str, str], ...] = ()  # from, to, words
    promises: tuple[Told, ...] = ()
    used: tuple[tuple[str, str, str, str], ...] = ()  # kind, name, quantity, cost
    published: bool = False


GLUE = ("supply", "wood glue, water resistant", "60 ml", "1.20")
OIL = ("supply", "food-safe oil finish", "40 ml", "2.40")
PAPER = ("supply", "sandpaper, 120, 180 and 220 grit", "6 sheets", "4.50")
TAPE = ("supply", "paper tape, 25 mm", "2 m", "0.30")

PARTS = (
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
        },
        "cherry, 13/16, 6, 48, 31.50\nmaple, 13/16, 5, 36, 19.80\ncherry, 13/16, 6, 96, 58.00",
        "2026-03-07",
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
                "Two coats of oil. The maple band came out darker than I expected next to the end grain.",
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
                "Its cherry strips are the holder's offcut.",
            ),
            Told(
                "A close look at how the joints hold after a summer on the sill",
                "11:05",
                "2026-09-30",
            ),
        ),
        (GLUE, OIL, PAPER, TAPE),
        True,
    ),
    Part(
        "An eight-sided cover for the herb pot",
        "Strips of three woods in one panel, and a shallower bevel.",
        "The same folding trick with eight walls and three woods, partly cut from what the holder left over.",
        "2026-03-27",
        "straight_vessel",
        {
            "sides": "8",
            "outside_inscribed": "6 1/4",
            "height": "5 1/4",
            "wall": "1/2",
            "base": "none",
            "strip_rows": "3",
            "species": "walnut, maple, cherry",
        },
        "walnut, 13/16, 6, 48, 42.00\nmaple, 13/16, 5, 36, 19.80\ncherry, 13/16, 6, 48, 31.50",
        "2026-03-21",
        "https://video.example/windowsill/2",
        "9:35",
        (
            (
                "",
                "0:30",
                "The cherry is the holder's offcut. Its maple offcuts are too short to run round eight walls, so maple and walnut were bought.",
            ),
            (
                "Glue",
                "3:00",
                "Walnut below, maple, cherry on top. Three strips line up with the grain running round.",
            ),
            (
                "Bevel",
                "5:15",
                "22.5° this time. A tenth of a degree shows more on eight walls than on six.",
            ),
        ),
        (
            (
                "boards-2",
                "",
                "A walnut board, a maple board and the cherry offcut of the first build",
            ),
            ("clamps-2", "Glue", "Strips of walnut, maple and cherry in clamps"),
            ("tape-2", "tape", "Eight walls of three woods in a row, taped"),
            ("done-2", "", "The finished eight-sided cover, three bands of wood"),
        ),
        (
            ("0:00", "Where we left off"),
            ("0:30", "Offcuts first"),
            ("3:00", "Glue-up in three woods"),
            ("5:15", "Eight bevels"),
            ("8:00", "Finish"),
        ),
        (
            (
                "0:00",
                "0:07",
                "Last time I promised a cover for the herb pot. Here it is.",
            ),
            ("0:08", "0:15", "Eight sides, six and a quarter inches across the flats."),
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
        (GLUE, OIL, PAPER, TAPE),
        True,
    ),
    Part(
        "A spice shelf for the windowsill",
        "Working from a parts list of your own.",
        "Two boards between two ends: no bevels this time, only square cuts that have to agree with each other.",
        "2026-04-10",
        "parts_list",
        {
            "unit": "in",
            "file": "part,quantity,thickness,width,length,species\nend,2,1/2,3 1/2,10,cherry\nshelf,2,1/2,3 1/4,13 1/2,walnut\nlip,2,3/8,1 1/8,13 1/2,maple\nback rail,1,1/2,1 3/4,13 1/2,maple\n",
        },
        "cherry, 13/16, 6, 48, 31.50\nwalnut, 13/16, 6, 48, 42.00\nmaple, 13/16, 5, 36, 19.80",
        "2026-04-04",
        "https://video.example/windowsill/3",
        "8:10",
        (
            (
                "",
                "0:35",
                "Sorted the rack: the herb pot cover left cherry, maple and walnut enough, so not one board had to be bought.",
            ),
            (
                "",
                "4:20",
                "Dry fit: the lips stand 5/8 in above the shelves, enough for the small jars.",
            ),
        ),
        (
            ("boards-3", "", "Cherry, walnut and maple pieces sorted for the shelf"),
            ("done-3", "", "The finished shelf, two boards with lips between its ends"),
            ("offcuts-3", "", "Short ends of three woods left on the shelf"),
        ),
        (
            ("0:00", "Only square cuts"),
            ("0:35", "Sorting the wood"),
            ("2:10", "Cutting to the list"),
            ("4:20", "Dry fit"),
        ),
        (
            (
                "0:00",
                "0:07",
                "Thirteen and a half inches between the ends, two shelves.",
            ),
            ("4:21", "4:28", "The lip is three eighths of an inch thick."),
            ("7:40", "7:48", "What is left is just enough for a salt cellar."),
        ),
        (
            Told(
                "A salt cellar out of nothing but offcuts",
                "7:40",
                "2026-04-24",
                4,
                "It is made of the holder's two maple offcuts.",
            ),
        ),
        (GLUE, OIL, PAPER),
        True,
    ),
    Part(
        "A five-sided salt cellar from offcuts",
        "Five walls, all of it from what the others left.",
        "Five sides because I had never made five, and small because that is what was on the shelf.",
        "2026-04-24",
        "straight_vessel",
        {
            "sides": "5",
            "outside_inscribed": "3",
            "height": "2 1/2",
            "wall": "3/8",
            "base": "under",
            "base_thickness": "3/8",
            "strip_rows": "1",
            "species": "maple",
        },
        "",
        "2026-04-18",
        "",
        "",
        (
            (
                "",
                "",
                "Two maple offcuts of the very first build are enough for all of it.",
            ),
            (
                "Bevel",
                "",
                "36° on each edge. The pieces are short, so they rode on the sled with a hold-down.",
            ),
        ),
        (
            ("tape-4", "tape", "Five small maple walls in a row, taped"),
            ("done-4", "", "The finished five-sided salt cellar, all maple"),
        ),
        (),
        (),
        (),
        (GLUE, OIL, PAPER, TAPE),
    ),
    Part(
        "A serving tray to carry it all",
        "A panel that may move inside its frame.",
        "The last build takes everything off the windowsill in one go.",
        "2026-05-08",
        "parts_list",
        {
            "unit": "in",
            "file": "part,quantity,thickness,width,length,species\nlong side,2,1/2,1 5/8,17 1/4,cherry\nshort side,2,1/2,1 1/4,11 3/4,cherry\nbottom slat,3,3/8,3 5/8,16 1/4,maple\ngrip,2,1/2,5/8,6,walnut\n",
        },
        "cherry, 13/16, 6, 48, 31.50\nmaple, 13/16, 5, 72, 38.00\nwalnut, 13/16, 6, 48, 42.00",
    ),
)
