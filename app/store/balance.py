"""The books of the wood: sums over movements, and whether every one is sound."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from app.core.errors import NotFound
from app.core.movement import Line, Movement, Unbalanced, reversal
from app.store import movements, rack
from app.store.schema import Episode, MovementRow, StockRow


@dataclass(frozen=True, slots=True)
class Balance:
    """Sums of movements. Volumes in cubic nanometres, money in minor units.

    ``kept`` is what came onto the rack less what left it.
    """

    from_outside: int
    to_outside: int
    kept: int
    parts: int
    kerf: int
    chips: int
    scrap: int
    paid: int
    written_off: int
    kept_cost: int
    parts_cost: int

    @property
    def exact(self) -> bool:
        """Whether wood and money balance to the last unit."""
        waste = self.kerf + self.chips + self.scrap
        wood = self.kept + self.parts + waste + self.to_outside
        money = self.kept_cost + self.parts_cost + self.written_off
        return (self.from_outside, self.paid) == (wood, money)


def of_workspace(work: Session) -> Balance:
    """Everything that ever happened; what was undone counts not at all."""
    return _summed(work, rack.standing(select(MovementRow)))


def of_series(work: Session, series_id: int) -> Balance:
    """What the episodes of a series did.

    ``kept`` is below zero where they used up wood that was there before.
    """
    query = (
        select(MovementRow)
        .join(Episode, Episode.id == MovementRow.episode_id)
        .where(Episode.series_id == series_id)
    )
    return _summed(work, rack.standing(query))


def of_episode(work: Session, episode_id: int) -> Balance:
    """What one episode did."""
    query = select(MovementRow).where(MovementRow.episode_id == episode_id)
    return _summed(work, rack.standing(query))


def _summed(work: Session, query: Any) -> Balance:
    rows = list(work.scalars(query.options(selectinload(MovementRow.lines))))
    volumes: Counter[str] = Counter()
    costs: Counter[str] = Counter()
    for row in rows:
        for line in row.lines:
            volumes[line.side] += line.volume
            costs[line.side] += line.cost
    names = ("from_outside", "to_outside", "kerf", "chips", "scrap")
    return Balance(
        **{name: sum(getattr(row, name) for row in rows) for name in names},
        kept=volumes["made"] - volumes["taken"],
        parts=volumes["part"],
        paid=sum(row.paid for row in rows),
        written_off=sum(row.written_off for row in rows),
        kept_cost=costs["made"] - costs["taken"],
        parts_cost=costs["part"],
    )


def verify(work: Session) -> str | None:
    """What is wrong with the first unsound record, in a sentence; None if all is well.

    Every movement balances, each line is so many whole pieces, a reversal
    mirrors what it takes back, and replayed in order no pile falls below zero.
    """
    held: Counter[int] = Counter()
    money: Counter[int] = Counter()
    query = select(MovementRow).options(selectinload(MovementRow.lines))
    for row in work.scalars(query.order_by(MovementRow.id)):
        for fault in _faults(work, row, held, money):
            return f"{movements.named(row)}: {fault}"
    return _stray(work)


def _faults(
    work: Session, row: MovementRow, held: Counter[int], money: Counter[int]
) -> Iterable[str]:
    try:
        movement = movements.as_movement(work, row)
    except (NotFound, Unbalanced, ValueError) as error:
        yield str(error)
        return
    lines: tuple[Line, ...] = (*movement.taken, *movement.made, *movement.parts)
    stored = sorted((line.quantity, line.volume) for line in row.lines)
    if stored != sorted((line.quantity, line.volume) for line in lines):
        yield "a line's volume is not that of its pieces."
    if row.reverses_id is not None:
        yield from _no_mirror(work, row, movement)
    yield from _replayed(work, movement, held, money)


def _no_mirror(work: Session, row: MovementRow, movement: Movement) -> Iterable[str]:
    first = work.get(MovementRow, row.reverses_id)
    if first is None or first.id >= row.id:
        yield "it takes back a record that was not there before it."
    elif reversal(movements.as_movement(work, first), movement.note) != movement:
        yield f"it does not mirror record {first.id}, which it takes back."


def _replayed(
    work: Session, movement: Movement, held: Counter[int], money: Counter[int]
) -> Iterable[str]:
    for line in movement.taken:
        held[line.stock_id] -= line.quantity
        money[line.stock_id] -= line.cost
    for made in movement.made:
        held[made.stock_id or 0] += made.quantity
        money[made.stock_id or 0] += made.cost
    touched = {line.stock_id for line in movement.taken}
    touched |= {line.stock_id or 0 for line in movement.made}
    for stock_id in sorted(touched):
        left, cost = held[stock_id], money[stock_id]
        if left < 0:
            label = work.get_one(StockRow, stock_id).label
            yield f"it takes more of {label} than there was."
        elif cost < 0 or (cost and not left):
            label = work.get_one(StockRow, stock_id).label
            yield f"the money that {label} carried does not go with its pieces."


def _stray(work: Session) -> str | None:
    """A pile that no movement put there."""
    for stock in work.scalars(select(StockRow).order_by(StockRow.id)):
        row = work.get(MovementRow, stock.made_by)
        lines = row.lines if row else []
        if not any(line.side == "made" and line.stock_id == stock.id for line in lines):
            return f"Stock {stock.label} was put on the rack by no record."
    return None
