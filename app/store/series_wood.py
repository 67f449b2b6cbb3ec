"""The plan of a whole series' wood."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.store.series_plan import SeriesPlan


def of_series(work: Session, series_id: int) -> SeriesPlan | None:
    """The plan that stands, or None."""
    return work.scalar(select(SeriesPlan).where(SeriesPlan.series_id == series_id))


def to_fill(work: Session, series_id: int) -> SeriesPlan:
    """The row to write a plan into: the one that stands, a version on, or a new one."""
    row = of_series(work, series_id)
    if row is None:
        row = SeriesPlan(series_id=series_id, version=1)
        work.add(row)
    else:
        row.version += 1
    return row
