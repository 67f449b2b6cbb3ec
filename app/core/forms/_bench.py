"""Steps that many builds share, with their waits.

Waits come from the table of finishing and glue, with their sources; the label
on the bottle rules. Minutes at the bench are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.figures import minutes
from app.core.finishes import finish as finish_of
from app.core.forms._common import Common
from app.core.length import Length, inches, show
from app.core.part import Dimensions
from app.core.shop import Shop
from app.core.step import Step, Supply, Until, Wait

UNCLAMP = Wait(Until.UNCLAMP, minutes("pva-glue.clamp-time-unstressed-joint"))
# The joint swells first: planed too soon it sinks later.
BEFORE_PLANING = Wait(
    Until.MACHINE, minutes("pva-glue.wait-after-gluing-before-surfacing-the-joint")
)
BEFORE_USE = Wait(Until.USE, minutes("varnish.light-use-after-last-coat"))

GLUE = Supply("PVA wood glue")
FINISH = Supply("oil varnish")
TAPE = Supply("masking tape", "one roll")
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


# Thinner stock flutters in the planer: common practice, no source.
THIN = inches("1/4")
PLANER = (
    "thickness-planer.short-stock",
    "thickness-planer.kickback",
    "thickness-planer.deep-cut",
)


def glued_panel(
    key: str, name: str, strips: int, order: str, shop: Shop, panel: Dimensions
) -> list[Step]:
    """Strips to a planed panel: ``panel`` is its finished size.

    ``order`` says how the strips lie. The set-up of the rip has the key ``rip-key``.
    """
    joint = f"joint-{key}", f"Joint the edges of the strips for the {name}"
    return [
        Step(
            key=f"rip-{key}",
            name=f"Rip the strips for the {name}",
            tool="table saw",
            set_up=f"rip-{key}",
            bench_minutes=8 + 3 * strips,
        ),
        _jointed(*joint, panel.length, 5 + 2 * strips, shop),
        Step(
            key=f"glue-{key}",
            name=f"Glue up the {name}",
            tool="clamps",
            detail=f"{order} Clean off the squeeze-out before it is hard.",
            bench_minutes=15 + 2 * strips,
            waits=(UNCLAMP, BEFORE_PLANING),
            cautions=GLUE_CAUTIONS,
            supplies=(GLUE,),
        ),
        planed(f"plane-{key}", name, panel, shop, glued=True),
    ]


def _jointed(key: str, name: str, length: Length, minutes: int, shop: Shop) -> Step:
    """Edges that shut, by the machine or, where they are too short for it, by hand."""
    detail = "Both edges down to the finished width; joints shut without clamps."
    least = shop_text(shop.shortest_jointed, shop)
    if length < shop.shortest_jointed:
        return Step(
            key=key,
            name=name,
            tool="hand plane",
            detail=f"{detail} Shorter than the {least} that is safe on the jointer: "
            "use a shooting board.",
            bench_minutes=minutes * 2,
            cautions=("hand-plane.cut-hand",),
        )
    return Step(
        key=key,
        name=name,
        tool="jointer",
        detail=detail,
        bench_minutes=minutes,
        cautions=("jointer.hands-over-cutter", "jointer.guard-missing"),
    )


def planed(
    key: str,
    name: str,
    size: Dimensions,
    shop: Shop,
    *,
    glued: bool = False,
    end_grain: bool = False,
) -> Step:
    """Bringing ``name`` to its final thickness by what its size allows.

    ``size`` is the piece as it goes to the machine. End grain never goes through
    a thickness planer; nor does what is shorter or wider than the shop's limits.
    """
    to = shop_text(size.thickness + shop.sanding * 2, shop)
    scrape = "Scrape off any glue first: it dulls the knives. " if glued else ""
    if end_grain or size.width > shop.widest_planed:
        why = (
            "End grain splinters in a thickness planer and may be thrown back."
            if end_grain
            else f"Wider than the {shop_text(shop.widest_planed, shop)} that the "
            "planer takes. A dealer may surface it for a fee."
        )
        return Step(
            key=key,
            name=f"Level the {name} to {to}",
            tool="hand plane",
            detail=f"{scrape}{why} Work across both faces with winding sticks.",
            bench_minutes=40,
            cautions=("hand-plane.cut-hand",),
        )
    short = ""
    if size.length < shop.shortest_planed:
        first = (
            "glue a runner of scrap, longer than that, along either edge"
            if glued
            else "plane it before it is cut to length"
        )
        short = (
            f" Shorter than the {shop_text(shop.shortest_planed, shop)} that is safe "
            f"in the planer: {first}, or use a hand plane."
        )
    made = Step(
        key=key,
        name=f"Plane the {name} to {to}",
        tool="thickness planer",
        detail=f"{scrape}Take both faces in turn.{short}",
        bench_minutes=15 if glued else 10,
        cautions=PLANER,
    )
    return carried(made, size.thickness)


def carried(step: Step, thickness: Length) -> Step:
    """On a carrier board where it is planed to less than most planers take."""
    if thickness >= THIN:
        return step
    return replace(
        step,
        detail=f"{step.detail} So thin, it lies on a carrier board.",
        cautions=(*step.cautions, "thickness-planer.thin-stock"),
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


SCUFF = (Supply("P320 abrasive", "1 sheet"),)
_ORDER = (
    *("First", "Second", "Third", "Fourth", "Fifth"),
    *("Sixth", "Seventh", "Eighth", "Ninth", "Tenth"),
)


def finishing(
    inputs: Common,
    where: str,
    minutes: int,
    *,
    inside: bool = False,
    first: str = "",
) -> list[Step]:
    """Every coat of the chosen finish on ``where`` (``the outside``), with its waits.

    The keys are ``finish-1``, ``finish-2`` …; ``inside``, for what is finished before
    it is assembled, gives ``finish-inside``, ``finish-inside-2`` … and waits for the
    next coat instead of for use. ``minutes`` are at the bench for each coat. ``first``
    is said before the first coat (``Tape the bevels …``). No finish: no steps.
    """
    chosen = finish_of(inputs.finish)
    if chosen is None:
        return []
    found = []
    for coat in range(1, inputs.coats + 1):
        key = "finish-inside" if inside else "finish"
        last = coat == inputs.coats and not inside
        detail = f"{first} {chosen.first}".strip() if coat == 1 else chosen.later
        step = Step(
            key=key if inside and coat == 1 else f"{key}-{coat}",
            name=f"{_ORDER[coat - 1]} coat of {chosen.name} on {where}",
            tool="brush or cloth",
            detail=detail,
            bench_minutes=minutes,
            waits=(
                Wait(Until.USE, chosen.use_minutes)
                if last
                else Wait(Until.RECOAT, chosen.recoat_minutes),
            ),
            cautions=chosen.cautions,
            supplies=(
                Supply(chosen.name),
                *(SCUFF if chosen.film and coat > 1 else ()),
            ),
        )
        found.append(step)
    return found
