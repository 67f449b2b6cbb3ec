"""The straight vessel's insides, its glue-up and its base."""

from __future__ import annotations

from app.core.forms import _bench as bench
from app.core.forms._common import Common
from app.core.forms._vessel import Vessel
from app.core.step import Step, Supply


def assembly_steps(vessel: Vessel, inputs: Common) -> list[Step]:
    """Insides finished while they lie flat, then the walls glued round."""
    inside = "the inside faces and the base" if vessel.has_base else "the inside faces"
    found = [
        bench.sand(
            "sand-inside", f"Sand {inside}", 10 + 3 * vessel.sides, "Not the bevels."
        ),
        *bench.finishing(
            inputs,
            inside,
            15,
            inside=True,
            first="Before assembly, while they lie flat: squeeze-out then lifts off. "
            "Tape the bevels: glue does not hold on finish.",
        ),
        _glue(vessel),
    ]
    return found if splined_first(vessel) else found + base_last(vessel)


def splined_first(vessel: Vessel) -> bool:
    """Whether the splines' stop block wants the walls' edge free of a base under it."""
    return vessel.base == "under" and vessel.splines is not None


def _glue(vessel: Vessel) -> Step:
    loose = (
        "Slide the base in dry: it must stay free to move. "
        if vessel.base == "groove"
        else ""
    )
    return Step(
        key="assemble",
        name="Glue the walls together",
        tool="clamps",
        detail=f"{loose}A thin coat of glue on every bevel first, since end grain "
        "drinks it; a few minutes later glue again, roll closed, band clamps top and "
        "bottom, then compare the distances across. Peel squeeze-out off the finished "
        "inside when it has gelled.",
        bench_minutes=25,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=(*bench.GLUE_CAUTIONS, "clamps.strap-under-load"),
        supplies=(bench.GLUE, bench.TAPE),
    )


def base_last(vessel: Vessel) -> list[Step]:
    """A base that the walls do not hold: none where they do."""
    if vessel.base not in ("rebate", "under"):
        return []
    return [
        Step(
            key="fix-base",
            name="Fix the base",
            tool="clamps",
            detail="With screws in slotted holes, or glue only along a short middle "
            "piece, so that it can move across its grain.",
            bench_minutes=15,
            supplies=(Supply("screws", f"about {vessel.sides}"),),
        )
    ]
