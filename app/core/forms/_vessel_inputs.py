"""What a straight vessel asks for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm

ACROSS = (
    "outside_side",
    "outside_inscribed",
    "outside_circumscribed",
    "inside_inscribed",
)
NONE = Length(0)


@dataclass(frozen=True)
class Inputs:
    """What a straight-sided vessel asks for; one of the four sizes across."""

    sides: int = ask("Sides", Ask.COUNT, default=6, least=3, most=16, help="3 to 16.")
    outside_side: Length | None = ask(
        "Outside side", Ask.LENGTH, default=None, help="One side, corner to corner."
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
    height: Length = ask("Height of the walls", Ask.LENGTH, default=inches("6"))
    wall: Length = ask("Wall thickness", Ask.LENGTH, default=inches("1/2"))
    base: str = ask(
        "Base",
        Ask.CHOICE,
        default="groove",
        choices=("groove", "rebate", "under", "none"),
        help="In a groove, in a rebate at the bottom, under the walls, or none.",
    )
    base_thickness: Length = ask("Base thickness", Ask.LENGTH, default=inches("1/4"))
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
        most=30,
        help="Left empty: as many as keep each at 5 in (127 mm) or less.",
    )
    strip_rows: int = ask(
        "Rows of strips",
        Ask.COUNT,
        default=3,
        least=1,
        most=40,
        help="Glued edge to edge; the grain runs round the vessel.",
    )
    species: tuple[str, ...] = ask(
        "Species, bottom to top",
        Ask.SPECIES,
        default=("walnut", "maple"),
        help="One or more, with commas. They repeat from the bottom row up.",
    )
    panels: int = ask(
        "Wall panels",
        Ask.COUNT,
        default=1,
        least=1,
        most=16,
        help="How many panels the walls are cut from, where one would be too long.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
    splines_per_corner: int = ask(
        "Splines at each corner", Ask.COUNT, default=0, least=0, most=20
    )
    spline_thickness: Length = ask(
        "Spline thickness", Ask.LENGTH, default=inches("1/8"), most=mm(25)
    )
    spline_depth_share: Fraction = ask(
        "Spline depth, share of the corner",
        Ask.RATIO,
        default=Fraction(1, 2),
        least=Fraction(1, 20),
        most=Fraction(9, 10),
        help="Of the wood at the corner, measured towards the middle.",
    )
    spline_species: tuple[str, ...] | None = ask(
        "Wood of the splines",
        Ask.SPECIES,
        default=None,
        help="One species; the last of the rows' where left empty.",
    )
