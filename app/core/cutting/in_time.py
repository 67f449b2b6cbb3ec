"""A plan that was served without regard to time, made one that time allows."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from app.core.cutting.layouts import layout
from app.core.cutting.supply import Laid, Run


def in_time(run: Run) -> Run:
    """What can be cut in its period as it lies; all else served period by period.

    A blank that could not wait in a leftover large enough to keep comes from a board
    that is cut when it is wanted. Blanks that no wood is left for stay without a place.
    """
    if len(run.job.periods) < 2:
        return run
    laid = [one for one in run.laid if layout(run.job, one.stock, one.pattern)]
    kept = run.instead(laid)
    for now in range(len(run.job.periods)):
        if any(kept.left):
            kept = run.instead([*kept.laid, *_served_then(kept, now)])
    return kept


def _served_then(kept: Run, now: int) -> list[Laid]:
    """Boards for what one period still wants, out of the stock that is there then."""
    job = kept.job
    used: Counter[int] = Counter()
    for one in kept.laid:
        used[one.stock] += one.copies
    stock = [
        replace(
            one,
            quantity=0
            if job.when(one.period) > now
            else None
            if one.quantity is None
            else one.quantity - used[n],
        )
        for n, one in enumerate(job.stock)
    ]
    blanks = [
        replace(one, quantity=kept.left[n] if job.when(one.period) == now else 0)
        for n, one in enumerate(job.blanks)
    ]
    part = replace(job, stock=tuple(stock), blanks=tuple(blanks))
    run = Run(part, kept.way, kept.meter)
    run.go()
    return run.laid
