"""The tapered vessel's insides, its glue-up, its base and its outside.

Times at the bench and the order are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_inputs import Inputs
from app.core.shop import Shop
from app.core.step import Step, Supply


def inside(vessel: Tapered, inputs: Inputs) -> list[Step]:
    """The insides and the base, sanded and finished while they lie flat."""
    what = "the inside faces and the base" if vessel.has_base else "the inside faces"
    minutes = 10 + 3 * vessel.sides
    # What is glued to a finished face later must find bare wood there.
    more = {
        "loose": " and the places of the base's blocks",
        "glued": ", the base's bevels, and the band of the walls that they meet",
    }.get(vessel.base, "")
    first = f"Tape the mitres{more}: glue does not hold on finish."
    return [
        bench.sand("sand-inside", f"Sand {what}", minutes, "Not the mitres."),
        *bench.finishing(inputs, what, 15, inside=True, first=first),
    ]


def assembly(vessel: Tapered, shop: Shop) -> list[Step]:
    """The walls glued round, and the base in its place."""
    size = "Glue on every mitre; end grain drinks it, so size it first and coat again."
    stands = "Stand it on the bench and press it down before the glue grabs."
    glue = Step(
        key="assemble",
        name="Glue the walls together",
        tool="clamps",
        detail=f"{size} Roll closed, tape the last joint, then bands. A band slides to "
        f"the narrow end: hold it with tape or with blocks sawn at {vessel.slope}. "
        f"Compare the distances across at either end. {stands}",
        bench_minutes=25,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=(*bench.GLUE_CAUTIONS, "clamps.strap-under-load"),
        supplies=(bench.GLUE, bench.TAPE),
    )
    return [glue, *_base_last(vessel, shop)]


def _base_last(vessel: Tapered, shop: Shop) -> list[Step]:
    up = shop_text(vessel.base_up, shop)
    first = "" if vessel.out else "Lay the base in from below first. "
    blocks = (
        f"{first}Glue an offcut to the middle of every other wall, its top {up} above "
        "the bench. The base lies on them without glue, the same room at every side: "
        "centre it with slips of card. To keep it from lifting, one pin down into a "
        "single block that its grain runs to; the rest stays free to move."
    )
    wedge = (
        f"Glue on its bevels, in until its lower face is {up} above the bench. Weigh "
        "it down: a wedge drives the walls apart if it is forced."
    )
    slots = (
        "With screws in slotted holes, or glue only along a short middle piece, so "
        "that it can move across its grain."
    )
    told = {
        "loose": ("Lay the base on its blocks", blocks),
        "glued": ("Glue in the base", wedge),
        "under": ("Fix the base", slots),
    }
    if not vessel.has_base:
        return []
    name, detail = told[vessel.base]
    step = Step(key="fix-base", name=name, tool="clamps", detail=detail)
    if vessel.base == "under":
        return [
            replace(
                step,
                bench_minutes=15,
                supplies=(Supply("screws", f"about {vessel.sides}"),),
            )
        ]
    glued = replace(step, bench_minutes=20, waits=(bench.UNCLAMP,))
    return [replace(glued, cautions=bench.GLUE_CAUTIONS, supplies=(bench.GLUE,))]


def outside(vessel: Tapered, inputs: Inputs) -> list[Step]:
    """The rims levelled, then the outside to its last coat."""
    rims = []
    if vessel.bevelled:
        rims.append(
            Step(
                key="level-rims",
                name="Level the top and bottom edges",
                tool="hand plane",
                detail="Rub them on a sheet of abrasive stuck to a flat board until "
                "pencil marks are gone all round, and plane off what stands proud.",
                bench_minutes=15,
                cautions=("hand-plane.cut-hand",),
                supplies=bench.abrasive(120),
            )
        )
    return [
        *rims,
        bench.sand(
            "sand-outside",
            "Sand the outside and ease the edges",
            15 + 3 * vessel.sides,
            "Keep the corners crisp: a few strokes with a block.",
        ),
        *bench.finishing(inputs, "the outside", 20),
    ]
