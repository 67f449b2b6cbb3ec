"""What a tapered vessel asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import Closing, Common
from app.core.forms._patterned import Patterned
from app.core.forms._tapered import MOST_STRIPS
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm

NONE = Length(0)


@dataclass(frozen=True)
class Inputs(Patterned, Common, Closing):
    """What a vessel with splayed sides asks for; both sizes across are outside."""

    sides: int = ask("Sides", Ask.COUNT, default=6, least=3, most=16, help="3 to 16.")
    top_inscribed: Length = ask(
        "Top, outside across the flats",
        Ask.LENGTH,
        default=inches("8"),
        help="The circle that touches every outer face at its upper edge. Less than "
        "the bottom where the sides lean in.",
    )
    bottom_inscribed: Length = ask(
        "Bottom, outside across the flats",
        Ask.LENGTH,
        default=inches("6"),
        help="The circle that touches every outer face at its lower edge.",
    )
    height: Length = ask(
        "Height as it stands",
        Ask.LENGTH,
        default=inches("5"),
        help="Of the walls, upright, not along the slope.",
    )
    wall: Length = ask(
        "Wall thickness",
        Ask.LENGTH,
        default=inches("1/2"),
        help="Square to the face.",
    )
    edges: str = ask(
        "Top and bottom edges",
        Ask.CHOICE,
        default="level",
        choices=("level", "square"),
        help="Level: bevelled, so that they lie flat on the bench. Square: left at a "
        "right angle to the face, as they come off the jointer.",
    )
    cut_from: str | None = ask(
        "Walls are cut",
        Ask.CHOICE,
        default=None,
        choices=("head to tail", "one by one"),
        help="Head to tail: from one long piece that is rolled over for every cut, "
        "the narrow end beside the wide one. Left empty: where it saves wood of a "
        "panel whose strips allow it.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
    base: str = ask(
        "Base",
        Ask.CHOICE,
        default="loose",
        choices=("loose", "glued", "under", "none"),
        help="Inside the walls with bevelled edges, loose on blocks with room to move "
        "or glued all round; under the walls; or none.",
    )
    base_thickness: Length = ask(
        "Base thickness",
        Ask.LENGTH,
        default=inches("1/4"),
        help="As planed, before its edges are bevelled.",
    )
    base_up: Length | None = ask(
        "Base up from the bottom",
        Ask.LENGTH,
        default=None,
        least=NONE,
        help="From where the walls stand to the base's lower face. Left empty: 1/2 in "
        "(12.7 mm) where the walls have room.",
    )
    base_clearance: Length = ask(
        "Room for a loose base",
        Ask.LENGTH,
        default=inches("1/16"),
        help="At each flat, so that the base can swell.",
    )
    base_species: tuple[str, ...] | None = ask(
        "Wood of the base",
        Ask.SPECIES,
        default=None,
        help="One species; the first of the walls' where left empty.",
    )
    base_strips: int | None = ask(
        "Strips in the base",
        Ask.COUNT,
        default=None,
        least=1,
        most=MOST_STRIPS,
        help="Left empty: as many as keep each at 5 in (127 mm) or less.",
    )
