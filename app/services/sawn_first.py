"""Boards of a plan that are resawn before anything is cut from them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from sqlalchemy.orm import Session

from app.core.cutting.outcome import used
from app.core.cutting.plan import Plan
from app.core.cutting.resawn import told
from app.core.errors import WorkshopError
from app.core.movement import Movement, Taken
from app.core.resawing import resawn
from app.store import rack
from app.store.rack import Pile
from app.store.schema import MovementRow

Record = Callable[[Movement], MovementRow]


def taken(work: Session, plan: Plan, record: Record) -> tuple[Plan, dict[str, Taken]]:
    """What the plan takes off the rack, once what it resaws is resawn.

    ``record`` puts down a movement of the same day. The plan comes back with the
    labels of the boards that came of it. Raises WorkshopError where the rack does
    not have what the plan takes.
    """
    piles = {pile.label: pile for pile in rack.on_hand(work)}
    by_id = dict(piles)
    for one in told(plan):
        by_id |= _sawn(work, plan, one.stock, piles, record)
    names = {key: pile.label for key, pile in by_id.items()}
    stock = tuple(
        replace(one, name=names.get(one.id, one.name)) for one in plan.job.stock
    )
    found = {key: _pile(by_id, key).taking(n) for key, n in used(plan).items()}
    return replace(plan, job=replace(plan.job, stock=stock)), found


def _pile(piles: Mapping[str, Pile], key: str) -> Pile:
    # A part of a series may want the other half of a board that it does not resaw.
    if key not in piles:
        raise WorkshopError(
            f"{key} is not on the rack. Plan the cuts of this part again; nothing was "
            "marked as cut."
        )
    return piles[key]


def _sawn(
    work: Session, plan: Plan, key: str, piles: dict[str, Pile], record: Record
) -> dict[str, Pile]:
    """One pile resawn: the new piles by what the plan calls their boards."""
    one = next(x for x in told(plan) if x.stock == key)
    assert plan.job.resaw is not None
    movement = resawn(
        piles[key].taking(one.quantity), one.boards, one.thickness, plan.job.resaw.kerf
    )
    row = record(movement)
    made = [line.stock_id for line in row.lines if line.side == "made"]
    found = {pile.stock_id: pile for pile in rack.piles(work, filter(None, made))}
    return {
        f"{key} resawn {number}/{one.boards}": found[stock_id or 0]
        for number, stock_id in enumerate(made, 1)
    }
