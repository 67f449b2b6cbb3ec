"""Records of wood that the tests of the store make."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core import receiving
from app.core.length import inches
from app.core.movement import (
    Made,
    Movement,
    Piece,
    PieceKind,
)
from app.core.part import Dimensions
from app.store import movements, rack
from app.store.rack import Pile
from app.store.schema import Episode, MovementRow, Series
from tests.conftest import NOON

DAY = date(2026, 3, 2)


def board(species: str = "walnut", length: str = "96") -> Piece:
    size = Dimensions(inches(length), inches("6"), inches("1"))
    return Piece(PieceKind.BOARD, species, size)


def put(
    work: Session, movement: Movement, episode_id: int | None = None
) -> MovementRow:
    return movements.record(
        work,
        movement,
        on=DAY,
        now=NOON,
        zone="UTC",
        currency="USD",
        episode_id=episode_id,
    )


def take_back(work: Session, movement_id: int) -> MovementRow:
    return movements.reverse(
        work, movement_id, on=DAY, now=NOON, zone="UTC", note="a mistake"
    )


def bought(work: Session, piece: Piece, quantity: int = 1, paid: int = 0) -> Pile:
    row = put(work, receiving.bought([Made(piece, quantity)], paid))
    return rack.piles(work, [row.lines[0].stock_id or 0])[0]


def part_one(work: Session, number: int = 1) -> int:
    series = work.scalar(select(Series)) or Series(slug="porch", title="Porch pieces")
    episode = Episode(number=number, slug="tray", title="Tray")
    series.episodes.append(episode)
    work.add(series)
    work.flush()
    return episode.id
