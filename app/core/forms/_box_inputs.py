"""What a box asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import Closing, Common
from app.core.forms._patterned import MOST_ROWS, Patterned
from app.core.forms._splined import Splined
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm

NONE = Length(0)
JOINTS = ("finger", "rebate", "mitre")
BASES = ("groove", "rebate", "under")
LIDS = ("none", "rebated", "battened", "sliding")


@dataclass(frozen=True, kw_only=True)
class Shape:
    """The box itself and the joint at its corners."""

    length: Length = ask(
        "Length, outside",
        Ask.LENGTH,
        help="Along the sides, from outside to outside.",
    )
    width: Length = ask(
        "Width, outside",
        Ask.LENGTH,
        help="Along the ends, from outside to outside.",
    )
    height: Length = ask(
        "Height, outside", Ask.LENGTH, help="Without a lid that lies on top."
    )
    wall: Length = ask(
        "Wall thickness",
        Ask.LENGTH,
        default=inches("1/2"),
        help="Of sides and ends alike.",
    )
    joint: str = ask(
        "Joint at the corners",
        Ask.CHOICE,
        default="finger",
        choices=JOINTS,
        help="Interlocking fingers, an end let into a rebate, or mitres.",
    )
    cutter: Length = ask(
        "Cutter for the fingers",
        Ask.LENGTH,
        default=inches("1/4"),
        most=mm(60),
        help="The width that one pass cuts: of the bit or the set of blades.",
    )
    finger_passes: int = ask(
        "Cutter widths to a finger",
        Ask.COUNT,
        default=1,
        least=1,
        most=8,
        help="More make fewer, wider fingers.",
    )
    rebate_depth: Length | None = ask(
        "Depth of the corner rebates",
        Ask.LENGTH,
        default=None,
        help="How far an end reaches into a side. Half the wall where left empty.",
    )
    rebate_on: str = ask(
        "The corner rebates are cut in",
        Ask.CHOICE,
        default="sides",
        choices=("sides", "ends"),
        help="What carries the rebates shows its full length.",
    )


@dataclass(frozen=True, kw_only=True)
class Bottom:
    """The base and how it is held."""

    base: str = ask(
        "Base",
        Ask.CHOICE,
        default="groove",
        choices=BASES,
        help="In a groove, in a rebate at the bottom, or under the walls.",
    )
    base_thickness: Length = ask(
        "Base thickness",
        Ask.LENGTH,
        default=inches("1/4"),
        help="As measured: plywood is often thinner than its name.",
    )
    groove_depth: Length | None = ask(
        "Groove depth",
        Ask.LENGTH,
        default=None,
        help="Half the wall where left empty. The base's rebate and the groove of a "
        "sliding lid go by it too.",
    )
    groove_up: Length = ask(
        "Groove up from the bottom",
        Ask.LENGTH,
        default=inches("1/4"),
        help="From the wall's lower edge to the groove's lower side.",
    )
    base_clearance: Length | None = ask(
        "Room for the base",
        Ask.LENGTH,
        default=None,
        least=NONE,
        help="At each edge, to the groove's bottom, so that the base can swell. Left "
        "empty: 1/16 in (1.6 mm) for solid wood, none for plywood.",
    )
    base_material: str = ask(
        "The base is of",
        Ask.CHOICE,
        default="plywood",
        choices=("solid", "plywood"),
        help="Solid wood moves across its grain; plywood hardly does.",
    )
    base_species: tuple[str, ...] | None = ask(
        "Wood of the base",
        Ask.SPECIES,
        default=None,
        help="One; left empty the lowest strip's, or plywood.",
    )
    base_strips: int | None = ask(
        "Strips in the base",
        Ask.COUNT,
        default=None,
        least=1,
        most=30,
        help="Left empty: as many as keep each at 5 in (127 mm) or less.",
    )


@dataclass(frozen=True, kw_only=True)
class Top:
    """The lid and how it stays on."""

    lid: str = ask(
        "Lid",
        Ask.CHOICE,
        default="none",
        choices=LIDS,
        help="Lift-off: rebated all round so that it drops in, or on two battens; "
        "sliding in a groove over a lowered end.",
    )
    lid_thickness: Length = ask(
        "Lid thickness",
        Ask.LENGTH,
        default=inches("1/2"),
        help="Without its battens, where it lies on two.",
    )
    lid_lip: Length | None = ask(
        "How far the lid reaches into the box",
        Ask.LENGTH,
        default=None,
        help="Of a lift-off lid. Half its thickness where left empty.",
    )
    lid_down: Length = ask(
        "Lid groove down from the top",
        Ask.LENGTH,
        default=inches("1/4"),
        help="Of a sliding lid: the wood above its groove.",
    )
    lid_room: Length = ask(
        "Room for the lid",
        Ask.LENGTH,
        default=inches("1/32"),
        least=NONE,
        help="At each edge, so that it can swell and still moves.",
    )
    lid_species: tuple[str, ...] | None = ask(
        "Wood of the lid",
        Ask.SPECIES,
        default=None,
        help="One; the top strip's where left empty.",
    )
    lid_strips: int | None = ask(
        "Strips in the lid",
        Ask.COUNT,
        default=None,
        least=1,
        most=30,
        help="Left empty: as many as keep each at 5 in (127 mm) or less.",
    )


@dataclass(frozen=True, kw_only=True)
class Inside:
    """Dividers, evenly spaced."""

    dividers_across: int = ask(
        "Dividers across, from side to side",
        Ask.COUNT,
        default=0,
        most=30,
        help="Each stands parallel to the ends.",
    )
    dividers_along: int = ask(
        "Dividers along, from end to end",
        Ask.COUNT,
        default=0,
        most=30,
        help="Each stands parallel to the sides.",
    )
    divider_thickness: Length = ask(
        "Divider thickness",
        Ask.LENGTH,
        default=inches("1/8"),
        help="Planed to this before slots or dados are cut.",
    )
    divider_height: Length | None = ask(
        "Divider height",
        Ask.LENGTH,
        default=None,
        help="All the room between base and lid where left empty.",
    )
    dividers_held: str = ask(
        "Dividers stand",
        Ask.CHOICE,
        default="loose",
        choices=("loose", "dados"),
        help="Loose between the walls, or in shallow dados across them.",
    )
    dado_depth: Length | None = ask(
        "Depth of the dados",
        Ask.LENGTH,
        default=None,
        help="A quarter of the wall where left empty.",
    )
    divider_room: Length = ask(
        "Room for the dividers",
        Ask.LENGTH,
        default=inches("1/64"),
        least=NONE,
        help="At each end, and in all in each slot where two cross.",
    )
    divider_species: tuple[str, ...] | None = ask(
        "Wood of the dividers",
        Ask.SPECIES,
        default=None,
        help="One; the lowest strip's where left empty.",
    )


@dataclass(frozen=True, kw_only=True)
class Inputs(Splined, Closing, Common, Patterned, Inside, Top, Bottom, Shape):
    """What a box asks for."""

    species: tuple[str, ...] = ask(
        "Species of the walls, bottom to top",
        Ask.SPECIES,
        default=("walnut",),
        help="One or more, with commas. They repeat from the bottom row up.",
    )
    strip_rows: int = ask(
        "Rows of strips in the walls",
        Ask.COUNT,
        default=1,
        least=1,
        most=MOST_ROWS,
        help="Glued edge to edge, for walls wider than your boards or for a pattern; "
        "the grain runs round.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )


SHAPE_GROUP = (
    "length",
    "width",
    "height",
    "wall",
    "joint",
    "cutter",
    "finger_passes",
    "rebate_depth",
    "rebate_on",
)
BASE_GROUP = (
    "base",
    "base_thickness",
    "groove_depth",
    "groove_up",
    "base_clearance",
    "base_material",
    "base_species",
    "base_strips",
)
LID_GROUP = (
    "lid",
    "lid_thickness",
    "lid_lip",
    "lid_down",
    "lid_room",
    "lid_species",
    "lid_strips",
)
DIVIDER_GROUP = (
    "dividers_across",
    "dividers_along",
    "divider_thickness",
    "divider_height",
    "dividers_held",
    "dado_depth",
    "divider_room",
    "divider_species",
)
