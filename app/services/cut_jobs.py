"""Cutting jobs that come as a document, for the command line.

A job's numbers are read from its own text: never through binary fractions.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict
from decimal import Decimal
from time import perf_counter
from typing import Any

from app.core.cutting.diagram import diagrams as drawn
from app.core.cutting.job import Area
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.solve import WORK, solve
from app.core.cutting.totals import Totals, levels, totals
from app.core.errors import WorkshopError
from app.publish.svg import svg
from app.services.job_file import read_job

Document = dict[str, Any]
# How many looks at a shape a slow computer manages in a second, and how many a
# quick one: lengths stop by the clock before that, if they have not stopped by work.
LOOKS_A_SECOND = 1_500_000
QUICK = 6_000_000
LISTS = ("stock", "parts")


def read(text: str) -> Document:
    """The document in a job file, every number exact.

    Raises WorkshopError where it is not JSON.
    """
    try:
        found = json.loads(text, parse_float=Decimal, parse_constant=_no_number)
    except (ValueError, RecursionError) as error:  # also a number of many figures
        where = f" (line {error.lineno})" if hasattr(error, "lineno") else ""
        raise WorkshopError(f"The job is not a JSON document{where}.") from error
    if not isinstance(found, dict):
        raise WorkshopError('The job is not a JSON object; it begins like {"unit": …}.')
    return found


def cut_document(
    job: Document,
    *,
    seconds: float | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Document:
    """Plan a job: the document that ``stockthread cut`` prints.

    ``seconds`` bounds the effort, by work that a slow computer does in them, so
    that the same job gives the same plan everywhere. Lengths may take them whole:
    there the plan is the same wherever time was not what ended the search.

    Raises WorkshopError with the path of the input at fault.
    """
    started = perf_counter()
    plan, warnings = _solved(job, seconds, progress)
    stock, parts = ({str(one["id"]): one["id"] for one in job[n]} for n in LISTS)
    return {
        "layouts": [_layout(one, stock, parts) for one in plan.layouts],
        "unplaced": [
            {"part": parts[one.blank], "quantity": one.quantity, "why": one.why}
            for one in plan.unplaced
        ],
        "totals": _totals(plan),
        "levels": [asdict(level) for level in levels(plan)],
        "warnings": warnings,
        "seconds": round(perf_counter() - started, 3),
    }


def diagrams(job: Document, *, seconds: float | None = None) -> dict[str, str]:
    """One SVG text for each layout, by the name of its file without suffix."""
    plan, _ = _solved(job, seconds, None)
    return {one.key: svg(one, standalone=True) for one in drawn(plan)}


def _no_number(name: str) -> None:
    raise WorkshopError(f"“{name}” in the job is not a number.")


def _solved(
    job: Document,
    seconds: float | None,
    progress: Callable[[int, int], None] | None,
) -> tuple[Plan, list[str]]:
    asked, warnings = read_job(job)
    if seconds is None:
        return solve(asked, progress, WORK), warnings
    pace = QUICK if asked.one_dimensional else LOOKS_A_SECOND
    end = perf_counter() + seconds
    work = max(1, int(seconds * pace))
    return solve(asked, progress, work, lambda: end - perf_counter()), warnings


def _layout(
    layout: Layout, stock: dict[str, object], parts: dict[str, object]
) -> Document:
    """One layout, with the ids as the caller wrote them."""
    return {
        "stock": stock[layout.stock],
        "period": None,
        "copies": layout.copies,
        "pieces": [
            {"part": parts[piece.blank]} | _area(piece.area) | {"turned": piece.turned}
            for piece in layout.pieces
        ],
        "leftovers": [
            _area(one.area) | {"keep": one.keep, "used_in": None}
            for one in layout.leftovers
        ],
        "cuts": [
            {
                "direction": cut.direction.value,
                "at_nm": cut.at.nm,
                "of_nm": list(_area(cut.of).values()),
                "set_up": cut.set_up,
                "kerf_nm": cut.kerf.nm,
            }
            for cut in layout.cuts
        ],
    }


def _area(area: Area) -> dict[str, int]:
    return {
        "x_nm": area.x.nm,
        "y_nm": area.y.nm,
        "length_nm": area.length.nm,
        "width_nm": area.width.nm,
    }


def _totals(plan: Plan) -> Document:
    sums: Totals = totals(plan)
    flat = plan.job.one_dimensional
    names = ("stock", "parts", "kerf", "offcuts", "scrap")
    measured = {
        (f"length_{name}_nm" if flat else f"area_{name}_nm2"): getattr(sums, name)
        for name in names
    }
    counted = {"cost": sums.cost, "stock_pieces": sums.stock_pieces}
    return counted | measured | {"set_ups": sums.set_ups, "cuts": sums.cuts}
