"""Each board gone over once more by itself: the same blanks, easier to saw.

A way through a whole job saws every board in the same manner; what suits one
board may have the next one cut into short pieces before they are ripped.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from app.core.cutting.effort import Work
from app.core.cutting.job import Job
from app.core.cutting.order import changes, sawing_order
from app.core.cutting.pattern import Pattern
from app.core.cutting.plan import Direction
from app.core.cutting.relaid import fewest_changes
from app.core.cutting.strategy import strategies
from app.core.cutting.supply import Laid, Run, used_up
from app.core.length import mm

# Too short for most machines: the rule of thumb of the cautions, under
# 'any powered machine, short stock'.
SHORT = mm(300)


def refined(job: Job, laid: list[Laid], meter: Work) -> list[Laid]:
    """The same boards with the same blanks and no smaller offcuts.

    Fewer rips of short pieces come first, then fewer set-ups, then fewer cuts.
    Boards after ``meter`` has run out keep their rounds of cuts.
    """
    found = [
        one if meter.spent > meter.most else _better(job, one, meter) for one in laid
    ]
    boards = [(one.pattern, job.stock[one.stock]) for one in found]
    return [
        replace(one, pattern=pattern)
        for one, pattern in zip(found, fewest_changes(job, boards), strict=True)
    ]


def _better(job: Job, laid: Laid, meter: Work) -> Laid:
    found = [laid, *_again(job, laid, meter)]
    return min(found, key=lambda one: _effort(job, one))


def _again(job: Job, laid: Laid, meter: Work) -> list[Laid]:
    """Every other way that puts the same blanks on this board alone."""
    needs = Counter(shape.blank for shape, _ in laid.pattern.pieces)
    blanks = [replace(one, quantity=needs[n]) for n, one in enumerate(job.blanks)]
    stock = replace(job.stock[laid.stock], quantity=1)
    alone = replace(job, stock=(stock,), blanks=tuple(blanks))
    found = []
    for way in strategies(alone):
        run = Run(alone, way, meter)
        run.go()
        if len(run.laid) == 1 and not any(run.left):
            found.append(Laid(laid.stock, run.laid[0].pattern, laid.copies))
    return found


def _effort(job: Job, laid: Laid) -> tuple[int, ...]:
    cuts = laid.pattern.cuts
    return (
        used_up(job, laid),
        sum(rips_short(cut.direction, cut.box[2]) for cut in cuts),
        _settings(job, laid.pattern),
        len(cuts),
    )


def _settings(job: Job, pattern: Pattern) -> int:
    return changes(sawing_order(pattern.cuts, job.display))


def rips_short(direction: Direction, length: int) -> bool:
    """Whether a cut rips a piece that is too short to; ``length`` in nm."""
    return direction is Direction.RIP and length < SHORT.nm
