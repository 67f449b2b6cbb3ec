"""The way of a board: the records that touched it, what it came from and became."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session, aliased, selectinload

from app.store import rack
from app.store.schema import Episode, MovementLine, MovementRow, Series, StockRow


@dataclass(frozen=True, slots=True)
class Share:
    """So many of a pile, or of a part where there is no label."""

    label: str
    name: str
    quantity: int


@dataclass(frozen=True, slots=True)
class Event:
    """One record as a story tells it. Volumes nm³, money minor units."""

    id: int
    kind: str
    on: date
    taken: tuple[Share, ...]
    made: tuple[Share, ...]
    parts: tuple[Share, ...]
    kerf: int
    chips: int
    scrap: int
    paid: int
    written_off: int
    supplier: str
    note: str
    episode_number: int | None
    episode_title: str | None
    series_slug: str | None
    series_title: str | None
    reverses_id: int | None
    undone_by: int | None


@dataclass(frozen=True, slots=True)
class Kin:
    """A pile in a line of descent, ``steps`` away; a part where ``label`` is empty."""

    steps: int
    label: str
    name: str
    kind: str
    quantity: int
    on: date
    series_slug: str | None
    episode_number: int | None


def history(work: Session, stock_id: int) -> tuple[Event, ...]:
    """Every record that touched a pile, in order."""
    touched = select(MovementLine.movement_id).where(MovementLine.stock_id == stock_id)
    return _events(work, MovementRow.id.in_(touched), None)[::-1]


def lately(work: Session, most: int) -> tuple[Event, ...]:
    """The latest records, latest first."""
    return _events(work, MovementRow.id > 0, most)


def of_episode(work: Session, episode_id: int) -> tuple[Event, ...]:
    """The records of one episode, in order."""
    return _events(work, MovementRow.episode_id == episode_id, None)[::-1]


def _events(work: Session, where: object, most: int | None) -> tuple[Event, ...]:
    later = aliased(MovementRow)
    query = (
        select(MovementRow, later.id, Episode, Series)
        .outerjoin(later, later.reverses_id == MovementRow.id)
        .outerjoin(Episode, Episode.id == MovementRow.episode_id)
        .outerjoin(Series, Series.id == Episode.series_id)
        .where(where)  # type: ignore[arg-type]
        .options(selectinload(MovementRow.lines))
        .order_by(MovementRow.id.desc())
        .limit(most)
    )
    rows = work.execute(query).all()
    stock = _stock(work, [row for row, *_ in rows])
    return tuple(
        _event(row, undone_by, episode, series, stock)
        for row, undone_by, episode, series in rows
    )


def _stock(work: Session, rows: Iterable[MovementRow]) -> dict[int, StockRow]:
    ids = {line.stock_id for row in rows for line in row.lines}
    found = work.scalars(select(StockRow).where(StockRow.id.in_(ids)))
    return {row.id: row for row in found}


def _event(
    row: MovementRow,
    undone_by: int | None,
    episode: Episode | None,
    series: Series | None,
    stock: dict[int, StockRow],
) -> Event:
    def side(name: str) -> tuple[Share, ...]:
        return tuple(_share(line, stock) for line in row.lines if line.side == name)

    return Event(
        id=row.id,
        kind=row.kind,
        on=row.on,
        taken=side("taken"),
        made=side("made"),
        parts=side("part"),
        kerf=row.kerf,
        chips=row.chips,
        scrap=row.scrap,
        paid=row.paid,
        written_off=row.written_off,
        supplier=row.supplier,
        note=row.note,
        episode_number=episode.number if episode else None,
        episode_title=episode.title if episode else None,
        series_slug=series.slug if series else None,
        series_title=series.title if series else None,
        reverses_id=row.reverses_id,
        undone_by=undone_by,
    )


def _share(line: MovementLine, stock: dict[int, StockRow]) -> Share:
    if line.stock_id is None:
        return Share("", line.part_name or line.part_key, line.quantity)
    row = stock[line.stock_id]
    return Share(row.label, row.name, line.quantity)


def came_from(work: Session, stock_id: int) -> tuple[Kin, ...]:
    """What a pile was made from, nearest first, as far back as the record goes."""
    return tuple(_back(_Lines(work), stock_id, 1, {stock_id}))


def became(work: Session, stock_id: int) -> tuple[Kin, ...]:
    """What was made from a pile, each followed by what was made from that."""
    return tuple(_on(_Lines(work), stock_id, 1, set()))


class _Lines:
    """The standing movements by what they took and made."""

    def __init__(self, work: Session) -> None:
        query = rack.standing(
            select(MovementRow)
            .options(selectinload(MovementRow.lines))
            .order_by(MovementRow.id)
        )
        self.rows: list[MovementRow] = list(work.scalars(query))
        self.stock = {row.id: row for row in work.scalars(select(StockRow))}
        episodes = select(Episode.id, Episode.number, Series.slug).join(Series)
        self.episodes = {row[0]: (row[2], row[1]) for row in work.execute(episodes)}

    def with_line(self, side: str, stock_id: int) -> Iterator[MovementRow]:
        """The movements with this pile on one side."""
        for row in self.rows:
            if any(x.side == side and x.stock_id == stock_id for x in row.lines):
                yield row

    def kin(self, row: MovementRow, line: MovementLine, steps: int) -> Kin:
        """A line of a movement as kin; a pile's episode is where it came from."""
        episode_id = row.episode_id
        label, name, kind = "", line.part_name, "part"
        if line.stock_id is not None:
            stock = self.stock[line.stock_id]
            label, name, kind = stock.label, stock.name, stock.kind
            episode_id = stock.episode_id
        slug, number = self.episodes.get(episode_id or 0, (None, None))
        return Kin(steps, label, name, kind, line.quantity, row.on, slug, number)


# Each line is told once: four strips of one board all come from that board.
def _back(lines: _Lines, stock_id: int, steps: int, seen: set[int]) -> Iterator[Kin]:
    for row in lines.with_line("made", stock_id):
        for line in row.lines:
            before = line.stock_id
            if line.side != "taken" or before is None or before in seen:
                continue
            seen.add(before)
            yield lines.kin(row, line, steps)
            yield from _back(lines, before, steps + 1, seen)


def _on(lines: _Lines, stock_id: int, steps: int, seen: set[int]) -> Iterator[Kin]:
    for row in lines.with_line("taken", stock_id):
        for line in row.lines:
            if line.side == "taken" or line.id in seen:
                continue
            seen.add(line.id)
            yield lines.kin(row, line, steps)
            if line.stock_id is not None:
                yield from _on(lines, line.stock_id, steps + 1, seen)
