"""What lies on the rack: nothing but what the movements say."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import case, func, select
from sqlalchemy.orm import Session, aliased

from app.core.errors import NotFound, WorkshopError
from app.core.length import Length
from app.core.movement import MovementKind, PanelStrip, Piece, PieceKind, Taken
from app.core.part import Dimensions
from app.core.volume import share
from app.store.schema import Episode, MovementLine, MovementRow, Series, StockRow

# Work that takes wood off the rack for a build.
WORK = (
    MovementKind.CUT,
    MovementKind.SURFACED,
    MovementKind.GLUED,
    MovementKind.BUILT,
)


@dataclass(frozen=True, slots=True)
class Pile:
    """Equal pieces in one place, as the movements have left them.

    ``cost`` is carried by all of them together, minor units. The episode is
    the one they came out of; None where they were bought or counted in.
    """

    stock_id: int
    label: str
    piece: Piece
    quantity: int
    cost: int
    name: str
    place: str
    part_key: str
    episode_id: int | None
    episode_number: int | None
    series_slug: str | None
    series_id: int | None
    since: date
    version: int = 1
    made_by: int = 0
    episode_title: str | None = None
    series_title: str | None = None

    @property
    def volume(self) -> int:
        """All of them, cubic nanometres."""
        return self.piece.volume * self.quantity

    def taking(self, quantity: int) -> Taken:
        """So many of them with their share of the money; the last take all of it.

        Raises WorkshopError where there are not so many.
        """
        if not self.quantity:
            raise WorkshopError(
                f"{self.label} is used up. If there is some after all, count it again.",
                input="quantity",
            )
        if not 1 <= quantity <= self.quantity:
            raise WorkshopError(
                f"{self.label} has {self.quantity} on the rack; {quantity} cannot be "
                f"taken. Take from 1 to {self.quantity}.",
                input="quantity",
                nearest=str(self.quantity),
            )
        cost, _ = share(self.cost, [quantity, self.quantity - quantity])
        return Taken(self.stock_id, self.piece, quantity, cost)


@dataclass(frozen=True, slots=True)
class WoodUsed:
    """Wood that an episode took from the rack; nm³ and minor units in total.

    The origin is the episode that it was left over from, where there is one.
    """

    stock_id: int
    label: str
    piece: Piece
    quantity: int
    volume: int
    cost: int
    name: str
    origin_id: int | None
    origin_number: int | None
    origin_title: str | None
    origin_video_url: str | None
    origin_series_slug: str | None
    origin_series_id: int | None


def piece(row: StockRow) -> Piece:
    """What one piece of a pile is."""
    size = Dimensions(
        Length(row.length_nm), Length(row.width_nm), Length(row.thickness_nm)
    )
    strips = tuple(
        PanelStrip(strip["species"], Length(strip["width_nm"])) for strip in row.strips
    )
    return Piece(PieceKind(row.kind), row.species, size, strips)


def counts(
    work: Session, stock_ids: Collection[int] | None = None
) -> dict[int, tuple[int, int]]:
    """How many pieces each pile has, and the money they carry."""
    sign = case((MovementLine.side == "made", 1), else_=-1)
    query = (
        select(
            MovementLine.stock_id,
            func.sum(sign * MovementLine.quantity),
            func.sum(sign * MovementLine.cost),
        )
        .where(MovementLine.stock_id.is_not(None))
        .group_by(MovementLine.stock_id)
    )
    if stock_ids is not None:
        query = query.where(MovementLine.stock_id.in_(stock_ids))
    return {
        stock_id: (int(quantity), int(cost))
        for stock_id, quantity, cost in work.execute(query)
    }


def on_hand(work: Session) -> tuple[Pile, ...]:
    """Every pile that has something in it, by species and label."""
    held = {stock_id: has for stock_id, has in counts(work).items() if has[0]}
    rows = work.execute(_with_origin()).all()
    return tuple(_pile(row, held[row[0].id]) for row in rows if row[0].id in held)


def pile(work: Session, label: str) -> Pile:
    """The pile with this label, even when it is used up; NotFound otherwise."""
    row = work.execute(_with_origin().where(StockRow.label == label)).one_or_none()
    if row is None:
        raise NotFound(f"There is no stock labelled “{label}”.")
    return _pile(row, counts(work, [row[0].id]).get(row[0].id, (0, 0)))


def piles(work: Session, stock_ids: Iterable[int]) -> tuple[Pile, ...]:
    """The piles with these ids, in label order, used up ones too."""
    wanted = list(stock_ids)
    held = counts(work, wanted)
    rows = work.execute(_with_origin().where(StockRow.id.in_(wanted))).all()
    return tuple(_pile(row, held.get(row[0].id, (0, 0))) for row in rows)


def _with_origin() -> Any:
    return (
        select(StockRow, MovementRow.on, Episode, Series)
        .join(MovementRow, MovementRow.id == StockRow.made_by)
        .outerjoin(Episode, Episode.id == StockRow.episode_id)
        .outerjoin(Series, Series.id == Episode.series_id)
        .order_by(StockRow.species, StockRow.id)
    )


def _pile(row: Any, has: tuple[int, int]) -> Pile:
    stock, since, episode, series = row
    return Pile(
        stock_id=stock.id,
        label=stock.label,
        piece=piece(stock),
        quantity=has[0],
        cost=has[1],
        name=stock.name,
        place=stock.place,
        part_key=stock.part_key,
        episode_id=stock.episode_id,
        episode_number=episode.number if episode else None,
        series_slug=series.slug if series else None,
        series_id=series.id if series else None,
        since=since,
        version=stock.version,
        made_by=stock.made_by,
        episode_title=episode.title if episode else None,
        series_title=series.title if series else None,
    )


def standing(query: Any) -> Any:
    """Only movements that stand: neither reversed nor a reversal."""
    later = aliased(MovementRow)
    undone = select(later.id).where(later.reverses_id == MovementRow.id).exists()
    return query.where(MovementRow.reverses_id.is_(None), ~undone)


def wood_used(work: Session, episode_id: int) -> tuple[WoodUsed, ...]:
    """What an episode's recorded work took from the rack, in the order taken.

    What the episode made itself on the way (its strips, panels and blanks) is
    not counted again.
    """
    query = (
        select(
            StockRow,
            func.sum(MovementLine.quantity),
            func.sum(MovementLine.cost),
            Episode,
        )
        .join(MovementLine, MovementLine.stock_id == StockRow.id)
        .join(MovementRow, MovementRow.id == MovementLine.movement_id)
        .outerjoin(Episode, Episode.id == StockRow.episode_id)
        .where(
            MovementLine.side == "taken",
            MovementRow.episode_id == episode_id,
            MovementRow.kind.in_(WORK),
            StockRow.episode_id.is_distinct_from(episode_id),
        )
        .group_by(StockRow.id)
        .order_by(func.min(MovementLine.id))
    )
    return tuple(_used(*row) for row in work.execute(standing(query)))


def _used(
    stock: StockRow, quantity: int, cost: int, origin: Episode | None
) -> WoodUsed:
    what = piece(stock)
    return WoodUsed(
        stock_id=stock.id,
        label=stock.label,
        piece=what,
        quantity=quantity,
        volume=what.volume * quantity,
        cost=cost,
        name=stock.name,
        origin_id=origin.id if origin else None,
        origin_number=origin.number if origin else None,
        origin_title=origin.title if origin else None,
        origin_video_url=origin.video_url if origin else None,
        origin_series_slug=origin.series.slug if origin else None,
        origin_series_id=origin.series_id if origin else None,
    )
