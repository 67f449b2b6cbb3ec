"""What a laminated board asks for."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.forms._common import FINISHES, Common
from app.core.forms._patterned import MOST_ROWS, Patterning
from app.core.inputs import Ask, ask
from app.core.length import Length, inches, mm
from app.core.pattern_kinds import KINDS

NONE = Length(0)
GRAINS = ("edge", "end")
GROOVES = ("none", "one face", "both faces")


@dataclass(frozen=True)
class Inputs(Patterning, Common):
    """What a laminated board asks for."""

    length: Length = ask(
        "Length",
        Ask.LENGTH,
        default=inches("16"),
        least=mm(50),
        most=mm(2400),
        help="Finished. Strips of edge grain run this way; slices of end grain "
        "lie side by side along it.",
    )
    width: Length = ask(
        "Width",
        Ask.LENGTH,
        default=inches("10"),
        least=mm(50),
        most=mm(1200),
        help="Finished. The strips share it evenly.",
    )
    thickness: Length = ask(
        "Thickness",
        Ask.LENGTH,
        default=inches("1 1/4"),
        least=mm(6),
        most=mm(150),
        help="Finished, both faces flattened.",
    )
    grain: str = ask(
        "Grain on the face",
        Ask.CHOICE,
        default="edge",
        choices=GRAINS,
        help="Edge: strips run along the board, one glue-up. End: the ends of the "
        "strips are the face, two glue-ups.",
    )
    strip_width: Length = ask(
        "Width of a strip on the face",
        Ask.LENGTH,
        default=inches("1 1/2"),
        least=mm(6),
        most=mm(300),
        help="At most; the strips share the board's width evenly.",
    )
    slice_width: Length | None = ask(
        "Width of a slice on the face, end grain",
        Ask.LENGTH,
        default=None,
        least=mm(6),
        most=mm(300),
        help="At most: how thick the first panel is planed. As wide as a strip where "
        "left empty; the slices share the board's length evenly.",
    )
    species: tuple[str, ...] = ask(
        "Species, front to back",
        Ask.SPECIES,
        default=("walnut", "maple"),
        help="One or more, with commas. They repeat from the front strip on.",
    )
    pattern: str = ask(
        "Pattern of the strips",
        Ask.CHOICE,
        default="bands",
        choices=KINDS,
        help="Bands alike in every slice; alternating from slice to slice too; bands "
        "stepped on at each slice; mirrored about the middle strip; a blend from the "
        "first species in front to the second behind; or your own. A board of edge "
        "grain has one slice.",
    )
    blend_rows: int | None = ask(
        "Strips of the blend",
        Ask.COUNT,
        default=None,
        most=MOST_ROWS,
        help="Over so many in the middle. Left empty: all but the first and the last.",
    )
    step_rows: int = ask(
        "Strips stepped on at each slice",
        Ask.COUNT,
        default=1,
        least=1,
        most=MOST_ROWS,
        help="With a stepped pattern: how far the bands move on from slice to slice.",
    )
    own_pattern: str | None = ask(
        "Your own pattern",
        Ask.TEXT,
        default=None,
        help="A line a strip, the one at the back first; slices from left to right set "
        "apart by |. One species stands for all slices.",
    )
    juice_groove: str = ask(
        "Juice groove",
        Ask.CHOICE,
        default="none",
        choices=GROOVES,
        help="All round, near the edge, to catch what runs off.",
    )
    groove_width: Length = ask(
        "Groove width",
        Ask.LENGTH,
        default=inches("3/8"),
        most=mm(40),
        help="Across it, at the face.",
    )
    groove_depth: Length = ask(
        "Groove depth",
        Ask.LENGTH,
        default=inches("3/16"),
        most=mm(40),
        help="At its deepest, down from the face.",
    )
    groove_inset: Length = ask(
        "Groove in from the edge",
        Ask.LENGTH,
        default=inches("3/4"),
        most=mm(200),
        help="From the board's edge to the groove's near side.",
    )
    feet: int = ask(
        "Feet screwed on underneath",
        Ask.COUNT,
        default=0,
        least=0,
        most=8,
        help="They let air under the board. Without any, both faces are of use.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
    finish: str = ask(
        "Finish",
        Ask.CHOICE,
        default="penetrating oil",
        choices=FINISHES,
        help="What meets food must be fit for it once cured: its label says so.",
    )
