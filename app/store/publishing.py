"""What a publish pack is made of, and the revisions that were frozen."""

from __future__ import annotations

from typing import TypeVar

from sqlalchemy import select
from sqlalchemy.orm import InstrumentedAttribute, Session

from app.store.schema import (
    Chapter,
    EditedBlock,
    Photo,
    Publication,
    StepRow,
)

Row = TypeVar("Row", StepRow, Chapter, Photo)


def steps(work: Session, episode_id: int) -> list[StepRow]:
    """In the order of the build."""
    return _of(work, StepRow, StepRow.position, episode_id)


def chapters(work: Session, episode_id: int) -> list[Chapter]:
    """In the order of the film."""
    return _of(work, Chapter, Chapter.start_ms, episode_id)


def photos(work: Session, episode_id: int) -> list[Photo]:
    """In the order of the log."""
    return _of(work, Photo, Photo.position, episode_id)


def _of(
    work: Session, table: type[Row], by: InstrumentedAttribute[int], episode_id: int
) -> list[Row]:
    query = select(table).where(table.episode_id == episode_id)
    return list(work.scalars(query.order_by(by, table.id)))


def edited(work: Session, episode_id: int) -> dict[str, EditedBlock]:
    """The maker's own blocks, by their key."""
    query = select(EditedBlock).where(EditedBlock.episode_id == episode_id)
    return {row.key: row for row in work.scalars(query)}


def revisions(work: Session, episode_id: int) -> list[Publication]:
    """Every frozen revision, the latest first."""
    query = select(Publication).where(Publication.episode_id == episode_id)
    return list(work.scalars(query.order_by(Publication.revision.desc())))
