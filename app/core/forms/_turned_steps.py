"""Steps at the lathe and after, alike for rings and staves.

The lathe's cautions stand on every step there: a glued blank is many pieces that
want to fly apart. Times and order are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from app.core.figures import minutes
from app.core.forms import _bench as bench
from app.core.forms._common import Common
from app.core.setup import SetUp
from app.core.step import Step, Supply, Until, Wait

LATHE = (
    "lathe.check-the-joints",
    "lathe.glued-blank",
    "lathe.thrown-work",
    "lathe.tool-rest-gap",
)
# A day from the last glue-up: common practice, no source; the bottle rules.
FULL_STRENGTH = Wait(Until.MACHINE, 24 * 60)
_RECOAT = {
    "oil varnish": "varnish.recoat-oil-varnish-or-oil-polyurethane",
    "waterborne varnish": "waterborne.recoat",
    "penetrating oil": "oil.recoat-pure-tung-oil",
    "shellac": "shellac.recoat-time-first-coats-warm-dry-room",
    "wax": "wax.recoat",
}
_CAUTIONS = {
    "oil varnish": bench.FINISH_CAUTIONS,
    "waterborne varnish": ("brush-or-cloth.vapour",),
    "penetrating oil": bench.FINISH_CAUTIONS,
    "shellac": ("shellac.flammable-liquid", "brush-or-cloth.vapour"),
    "wax": ("wax-finish.fire", "brush-or-cloth.vapour"),
}


def with_cautions(steps: Iterable[Step], set_ups: Iterable[SetUp]) -> tuple[Step, ...]:
    """Each step carries the machine and the cautions of its set-up to the bench."""
    known = {one.key: one for one in set_ups}
    return tuple(_as_set_up(step, known.get(step.set_up)) for step in steps)


def _as_set_up(step: Step, made: SetUp | None) -> Step:
    if made is None:
        return step
    keys = tuple(dict.fromkeys((*step.cautions, *made.cautions)))
    return replace(step, tool=made.machine, cautions=keys)


def check_blank(what: str) -> Step:
    """Every glued blank is looked at before it turns."""
    return Step(
        key="check-blank",
        name="Check the glued blank before it turns",
        tool="lathe",
        detail=f"Tap {what} and listen, flex it by hand, look along every joint "
        "against the light. A dull sound, a dark line or a joint that moves: do not "
        "turn it. Wait until the glue has its full strength.",
        bench_minutes=15,
        waits=(FULL_STRENGTH,),
        cautions=LATHE,
    )


def turn(key: str, name: str, minutes: int, detail: str) -> Step:
    """A cut at the lathe."""
    return Step(
        key=key,
        name=name,
        tool="lathe",
        detail=detail,
        bench_minutes=minutes,
        cautions=LATHE,
    )


ROUND = (
    "Lowest speed first, face shield on, and stand out of the line of the blank while "
    "it starts. Turn it by hand once: nothing touches the rest. Raise the speed only "
    "when it runs round, and stop to look at the joints after the first cuts. "
)


def sanded() -> Step:
    """Sanding as it turns."""
    return Step(
        key="sand-turned",
        name="Sand it on the lathe",
        tool="lathe",
        detail="Slowly, the rest out of the way, P120 to P180, a soft pad moving all "
        "the time; the last grit with the lathe still, along the grain.",
        bench_minutes=30,
        cautions=(*LATHE, *bench.SAND_CAUTIONS),
        supplies=bench.abrasive(120, 180),
    )


def finished(asked: Common) -> list[Step]:
    """Every coat of the finish that was asked for, inside and out."""
    if asked.finish == "none":
        return []
    return [_coat(asked, coat) for coat in range(1, asked.coats + 1)]


def _coat(asked: Common, coat: int) -> Step:
    last = coat == asked.coats
    recoat = Wait(Until.RECOAT, minutes(_RECOAT[asked.finish]))
    scuff = (
        "Thin, and wipe off what stands. "
        if coat == 1
        else ("Scuff lightly with P320 first, and wipe off the dust. ")
    )
    return Step(
        key=f"finish-{coat}",
        name=f"Coat {coat} of {asked.finish}"
        if asked.coats > 1
        else (f"A coat of {asked.finish}"),
        tool="brush or cloth",
        detail=f"{scuff}Inside and outside, with the lathe standing still: a cloth "
        "caught by turning work takes the hand with it.",
        bench_minutes=20,
        waits=(bench.BEFORE_USE if last else recoat,),
        cautions=_CAUTIONS[asked.finish],
        supplies=(Supply(asked.finish),),
    )
