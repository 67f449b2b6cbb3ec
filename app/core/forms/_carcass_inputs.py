"""What a carcass asks for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from app.core.forms._common import Common
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm

SOLID = "solid wood"
NONE = Length(0)
SHAPE_GROUP = ("width", "height", "depth")
BOARD_GROUP = (
    "material",
    "species",
    "thickness",
    "strips",
    "edge_strip",
    "edge_species",
)
SHELF_GROUP = ("shelves", "dado_depth", "shelf_load")
BACK_GROUP = ("back", "back_thickness", "back_room", "back_species")
LOOSE_GROUP = (
    "loose_shelves",
    "loose_play",
    "pins",
    "pin_diameter",
    "pin_depth",
    "pin_pitch",
    "pin_inset",
    "pin_clear",
)


@dataclass(frozen=True, kw_only=True)
class Boarded:
    """How large it is, and what it is made of."""

    width: Length = ask(
        "Width outside",
        Ask.LENGTH,
        default=inches("24"),
        help="From the outside of one side to the outside of the other.",
    )
    height: Length = ask(
        "Height outside",
        Ask.LENGTH,
        default=inches("36"),
        help="From under the bottom to the upper face of the top.",
    )
    depth: Length = ask(
        "Depth outside", Ask.LENGTH, default=inches("11"), help="The back included."
    )
    material: str = ask(
        "Boards are of",
        Ask.CHOICE,
        default=SOLID,
        choices=(SOLID, "plywood", "mdf"),
        help="Solid wood moves across its grain; sheets do not.",
    )
    species: tuple[str, ...] = ask(
        "Wood", Ask.SPECIES, default=("white oak",), help="Of solid wood; one species."
    )
    thickness: Length = ask(
        "Thickness of the boards",
        Ask.LENGTH,
        default=inches("3/4"),
        most=mm(100),
        help="Of sides, top, bottom and shelves alike.",
    )
    strips: int | None = ask(
        "Strips in a side",
        Ask.COUNT,
        default=None,
        least=1,
        most=30,
        help="Of solid wood, and as many in the other boards. Left empty: as many as "
        "keep each at 5 in (127 mm) or less.",
    )
    edge_strip: Length = ask(
        "Strip on the front edges",
        Ask.LENGTH,
        default=NONE,
        least=NONE,
        most=mm(100),
        help="Glued on, counted in the depth; nothing: none.",
    )
    edge_species: tuple[str, ...] | None = ask(
        "Wood of the strips",
        Ask.SPECIES,
        default=None,
        help="One species; that of the boards where left empty.",
    )


@dataclass(frozen=True, kw_only=True)
class Shelved:
    """Fixed shelves and what they carry; the back."""

    shelves: int = ask(
        "Fixed shelves",
        Ask.COUNT,
        default=2,
        least=0,
        most=30,
        help="In dadoes, equal spaces between them; top and bottom not counted.",
    )
    dado_depth: Length | None = ask(
        "Dado depth",
        Ask.LENGTH,
        default=None,
        help="A third of the thickness where left empty. The rebates go by it too.",
    )
    shelf_load: Fraction = ask(
        "Load on a shelf, kg per metre",
        Ask.RATIO,
        default=Fraction(25),
        least=Fraction(0),
        most=Fraction(1000),
        help="Spread evenly. A row of books comes to 25 and more.",
    )
    back: str = ask(
        "Back",
        Ask.CHOICE,
        default="plywood",
        choices=("plywood", "mdf", SOLID, "none"),
        help="In a rebate round the back edge.",
    )
    back_thickness: Length = ask(
        "Back thickness",
        Ask.LENGTH,
        default=inches("1/4"),
        help="As measured: sheets are often thinner than their name.",
    )
    back_room: Length | None = ask(
        "Room for the back",
        Ask.LENGTH,
        default=None,
        least=NONE,
        help="At each side, in the rebate. Left empty: 1/8 in (3.2 mm) for solid wood, "
        "none for a sheet.",
    )
    back_species: tuple[str, ...] | None = ask(
        "Wood of the back",
        Ask.SPECIES,
        default=None,
        help="Of solid wood; that of the boards where left empty.",
    )


@dataclass(frozen=True, kw_only=True)
class Adjustable:
    """Shelves on pins, and the rows of holes for them."""

    loose_shelves: int = ask(
        "Adjustable shelves",
        Ask.COUNT,
        default=0,
        least=0,
        most=20,
        help="They lie on pins and can be moved up and down.",
    )
    loose_play: Length = ask(
        "Play of an adjustable shelf",
        Ask.LENGTH,
        default=inches("1/16"),
        help="At each end, and at the front and the back.",
    )
    pins: str = ask(
        "Rows of holes for pins",
        Ask.CHOICE,
        default="no",
        choices=("no", "yes"),
        help="Adjustable shelves have them in any case.",
    )
    pin_diameter: Length = ask(
        "Diameter of the pins",
        Ask.LENGTH,
        default=mm(5),
        most=mm(20),
        help="Measure the pins you have; the holes are as wide.",
    )
    pin_depth: Length = ask(
        "Depth of the holes",
        Ask.LENGTH,
        default=mm(10),
        help="From the inner face of a side; wood must be left behind.",
    )
    pin_pitch: Length = ask(
        "From hole to hole",
        Ask.LENGTH,
        default=inches("1 1/4"),
        least=mm(15),
        help="Centre to centre, up a side.",
    )
    pin_inset: Length = ask(
        "Rows in from the front and from the back",
        Ask.LENGTH,
        default=inches("1 1/2"),
        help="From the front edge, and from the back's inner face, to the "
        "centres of the holes.",
    )
    pin_clear: Length = ask(
        "No holes within",
        Ask.LENGTH,
        default=inches("2"),
        least=NONE,
        help="Of a fixed shelf, the top or the bottom.",
    )


@dataclass(frozen=True)
class Inputs(Boarded, Shelved, Adjustable, Common):
    """A case of two sides, top, bottom, shelves and a back."""
