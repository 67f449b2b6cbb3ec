"""What is to be minded at which cut of a plan, as keys of the caution table.

The figures are those that the cautions name; they are reminders and defer to the
manual of the machine, to local codes and to licensed practice.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from app.core.cutting.against import RAW
from app.core.cutting.fit import within_limits
from app.core.cutting.job import Job, Stock
from app.core.cutting.order import sequence
from app.core.cutting.plan import Cut, Direction, Plan
from app.core.cutting.refine import SHORT as LONG_ENOUGH
from app.core.cutting.refine import rips_short
from app.core.cutting.sawn import NARROW, SHORT, THIN, box, extent, sides
from app.core.length import mm

# A sheet this large both ways pulls itself off the fence. Common practice, no source.
HEAVY_LENGTH, HEAVY_WIDTH = mm(1200), mm(600)


@dataclass(frozen=True, slots=True)
class Minded:
    """A caution by its key, and the numbers of the cuts that it is for."""

    key: str
    cuts: tuple[int, ...]


def minded(plan: Plan) -> tuple[Minded, ...]:
    """The cautions that some cuts of a plan call for, beside those of every cut."""
    stock = {one.id: one for one in plan.job.stock}
    found: dict[str, list[int]] = {key: [] for key, _ in ASKED}
    for layout, cut in sequence(plan):
        for key, asks in ASKED:
            if asks(cut, stock[layout.stock], plan.job):
                found[key].append(cut.number)
    return tuple(Minded(key, tuple(cuts)) for key, cuts in found.items() if cuts)


Asks = Callable[[Cut, Stock, Job], bool]


def _beyond(cut: Cut, stock: Stock, job: Job) -> bool:
    # What has no width is crosscut through no more than the machine takes.
    return not within_limits(cut.direction, box(cut.of), job.machine)


def _short(cut: Cut, stock: Stock, job: Job) -> bool:
    return rips_short(cut.direction, cut.of.length.nm)


def _thin(cut: Cut, stock: Stock, job: Job) -> bool:
    if cut.direction is not Direction.RIP or cut.trim:
        return False
    return any(extent(cut.direction, side) < THIN for side in sides(cut))


def _narrow(cut: Cut, stock: Stock, job: Job) -> bool:
    ripped = cut.direction is Direction.RIP and not cut.trim
    return ripped and cut.setting.nm < NARROW


def _by_a_block(cut: Cut, stock: Stock, job: Job) -> bool:
    across = cut.direction is Direction.CROSSCUT and not cut.trim
    return across and cut.setting.nm < SHORT


def _hard_to_hold(cut: Cut, stock: Stock, job: Job) -> bool:
    return cut.direction is Direction.CROSSCUT and cut.of.length < LONG_ENOUGH


def _unjointed(cut: Cut, stock: Stock, job: Job) -> bool:
    rough = RAW in cut.against or "no edge is straight" in cut.against
    return cut.direction is Direction.RIP and rough


def _heavy(cut: Cut, stock: Stock, job: Job) -> bool:
    return cut.of.length >= HEAVY_LENGTH and cut.of.width >= HEAVY_WIDTH


def _knotty(cut: Cut, stock: Stock, job: Job) -> bool:
    return bool(stock.defects)


ASKED: tuple[tuple[str, Asks], ...] = (
    ("powered-machine.beyond-its-limits", _beyond),
    ("powered-machine.short-stock", _short),
    ("table-saw.thin-strip", _thin),
    ("table-saw.hands-near-blade", _narrow),
    ("table-saw.fence-as-stop", _by_a_block),
    ("crosscut-sled.short-piece", _hard_to_hold),
    ("table-saw.warped-stock", _unjointed),
    ("table-saw.loss-of-control", _heavy),
    ("powered-machine.hidden-metal-or-loose-knots", _knotty),
)
