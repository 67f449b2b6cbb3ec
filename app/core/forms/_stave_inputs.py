"""What a stave cylinder asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import Closing, Common
from app.core.forms._turned_inputs import Bottoming
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm

WIDEST = mm(1000)
THICKEST = mm(120)


@dataclass(frozen=True, kw_only=True)
class Inputs(Common, Closing, Bottoming):
    """What a cylinder of bevelled staves asks for."""

    staves: int = ask(
        "Staves", Ask.COUNT, default=12, least=3, most=24, help="3 to 24."
    )
    outside_diameter: Length = ask(
        "Outside diameter, turned",
        Ask.LENGTH,
        default=inches("6"),
        most=WIDEST,
        help="Of the finished cylinder, off the lathe.",
    )
    inside_diameter: Length = ask(
        "Inside diameter, turned",
        Ask.LENGTH,
        default=inches("5"),
        most=WIDEST,
        help="Of the finished hollow, off the lathe.",
    )
    height: Length = ask(
        "Height of the staves",
        Ask.LENGTH,
        default=inches("8"),
        least=mm(20),
        most=mm(1200),
        help="Without a bottom under them.",
    )
    turning_allowance: Length = ask(
        "Turning allowance",
        Ask.LENGTH,
        default=Length(0),
        least=Length(0),
        most=mm(25),
        help="On each radius, outside and inside. About 1/8 in (3 mm) is usual.",
    )
    thickness: Length | None = ask(
        "Thickness of the staves",
        Ask.LENGTH,
        default=None,
        help="The least that holds both circles where left empty; more lies inside.",
    )
    species: tuple[str, ...] = ask(
        "Species round the staves",
        Ask.SPECIES,
        default=("walnut", "maple"),
        help="One or more, with commas. They repeat round the cylinder.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
