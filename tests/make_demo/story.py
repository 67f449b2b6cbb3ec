"""What happens in the demo series: five builds of one windowsill, all invented."""

# ruff: noqa: E501  the words of the story stay in one piece
from __future__ import annotations

from tests.make_demo.story_begun import BEGUN
from tests.make_demo.telling import GAUGE, GLUE, Part, Told

TITLE = "One Windowsill, Five Builds"
SUMMARY = "One kitchen windowsill gets five things made of three woods. Each build borrows a technique from the last one and some of its wood from what was left over."
DISCLOSURE = "I paid for all wood and tools shown. No link here earns me anything."

PARTS = (
    *BEGUN,
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
        "cherry, 13/16, 6, 48, 31.50\nwalnut, 13/16, 7, 48, 49.00\nmaple, 13/16, 8, 48, 37.90\nmaple, 3/8, 3, 36, 9.50",
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
