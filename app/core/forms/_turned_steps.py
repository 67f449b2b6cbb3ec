"""Steps at the lathe and after, alike for rings and staves.

The lathe's cautions stand on every step there: a glued blank is many pieces that
want to fly apart. Times and order are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

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
        "against the light, those of the waste block or plugs too. A dull sound, a "
        "dark line or a joint that moves: do not turn it. Turn it no sooner than the "
        "glue has its full strength.",
        bench_minutes=15,
        cautions=LATHE,
    )


def mount(name: str, detail: str) -> Step:
    """Waste blocks or plugs glued on, and the blank brought between the centres.

    What holds it is a glue joint like the others: it waits for its full strength.
    """
    return Step(
        key="mount",
        name=name,
        tool="lathe",
        detail=detail,
        bench_minutes=25,
        waits=(bench.UNCLAMP, FULL_STRENGTH),
        cautions=(*LATHE, *bench.GLUE_CAUTIONS),
        supplies=(bench.GLUE, Supply("scrap wood to hold the blank by")),
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


STILL = (
    "With the lathe standing still: a cloth caught by turning work takes the hand "
    "with it."
)


def finished(asked: Common) -> list[Step]:
    """Every coat of the finish that was asked for, inside and out."""
    return [
        replace(step, detail=f"{step.detail} {STILL}")
        for step in bench.finishing(asked, "the inside and the outside", 20)
    ]
