"""What a mitred tray or frame asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import Closing, Common
from app.core.forms._splined import Splined
from app.core.inputs import Ask, ask
from app.core.length import Length, inches

SHEETS = ("plywood", "MDF", "glass")
SOLID = "solid wood"
ACROSS = ("length", "width", "inscribed")
RAIL_GROUP = ("rail_width", "rail_height", "species", "moulding_length", "kerf")
PANEL_GROUP = (
    "panel",
    "panel_material",
    "panel_thickness",
    "groove_depth",
    "groove_up",
    "panel_room",
    "panel_species",
    "panel_strips",
)
NONE = Length(0)


@dataclass(frozen=True, kw_only=True)
class Railed:
    """How large it is, and the moulding it is made of."""

    sides: int = ask("Sides", Ask.COUNT, default=4, least=3, most=12, help="3 to 12.")
    length: Length | None = ask(
        "Length outside",
        Ask.LENGTH,
        default=None,
        help="With 4 sides, which need it; else left empty.",
    )
    width: Length | None = ask(
        "Width outside",
        Ask.LENGTH,
        default=None,
        help="With 4 sides, which need it; else left empty.",
    )
    inscribed: Length | None = ask(
        "Outside, across the flats",
        Ask.LENGTH,
        default=None,
        help="Any other number of sides needs it: the circle that touches every one.",
    )
    rail_width: Length = ask(
        "Rail width",
        Ask.LENGTH,
        default=inches("3/4"),
        help="Seen from above, from the outside to the inside.",
    )
    rail_height: Length = ask(
        "Rail height",
        Ask.LENGTH,
        default=inches("1 1/2"),
        help="From the lower edge to the upper one, as the tray stands.",
    )
    species: tuple[str, ...] = ask(
        "Wood of the rails", Ask.SPECIES, default=("black walnut",), help="One species."
    )
    moulding_length: Length = ask(
        "Length of a moulding",
        Ask.LENGTH,
        default=inches("96"),
        help="The lengths the rails are cut from.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, help="The shop's where left empty."
    )


@dataclass(frozen=True, kw_only=True)
class Panelled:
    """The panel and how the rails hold it."""

    panel: str = ask(
        "Panel",
        Ask.CHOICE,
        default="groove",
        choices=("groove", "rebate", "none"),
        help="In a groove, in a rebate along the lower edge, or none.",
    )
    panel_material: str = ask(
        "Panel is of",
        Ask.CHOICE,
        default="plywood",
        choices=(SOLID, *(name.lower() for name in SHEETS)),
        help="Solid wood moves across its grain; sheets and glass do not.",
    )
    panel_thickness: Length = ask(
        "Panel thickness",
        Ask.LENGTH,
        default=inches("1/4"),
        help="As measured: sheets are often thinner than their name. The groove "
        "is as wide.",
    )
    groove_depth: Length | None = ask(
        "Groove depth",
        Ask.LENGTH,
        default=None,
        help="Half the rail, 3/8 in (9.5 mm) at most, where left empty. A rebate goes "
        "by it too.",
    )
    groove_up: Length = ask(
        "Groove up from the bottom",
        Ask.LENGTH,
        default=inches("1/4"),
        least=NONE,
        help="From the rail's lower edge to the groove's lower side.",
    )
    panel_room: Length | None = ask(
        "Room for the panel",
        Ask.LENGTH,
        default=None,
        least=NONE,
        help="At each side, to the groove's bottom. Left empty: 1/16 in (1.6 mm) for "
        "solid wood, none for a sheet.",
    )
    panel_species: tuple[str, ...] | None = ask(
        "Wood of the panel",
        Ask.SPECIES,
        default=None,
        help="Of solid wood; the rails' where left empty.",
    )
    panel_strips: int | None = ask(
        "Strips in the panel",
        Ask.COUNT,
        default=None,
        least=1,
        most=30,
        help="Of solid wood. Left empty: as many as keep each at 5 in (127 mm) or "
        "less.",
    )


@dataclass(frozen=True)
class Inputs(Railed, Panelled, Splined, Closing, Common):
    """A tray or a frame: rails mitred at the corners round a panel."""
