"""What a straight vessel asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import Closing, Common
from app.core.forms._patterned import Patterned
from app.core.forms._splined import Splined
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm
from app.core.volume_typed import Volume

ACROSS = (
    "outside_side",
    "outside_inscribed",
    "outside_circumscribed",
    "inside_inscribed",
    "inside_volume",
)
BASE_GROUP = (
    "base",
    "base_thickness",
    "groove_depth",
    "groove_up",
    "base_clearance",
    "base_species",
    "base_strips",
)
LID_GROUP = (
    "lid",
    "lid_thickness",
    "lid_lip",
    "lid_room",
    "lid_overhang",
    "lid_species",
)
NONE = Length(0)


@dataclass(frozen=True, kw_only=True)
class Sized:
    """How large it is: one of the sizes across, or what it holds."""

    sides: int = ask("Sides", Ask.COUNT, default=6, least=3, most=16, help="3 to 16.")
    outside_side: Length | None = ask(
        "Outside side",
        Ask.LENGTH,
        default=None,
        help="One side, corner to corner. One size across is given, or what it holds.",
    )
    outside_inscribed: Length | None = ask(
        "Outside, across the flats",
        Ask.LENGTH,
        default=None,
        help="The circle that touches every side.",
    )
    outside_circumscribed: Length | None = ask(
        "Outside, through the corners",
        Ask.LENGTH,
        default=None,
        help="The circle through every corner.",
    )
    inside_inscribed: Length | None = ask(
        "Inside, across the flats",
        Ask.LENGTH,
        default=None,
        help="The largest round thing that goes in.",
    )
    inside_volume: Volume | None = ask(
        "What it holds",
        Ask.VOLUME,
        default=None,
        help="Up to the top of the walls, base in, lid off: 2 l, 750 ml, 120 in3, "
        "1 qt or 1 gal (US). A bare number is in cubic inches, or in litres in a shop "
        "that works in millimetres. The height stays; the width follows.",
    )
    height: Length = ask(
        "Height of the walls",
        Ask.LENGTH,
        default=inches("6"),
        help="Without a lid, and without a base under them.",
    )
    wall: Length = ask(
        "Wall thickness",
        Ask.LENGTH,
        default=inches("1/2"),
        help="As planed, the same all round.",
    )


@dataclass(frozen=True, kw_only=True)
class Based:
    """The bottom."""

    base: str = ask(
        "Base",
        Ask.CHOICE,
        default="groove",
        choices=("groove", "rebate", "under", "none"),
        help="In a groove, in a rebate at the bottom, under the walls, or none.",
    )
    base_thickness: Length = ask(
        "Base thickness",
        Ask.LENGTH,
        default=inches("1/4"),
        help="As planed. A groove for it is as wide.",
    )
    groove_depth: Length | None = ask(
        "Groove depth",
        Ask.LENGTH,
        default=None,
        help="Half the wall where left empty. A rebate goes by it too.",
    )
    groove_up: Length = ask(
        "Groove up from the bottom",
        Ask.LENGTH,
        default=inches("1/4"),
        least=NONE,
        help="From the wall's lower edge to the groove's lower side.",
    )
    base_clearance: Length = ask(
        "Room for the base",
        Ask.LENGTH,
        default=inches("1/16"),
        least=NONE,
        help="At each flat, to the groove's bottom, so that the base can swell.",
    )
    base_species: tuple[str, ...] | None = ask(
        "Wood of the base",
        Ask.SPECIES,
        default=None,
        help="One species; the lowest row's where left empty.",
    )
    base_strips: int | None = ask(
        "Strips in the base",
        Ask.COUNT,
        default=None,
        least=1,
        most=60,
        help="Left empty: as many as keep each at 5 in (127 mm) or less.",
    )


@dataclass(frozen=True, kw_only=True)
class Lidded:
    """A lid that lifts off, or none."""

    lid: str = ask(
        "Lid",
        Ask.CHOICE,
        default="none",
        choices=("none", "plug", "rebate"),
        help="Lifts off. A plug is a second plate glued under it that drops inside; a "
        "rebate round the underside of one thick plate leaves such a plug.",
    )
    lid_thickness: Length = ask(
        "Lid thickness",
        Ask.LENGTH,
        default=inches("3/8"),
        help="What lies on the walls.",
    )
    lid_lip: Length = ask(
        "Lid reaches inside by", Ask.LENGTH, default=inches("1/4"), help="Below it."
    )
    lid_room: Length = ask(
        "Room for the lid",
        Ask.LENGTH,
        default=inches("1/16"),
        least=NONE,
        help="At each flat, between the plug and the walls, so that it can swell.",
    )
    lid_overhang: Length = ask(
        "Lid stands out by",
        Ask.LENGTH,
        default=NONE,
        least=NONE,
        most=mm(300),
        help="Beyond the walls at each flat; nothing leaves it flush.",
    )
    lid_species: tuple[str, ...] | None = ask(
        "Wood of the lid",
        Ask.SPECIES,
        default=None,
        help="One species; the base's where left empty.",
    )


@dataclass(frozen=True, kw_only=True)
class Inputs(Common, Closing, Splined, Lidded, Based, Patterned, Sized):
    """What a straight-sided vessel asks for; one of the five that size it."""

    panels: int = ask(
        "Wall panels",
        Ask.COUNT,
        default=1,
        least=1,
        most=16,
        help="How many panels the walls are cut from where they are alike and one "
        "would be too long. Where they differ the least wood settles it.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
