"""Series and episodes: how they are found, and how far each has come."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session, aliased

from app.core.errors import NotFound
from app.store.base import Base
from app.store.schema import (
    CaptionsRow,
    DesignRow,
    Episode,
    MovementLine,
    MovementRow,
    PlanRow,
    Promise,
    Publication,
    Series,
    StepRow,
    StockRow,
)

# What a part of a series can hold, in a maker's words.
HOLDINGS = {
    "design": "a design",
    "step": "steps",
    "plan": "a cutting plan",
    "movement": "recorded wood",
    "stock": "wood on the rack",
    "note": "notes",
    "photo": "photos",
    "captions": "captions",
    "chapter": "chapters",
    "promise": "promises",
    "used_item": "supplies or tools",
    "edited_block": "a written text",
    "publication": "a publication",
}


@dataclass(frozen=True, slots=True)
class Reached:
    """How far an episode has come."""

    designed: bool = False
    planned: bool = False
    cut_on: date | None = None
    steps: int = 0
    steps_done: int = 0
    captions: bool = False
    published_at: datetime | None = None
    revision: int = 0


def every(work: Session) -> Sequence[Series]:
    """All series, by title."""
    return work.scalars(select(Series).order_by(Series.title, Series.id)).all()


def by_slug(work: Session, slug: str) -> Series:
    """The series with this slug, or NotFound."""
    row = work.scalar(select(Series).where(Series.slug == slug))
    if row is None:
        raise NotFound(
            f"There is no series “{slug}” here. The first page lists those there are."
        )
    return row


def slugs(work: Session) -> set[str]:
    """Every slug in use."""
    return set(work.scalars(select(Series.slug)))


def reached(work: Session, series_ids: Sequence[int]) -> dict[int, Reached]:
    """How far each episode of these series has come, by episode id."""
    ids = list(
        work.scalars(select(Episode.id).where(Episode.series_id.in_(series_ids)))
    )
    designed = _holders(work, DesignRow, ids)
    captioned = _holders(work, CaptionsRow, ids)
    plans = _latest(work, PlanRow.episode_id, func.max(PlanRow.cut_on), ids)
    steps = _latest(work, StepRow.episode_id, func.count(StepRow.id), ids)
    done = _latest(work, StepRow.episode_id, func.count(StepRow.done_at), ids)
    frozen = _latest(work, Publication.episode_id, func.max(Publication.frozen_at), ids)
    revisions = _latest(
        work, Publication.episode_id, func.max(Publication.revision), ids
    )
    return {
        i: Reached(
            designed=i in designed,
            planned=i in plans,
            cut_on=plans.get(i),
            steps=steps.get(i, 0),
            steps_done=done.get(i, 0),
            captions=i in captioned,
            published_at=frozen.get(i),
            revision=revisions.get(i, 0),
        )
        for i in ids
    }


def _holders(
    work: Session, table: type[DesignRow | CaptionsRow], ids: list[int]
) -> set[int]:
    return set(work.scalars(select(table.episode_id).where(table.episode_id.in_(ids))))


def _latest(  # type: ignore[no-untyped-def]
    work: Session, episode_id, what, ids: list[int]
) -> dict:  # type: ignore[type-arg]
    rows = work.execute(
        select(episode_id, what).where(episode_id.in_(ids)).group_by(episode_id)
    )
    return {row[0]: row[1] for row in rows}


def open_promises(work: Session, series_id: int) -> int:
    """How many promises of this series no episode has kept."""
    found = work.scalar(
        select(func.count(Promise.id))
        .join(Episode, Episode.id == Promise.episode_id)
        .where(Episode.series_id == series_id, Promise.kept_in.is_(None))
    )
    return found or 0


def wood_passed(work: Session, series_id: int) -> dict[tuple[int, int], int]:
    """Wood that came out of one episode and was used in another.

    Whole nm³ by (number it came from, number that used it), within one series;
    what was reversed does not count.
    """
    source, user = aliased(Episode), aliased(Episode)
    undoing = aliased(MovementRow)
    rows = work.execute(
        select(source.number, user.number, MovementLine.volume)
        .join(StockRow, StockRow.id == MovementLine.stock_id)
        .join(MovementRow, MovementRow.id == MovementLine.movement_id)
        .join(source, source.id == StockRow.episode_id)
        .join(user, user.id == MovementRow.episode_id)
        .outerjoin(undoing, undoing.reverses_id == MovementRow.id)
        .where(MovementLine.side == "taken", source.id != user.id)
        .where(source.series_id == series_id, user.series_id == series_id)
        .where(undoing.id.is_(None), MovementRow.reverses_id.is_(None))
    )
    passed: defaultdict[tuple[int, int], int] = defaultdict(int)
    for number_from, number_to, volume in rows:
        passed[number_from, number_to] += volume
    return dict(passed)


def holdings(work: Session, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
    """What hangs on each of these episodes, in words; nothing where it is empty."""
    found: dict[int, dict[str, None]] = {i: {} for i in ids}
    for table in Base.metadata.sorted_tables:
        word = HOLDINGS.get(table.name, table.name.replace("_", " "))
        for column in table.columns:
            if any(key.column.table.name == "episode" for key in column.foreign_keys):
                holders = select(column).where(column.in_(ids)).distinct()
                for i in work.scalars(holders):
                    found[i][word] = None
    return {i: tuple(words) for i, words in found.items()}
