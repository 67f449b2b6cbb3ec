"""What episodes told their viewers would come."""

from __future__ import annotations

from sqlalchemy import or_, select
from sqlalchemy.orm import Session, aliased

from app.store.schema import Episode, Promise

Told = tuple[Promise, Episode, Episode | None]


def of_series(work: Session, series_id: int) -> list[Told]:
    """Made or kept in this series: open ones first, the next due before others."""
    by, kept = aliased(Episode), aliased(Episode)
    query = (
        select(Promise, by, kept)
        .join(by, by.id == Promise.episode_id)
        .outerjoin(kept, kept.id == Promise.kept_in)
        .where(or_(by.series_id == series_id, kept.series_id == series_id))
        .order_by(
            Promise.kept_in.is_not(None),
            Promise.due_on.is_(None),
            Promise.due_on,
            by.number,
            Promise.video_ms,
            Promise.id,
        )
    )
    return [(row[0], row[1], row[2]) for row in work.execute(query)]
