"""What the shop's settings would have to allow for a blank without a place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from app.core.cutting.glued import counts, glued, part_and_strips
from app.core.cutting.job import Blank, Job, Resaw, Stock
from app.core.cutting.open_ways import has_wood
from app.core.cutting.plan import Plan
from app.core.cutting.resawn import counts as resawn_counts
from app.core.cutting.resawn import resawn
from app.core.length import inches
from app.core.shop import Shop

# For hints alone: what most shops would say if they were asked.
NARROW = inches("2")
ANY_SAW = Resaw(Shop().resaw_kerf, inches("8"), Shop().resaw_allowance)


def hints(plan: Plan) -> Iterator[str]:
    """Sentences for blanks without a place that glueing up or resawing would give."""
    job = plan.job
    blanks = {blank.id: blank for blank in job.blanks}
    for one in plan.unplaced:
        blank = blanks[one.blank]
        name = blank.name or blank.id
        if blank.narrowest is None and _could_be_strips(blank, job):
            yield (
                f"{name} could be glued up from strips: say under Settings how narrow "
                "they may be."
            )
        if job.resaw is None and (stock := _could_be_resawn(blank, job)):
            yield (
                f"{stock.name or stock.id} is thick enough to be resawn for {name}: "
                "say under Settings how wide a board your saw takes on edge."
            )


def _could_be_strips(blank: Blank, job: Job) -> bool:
    if part_and_strips(blank.id) or has_wood(blank, job):
        return False
    able = replace(blank, narrowest=NARROW)
    return any(
        has_wood(glued(replace(job, blanks=(able,)), {blank.id: strips}).blanks[0], job)
        for strips in counts(able, job.display)
    )


def _could_be_resawn(blank: Blank, job: Job) -> Stock | None:
    if has_wood(blank, job):
        return None
    asked = replace(job, blanks=(blank,), resaw=ANY_SAW)
    for stock in job.stock:
        for boards in resawn_counts(stock, asked):
            thin = replace(asked, stock=(stock,))
            if has_wood(blank, resawn(thin, {stock.id: boards})):
                return stock
    return None
