"""What a segmented ring asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import Closing, Common
from app.core.forms._patterned import Patterning
from app.core.forms._turned_inputs import Bottoming
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm
from app.core.pattern_kinds import KINDS

WIDEST = mm(1000)
PROFILE_LIKE = "0: 5 in; 2 in: 8 in; 4 in: 7 in"


@dataclass(frozen=True, kw_only=True)
class Inputs(Common, Closing, Patterning, Bottoming):
    """What a ring, or a stack of rings for a turned profile, asks for."""

    segments: int = ask(
        "Segments in a ring", Ask.COUNT, default=12, least=3, most=24, help="3 to 24."
    )
    outside_diameter: Length | None = ask(
        "Outside diameter, turned",
        Ask.LENGTH,
        default=None,
        most=WIDEST,
        help="Of a single ring. Leave it empty for a stack with a profile.",
    )
    inside_diameter: Length | None = ask(
        "Inside diameter, turned",
        Ask.LENGTH,
        default=None,
        most=WIDEST,
        help="Of a single ring.",
    )
    thickness: Length = ask(
        "Thickness of a ring",
        Ask.LENGTH,
        default=inches("3/4"),
        least=mm(3),
        most=mm(100),
        help="Flattened on both faces.",
    )
    turning_allowance: Length = ask(
        "Turning allowance",
        Ask.LENGTH,
        default=inches("1/8"),
        least=Length(0),
        most=mm(25),
        help="On each radius, outside and inside.",
    )
    profile: str | None = ask(
        "Turned profile",
        Ask.TEXT,
        default=None,
        help="For a stack: a line a level, height and outside diameter, from 0 up, "
        f"like {PROFILE_LIKE}. Straight between them.",
    )
    wall: Length = ask(
        "Wall of the stack, turned",
        Ask.LENGTH,
        default=inches("1/2"),
        help="Level from outside to inside. For a profile only.",
    )
    pattern: str = ask(
        "Pattern of the segments",
        Ask.CHOICE,
        default="alternating",
        choices=KINDS,
        help="Alternating: the species change from segment to segment and from ring "
        "to ring. Bands: each ring of one species. Stepped, mirrored, a blend upwards, "
        "or your own.",
    )
    species: tuple[str, ...] = ask(
        "Species",
        Ask.SPECIES,
        default=("walnut", "maple"),
        help="One or more, with commas. They repeat round the ring or up the stack.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
