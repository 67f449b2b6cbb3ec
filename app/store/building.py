"""How far an episode's build has come, by what its movements say."""

from __future__ import annotations

from collections import Counter

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.movement import MovementKind
from app.store import rack
from app.store.rack import Pile
from app.store.schema import MovementLine, MovementRow, StockRow


def waiting(work: Session, episode_id: int) -> dict[str, tuple[Pile, ...]]:
    """The episode's strips, blanks and panels on the rack, by their key."""
    found: dict[str, list[Pile]] = {}
    for pile in rack.on_hand(work):
        if pile.episode_id == episode_id and pile.part_key:
            found.setdefault(pile.part_key, []).append(pile)
    return {key: tuple(piles) for key, piles in found.items()}


def glued(work: Session, episode_id: int) -> Counter[str]:
    """How many panels were glued up, by the glue-up's key."""
    query = (
        select(StockRow.part_key, MovementLine.quantity)
        .select_from(MovementRow)
        .join(MovementLine, MovementLine.movement_id == MovementRow.id)
        .join(StockRow, StockRow.id == MovementLine.stock_id)
        .where(
            MovementRow.episode_id == episode_id,
            MovementRow.kind == MovementKind.GLUED,
            MovementLine.side == "made",
        )
    )
    return _counted(work, query)


def finished(work: Session, episode_id: int) -> Counter[str]:
    """How many parts were built, by the part's key."""
    query = (
        select(MovementLine.part_key, MovementLine.quantity)
        .select_from(MovementRow)
        .join(MovementLine, MovementLine.movement_id == MovementRow.id)
        .where(MovementRow.episode_id == episode_id, MovementLine.side == "part")
    )
    return _counted(work, query)


def _counted(work: Session, query: object) -> Counter[str]:
    found: Counter[str] = Counter()
    for key, quantity in work.execute(rack.standing(query)):
        found[key] += quantity
    return found
