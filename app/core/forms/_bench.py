"""Steps that many builds share, with their waits.

Waits are the middle figures of suppliers' guidance and trade practice; the
label on the bottle rules. Minutes at the bench are common practice, no source.
"""

from __future__ import annotations

from app.core.step import Step, Supply, Until, Wait

# PVA glue: clamp 45 min (30 to 90) and full strength 24 h by supplier guidance;
# 24 h before surfacing, as the joint swells first: trade practice.
UNCLAMP = Wait(Until.UNCLAMP, 45)
BEFORE_PLANING = Wait(Until.MACHINE, 24 * 60)
# Oil varnish: recoat 24 h (12 to 24), light use 24 h after the last coat.
RECOAT = Wait(Until.RECOAT, 24 * 60)
BEFORE_USE = Wait(Until.USE, 24 * 60)

GLUE = Supply("PVA wood glue")
FINISH = Supply("oil varnish")
TAPE = Supply("masking tape")
GLUE_CAUTIONS = ("clamps.falling-or-pinch", "glue-up.rushed-clamping")
FINISH_CAUTIONS = (
    "brush-or-cloth.oily-rags",
    "brush-or-cloth.vapour",
    "oil-varnish.rags",
)
SAND_CAUTIONS = ("random-orbital-sander.dust", "sanding.wood-dust")


def abrasive(*grits: int) -> tuple[Supply, ...]:
    """Sanding discs of these P grades."""
    return tuple(Supply(f"P{grit} abrasive") for grit in grits)


def joint_stock(minutes: int, detail: str) -> Step:
    """One face and one edge of every board made true."""
    return Step(
        key="joint-stock",
        name="Joint a face and an edge of the stock",
        tool="jointer",
        detail=detail,
        bench_minutes=minutes,
        cautions=(
            "jointer.short-stock",
            "jointer.hands-over-cutter",
            "jointer.heavy-cut",
        ),
    )


def plane_stock(minutes: int, detail: str) -> Step:
    """The other face made parallel, a little over thickness."""
    return Step(
        key="plane-stock",
        name="Plane the stock a little over thickness",
        tool="thickness planer",
        detail=detail,
        bench_minutes=minutes,
        cautions=PLANER,
    )


PLANER = (
    "thickness-planer.short-stock",
    "thickness-planer.kickback",
    "thickness-planer.deep-cut",
)


def sand(key: str, name: str, minutes: int, detail: str) -> Step:
    """Sanding up to P180, where a film finish still grips."""
    return Step(
        key=key,
        name=name,
        tool="random orbital sander",
        detail=detail,
        bench_minutes=minutes,
        cautions=SAND_CAUTIONS,
        supplies=abrasive(120, 180),
    )


def finish(key: str, name: str, minutes: int, detail: str, wait: Wait) -> Step:
    """A coat of oil varnish."""
    return Step(
        key=key,
        name=name,
        tool="brush or cloth",
        detail=detail,
        bench_minutes=minutes,
        waits=(wait,),
        cautions=FINISH_CAUTIONS,
        supplies=(FINISH,),
    )
