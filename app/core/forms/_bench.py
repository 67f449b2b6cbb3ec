"""Steps that many builds share, with their waits.

Waits come from the table of finishing and glue, with their sources; the label
on the bottle rules. Minutes at the bench are common practice, no source.
"""

from __future__ import annotations

from app.core.figures import minutes
from app.core.length import Length, show
from app.core.shop import Shop
from app.core.step import Step, Supply, Until, Wait

UNCLAMP = Wait(Until.UNCLAMP, minutes("pva-glue.clamp-time-unstressed-joint"))
# The joint swells first: planed too soon it sinks later.
BEFORE_PLANING = Wait(
    Until.MACHINE, minutes("pva-glue.wait-after-gluing-before-surfacing-the-joint")
)
RECOAT = Wait(Until.RECOAT, minutes("varnish.recoat-oil-varnish-or-oil-polyurethane"))
BEFORE_USE = Wait(Until.USE, minutes("varnish.light-use-after-last-coat"))

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


def shop_text(length: Length, shop: Shop) -> str:
    """A length as the shop's display shows it, for sentences."""
    return show(length, shop.display).text


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
