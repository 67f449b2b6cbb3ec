"""What an episode's work put back onto the rack, and where the rest went."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session, selectinload

from app.core.movement import Piece, PieceKind, offcut_of
from app.store import rack
from app.store.schema import MovementRow, StockRow


@dataclass(frozen=True, slots=True)
class LeftOver:
    """Equal pieces left of one pile that the episode took; their money together."""

    of_stock_id: int
    piece: Piece
    quantity: int
    cost: int


@dataclass(frozen=True, slots=True)
class Went:
    """Where the wood went that an episode took and did not leave over, nm³.

    ``waiting`` lies on the rack for its build still; ``gone`` was lost, thrown
    out or counted away since.
    """

    parts: int
    kerf: int
    chips: int
    scrap: int
    waiting: int
    gone: int


def left_over(work: Session, episode_id: int) -> tuple[LeftOver, ...]:
    """What the episode left of each pile it took, by the records of its work.

    An offcut that the same episode sawed up later is not left over; what came of
    it counts for the board that it was cut from.
    """
    own = _own(work, episode_id)
    net: Counter[int] = Counter()
    money: Counter[int] = Counter()
    parents: dict[int, int] = {}
    for row in _work_of(work, episode_id):
        for line in row.lines:
            stock = own.get(line.stock_id or 0)
            if stock is not None and _is_left(stock):
                sign = 1 if line.side == "made" else -1
                net[stock.id] += sign * line.quantity
                money[stock.id] += sign * line.cost
        parents |= _sources(work, row, own)
    return tuple(_gathered(net, money, parents, own))


def _gathered(
    net: Counter[int],
    money: Counter[int],
    parents: dict[int, int],
    own: dict[int, StockRow],
) -> Iterator[LeftOver]:
    """What is left of each pile that was taken, equal pieces together."""
    found: dict[tuple[int, Piece], list[int]] = defaultdict(lambda: [0, 0])
    for stock_id, quantity in net.items():
        root = _root(stock_id, parents)
        if quantity > 0 and root not in own:
            sums = found[root, rack.piece(own[stock_id])]
            sums[0] += quantity
            sums[1] += money[stock_id]
    for (root, piece), (quantity, cost) in found.items():
        yield LeftOver(root, piece, quantity, cost)


def went(work: Session, episode_id: int) -> Went:
    """The rest, from the records of the episode's work and what waits on the rack."""
    rows = _work_of(work, episode_id)
    own = _own(work, episode_id)
    sums: Counter[str] = Counter()
    put_by = 0
    for row in rows:
        for pile in ("kerf", "chips", "scrap"):
            sums[pile] += getattr(row, pile)
        for line in row.lines:
            sums["parts"] += line.volume if line.side == "part" else 0
            stock = own.get(line.stock_id or 0)
            if stock is not None and not _is_left(stock):
                put_by += line.volume if line.side == "made" else -line.volume
    kept = [stock.id for stock in own.values() if not _is_left(stock)]
    waiting = sum(pile.volume for pile in rack.piles(work, kept))
    return Went(**sums, waiting=min(waiting, put_by), gone=max(put_by - waiting, 0))


def _work_of(work: Session, episode_id: int) -> list[MovementRow]:
    query = (
        select(MovementRow)
        .where(MovementRow.episode_id == episode_id, MovementRow.kind.in_(rack.WORK))
        .options(selectinload(MovementRow.lines))
        .order_by(MovementRow.id)
    )
    return list(work.scalars(rack.standing(query)))


def _own(work: Session, episode_id: int) -> dict[int, StockRow]:
    rows = work.scalars(select(StockRow).where(StockRow.episode_id == episode_id))
    return {row.id: row for row in rows}


def _is_left(stock: StockRow) -> bool:
    """Not a blank, strip or panel that waits for its build."""
    return not stock.part_key and stock.kind in (
        PieceKind.OFFCUT,
        PieceKind.BOARD,
        PieceKind.SHEET,
    )


def _sources(
    work: Session, row: MovementRow, own: dict[int, StockRow]
) -> dict[int, int]:
    """The pile that each leftover of one record came from, by the ids of both."""
    ids = [line.stock_id for line in row.lines if line.side == "taken"]
    taken = [work.get_one(StockRow, stock_id) for stock_id in ids]
    made = [
        own[x.stock_id] for x in row.lines if x.side == "made" and x.stock_id in own
    ]
    found = ((one, _source(one, taken)) for one in made if _is_left(one))
    return {one.id: source.id for one, source in found if source is not None}


def _source(made: StockRow, taken: list[StockRow]) -> StockRow | None:
    """Which of the piles that a record took a leftover was cut from.

    Its name says so. Where piles were given new labels since, it is the largest
    that it could have come out of.
    """
    named = [one for one in taken if made.name == offcut_of(one.label)]
    if named or len(taken) == 1:
        return (named or taken)[0]
    could = [one for one in taken if _holds(one, made)]
    return max(could, key=lambda one: rack.piece(one).volume, default=None)


def _holds(stock: StockRow, made: StockRow) -> bool:
    return (
        stock.species == made.species
        and stock.thickness_nm >= made.thickness_nm
        and stock.length_nm >= made.length_nm
        and stock.width_nm >= made.width_nm
    )


def _root(stock_id: int, parents: dict[int, int]) -> int:
    while stock_id in parents:
        stock_id = parents[stock_id]
    return stock_id
