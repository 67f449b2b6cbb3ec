"""What happens in the demo series: five builds of one windowsill, all invented."""

# ruff: noqa: E501  the words of the story stay in one piece
from __future__ import annotations

from dataclasses import dataclass, field

TITLE = "One Windowsill, Five Builds"
SUMMARY = "One kitchen windowsill gets five things made of three woods. Each build borrows a technique from the last one and some of its wood from what was left over."
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
    bought: tuple[str, ...] = ()  # the species that had to be bought
    day: str = ""
    until: str = ""  # words of the step it has come to; empty: it is built
    url: str = ""
    length: str = ""
    notes: tuple[tuple[str, str, str], ...] = ()  # step words, film time, text
    photos: tuple[tuple[str, str, str], ...] = ()  # shot, step words, what it shows
    chapters: tuple[tuple[str, str], ...] = ()
    spoken: tuple[tuple[str, str, str], ...] = ()  # from, to, words
    promises: tuple[Told, ...] = ()
    used: tuple[tuple[str, str, str, str], ...] = ()  # kind, name, quantity, cost
    published: bool = False


# What the forms' own steps do not name.
GLUE = ("supply", "PVA wood glue", "1 fl oz (30 ml)", "0.60")
WAXED = ("supply", "waxed paper, between panel and clamps", "1 sheet", "0.20")
GAUGE = ("tool", "digital angle gauge", "", "")

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
            "finish": "penetrating oil",
        },
        "cherry, 13/16, 6, 48, 31.50\nmaple, 13/16, 7, 48, 33.20\ncherry, 13/16, 6, 96, 58.00",
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
        "walnut, 13/16, 7, 48, 49.00\nmaple, 13/16, 7, 48, 33.20\ncherry, 13/16, 6, 48, 31.50",
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
    Part(
        "A spice shelf for the windowsill",
        "Working from a parts list of your own.",
        "Two boards between two ends: no bevels this time, only square cuts that have to agree with each other.",
        "2026-04-10",
        "parts_list",
        {
            "unit": "in",
            "file": "part,quantity,thickness,width,length,species\nend,2,1/2,3 1/2,10,cherry\nshelf,2,1/2,3 1/4,13 1/2,walnut\nlip,2,1/4,1 1/8,13 1/2,maple\nback rail,1,1/2,1 3/4,13 1/2,maple\n",
        },
        "cherry, 13/16, 6, 48, 31.50\nwalnut, 13/16, 7, 48, 49.00\nmaple, 13/16, 7, 48, 33.20\nmaple, 3/8, 3, 36, 9.50",
        ("maple",),
        "2026-04-04",
        "",
        "https://video.example/windowsill/3",
        "8:10",
        (
            (
                "",
                "0:35",
                "Sorted the rack: holder and cover left cherry, walnut and maple enough for all but the lips. For those a thin maple board was bought.",
            ),
            (
                "",
                "4:20",
                "Dry fit: the lips sit in front of the shelves and stand 5/8 in above them, enough for the small jars.",
            ),
        ),
        (
            ("boards-3", "", "Cherry, walnut and maple pieces sorted for the shelf"),
            ("done-3", "", "The finished shelf, two boards with lips between its ends"),
            ("offcuts-3", "", "What was left over: walnut and maple, on the shelf"),
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
            ("4:21", "4:28", "The lip is a quarter of an inch thick."),
            ("7:40", "7:48", "What is left is enough for a salt cellar."),
        ),
        (
            Told(
                "A salt cellar out of nothing but offcuts",
                "7:40",
                "2026-04-24",
                4,
                "Walnut walls, maple base and splines: all of it was left over.",
            ),
        ),
        (GLUE,),
        True,
    ),
    Part(
        "A five-sided salt cellar from offcuts",
        "Splines of another wood across the corners.",
        "Five sides because I had never made five, small because that is what was on the shelf, and splines because end grain holds glue badly.",
        "2026-04-24",
        "straight_vessel",
        {
            "sides": "5",
            "outside_inscribed": "3",
            "height": "2 1/2",
            "wall": "3/8",
            "base": "under",
            "base_thickness": "3/8",
            "base_species": "maple",
            "base_strips": "2",
            "strip_rows": "1",
            "species": "walnut",
            "splines_per_corner": "2",
            "spline_species": "maple",
            "finish": "wax",
        },
        "",
        (),
        "2026-04-18",
        "",
        "",
        "",
        (
            (
                "",
                "",
                "Nothing bought: walnut for the walls, maple for the base, and the thin maple of the shelf's lips for the splines.",
            ),
            (
                "Bevel",
                "",
                "36° on each edge. The pieces are short, so they rode on the sled with a hold-down.",
            ),
            (
                "slots",
                "",
                "Two slots in each corner, half-way through the wood there. Making the cradle took longer than sawing all ten.",
            ),
        ),
        (
            ("tape-4", "tape", "Five small walnut walls in a row, taped"),
            (
                "done-4",
                "",
                "The finished salt cellar: walnut walls on a maple base, two maple splines at each corner",
            ),
        ),
        (),
        (),
        (),
        (GAUGE,),
    ),
    Part(
        "A serving tray to carry it all",
        "Four mitres, and a panel that may move inside its frame.",
        "The last build takes everything off the windowsill in one go. Its corners get the splines of the salt cellar.",
        "2026-05-08",
        "mitred_tray",
        {
            "sides": "4",
            "length": "17",
            "width": "12",
            "rail_width": "5/8",
            "rail_height": "1 1/2",
            "species": "cherry",
            "moulding_length": "48",
            "panel": "groove",
            "panel_material": "solid wood",
            "panel_thickness": "1/4",
            "panel_room": "3/32",
            "panel_species": "maple",
            "panel_strips": "3",
            "splines_per_corner": "2",
            "spline_species": "maple",
            "finish": "penetrating oil",
        },
        "cherry, 13/16, 6, 48, 31.50\nmaple, 3/8, 5, 60, 24.00",
        ("cherry", "maple"),
        "2026-04-22",
        "Glue up the tray panel",
        "",
        "",
        (
            (
                "",
                "",
                "Cherry for the rails and thin maple for the panel came from the yard: planed down from 13/16 in, most of the panel would have gone into the chip bag. The splines' wood was still on the shelf.",
            ),
            (
                "groove",
                "",
                "The groove for the panel before any mitre: a square end runs along the fence without catching.",
            ),
            (
                "Close the rails dry",
                "",
                "Scraps closed first, then the rails. Both diagonals measure 20 13/16 in.",
            ),
            (
                "Glue up the tray panel",
                "",
                "Three boards for the panel. From my shop to a damp kitchen it swells by about 1/8 in across, so it gets 3/32 in of room at each side and no glue in the groove.",
            ),
        ),
        (
            (
                "boards-5",
                "",
                "The wood for the tray: cherry for the rails, thin maple for the panel",
            ),
            (
                "dry-5",
                "Close the rails dry",
                "Four cherry rails closed dry, no panel yet",
            ),
            (
                "clamps-5",
                "Glue up the tray panel",
                "Three thin maple boards in clamps, the panel of the tray",
            ),
        ),
    ),
)
