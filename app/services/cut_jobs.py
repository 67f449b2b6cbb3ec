"""Cutting jobs that come as a document, for the command line.

A job's numbers are read from its own text: never through binary fractions.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict, dataclass
from decimal import Decimal
from time import perf_counter
from typing import Any

from app.core.cutting.diagram import diagrams as drawn
from app.core.cutting.job import Area, Job
from app.core.cutting.plan import Cut, Layout, Plan
from app.core.cutting.proof import in_words
from app.core.cutting.series import joint
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


@dataclass(frozen=True)
class Answer:
    """One job planned once: its document, and its drawings where they are wanted."""

    plan: Plan
    document: Document

    @property
    def proof(self) -> str:
        """How good the plan is, in one sentence."""
        return in_words(self.plan)

    def drawings(self) -> dict[str, str]:
        """One SVG text for each layout, by the name of its file without suffix."""
        return {one.key: svg(one, standalone=True) for one in drawn(self.plan)}


def cut(
    job: Document,
    *,
    seconds: float | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Answer:
    """Plan a job.

    ``seconds`` bounds the effort, by work that a slow computer does in them, so
    that the same job gives the same plan everywhere. Lengths may take them whole:
    there the plan is the same wherever time was not what ended the search.

    Raises WorkshopError with the path of the input at fault.
    """
    started = perf_counter()
    asked, warnings = read_job(job)
    plan = _solved(asked, seconds, progress)
    ids = _Ids(job)
    document = {
        "layouts": [_layout(one, ids) for one in plan.layouts],
        "unplaced": [
            {"part": ids.part(one.blank), "quantity": one.quantity, "why": one.why}
            for one in plan.unplaced
        ],
        "totals": _totals(plan),
        "levels": [asdict(level) for level in levels(plan)],
        "warnings": warnings,
        "seconds": round(perf_counter() - started, 3),
    }
    return Answer(plan, document)


def cut_document(
    job: Document,
    *,
    seconds: float | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Document:
    """The document that ``stockthread cut`` prints; see ``cut``."""
    return cut(job, seconds=seconds, progress=progress).document


def _no_number(name: str) -> None:
    raise WorkshopError(f"“{name}” in the job is not a number.")


def _solved(
    asked: Job, seconds: float | None, progress: Callable[[int, int], None] | None
) -> Plan:
    planner = planner_for(asked)
    if seconds is None:
        return planner(asked, progress, WORK)
    pace = QUICK if asked.one_dimensional else LOOKS_A_SECOND
    end = perf_counter() + seconds
    work = max(1, int(seconds * pace))
    return planner(asked, progress, work, lambda: end - perf_counter())


def planner_for(asked: Job) -> Callable[..., Plan]:
    """What plans a job: ``solve``, or over several periods what looks across them."""
    return solve if len(asked.periods) < 2 else joint


class _Ids:
    """Ids as the caller wrote them: text, or a whole number."""

    def __init__(self, job: Document) -> None:
        self._stock, self._parts = (
            {str(x["id"]): x["id"] for x in job[n]} for n in LISTS
        )
        self._periods = {str(one): one for one in job.get("periods") or ()}

    def stock(self, key: str) -> object:
        return self._stock[key]

    def part(self, key: str) -> object:
        return self._parts[key]

    def period(self, key: str) -> object:
        """None where there is none; in a job with periods that is the first."""
        first = next(iter(self._periods.values()), None)
        return self._periods[key] if key else first

    def used_in(self, key: str) -> object:
        return self._periods[key] if key else None


def _layout(layout: Layout, ids: _Ids) -> Document:
    return {
        "stock": ids.stock(layout.stock),
        "period": ids.period(layout.period),
        "copies": layout.copies,
        "pieces": [
            {"part": ids.part(one.blank)} | _area(one.area) | {"turned": one.turned}
            for one in layout.pieces
        ],
        "leftovers": [
            _area(one.area) | {"keep": one.keep, "used_in": ids.used_in(one.used_in)}
            for one in layout.leftovers
        ],
        "cuts": [_cut(one, layout, ids) for one in layout.cuts],
    }


def _cut(cut: Cut, layout: Layout, ids: _Ids) -> Document:
    """One cut; what is more than the contract's keys comes after them."""
    return {
        "direction": cut.direction.value,
        "at_nm": cut.at.nm,
        "of_nm": list(_area(cut.of).values()),
        "set_up": cut.set_up,
        "kerf_nm": cut.kerf.nm,
        "number": cut.number,
        "against": cut.against,
        "period": ids.period(cut.period or layout.period),
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
