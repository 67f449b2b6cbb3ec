"""The build log: an episode's steps, set-ups, notes, photos and captions."""

from __future__ import annotations

from typing import TypeVar

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.core.angle import Angle
from app.core.errors import NotFound
from app.core.length import Length
from app.core.setup import SetUp
from app.store.publishing import chapters, photos, steps
from app.store.schema import (
    CaptionsRow,
    Chapter,
    DesignRow,
    Note,
    Photo,
    SetUpRow,
    StepRow,
)

__all__ = ["captions", "chapters", "notes", "own", "photos", "set_ups", "steps"]

Row = TypeVar("Row", StepRow, Note, Photo, Chapter)
MICRO = 1_000_000


def own(
    work: Session, table: type[Row], episode_id: int, row_id: int, thing: str
) -> Row:
    """A row of this episode, or NotFound naming ``thing``."""
    row = work.get(table, row_id)
    if row is None or row.episode_id != episode_id:
        raise NotFound(f"{thing} is not in this part. Somebody may have removed it.")
    return row


def notes(work: Session, episode_id: int) -> list[Note]:
    """In the order they were written."""
    query = select(Note).where(Note.episode_id == episode_id)
    return list(work.scalars(query.order_by(Note.noted_at, Note.id)))


def captions(work: Session, episode_id: int) -> CaptionsRow | None:
    """The captions of the final cut, if they are there."""
    return work.scalar(select(CaptionsRow).where(CaptionsRow.episode_id == episode_id))


def set_ups(work: Session, episode_id: int) -> dict[str, SetUp]:
    """The machine settings of the episode's design, by key."""
    query = select(SetUpRow).join(DesignRow).where(DesignRow.episode_id == episode_id)
    return {row.key: _set_up(row) for row in work.scalars(query)}


def next_position(work: Session, table: type[Row], episode_id: int) -> int:
    """The place behind the last step or photo."""
    column = StepRow.position if table is StepRow else Photo.position
    query = select(func.max(column)).where(table.episode_id == episode_id)
    last = work.scalar(query)
    return 0 if last is None else last + 1


def _set_up(row: SetUpRow) -> SetUp:
    return SetUp(
        key=row.key,
        machine=row.machine,
        cuts=row.cuts,
        tilt=_angle(row.tilt_microdegrees),
        gauge=_angle(row.gauge_microdegrees),
        fence=None if row.fence_nm is None else Length(row.fence_nm),
        stop=None if row.stop_nm is None else Length(row.stop_nm),
        face_down=row.face_down,
        check=row.check,
        cautions=tuple(row.cautions),
    )


def _angle(microdegrees: int | None) -> Angle | None:
    return None if microdegrees is None else Angle.of(microdegrees / MICRO)
