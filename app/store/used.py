"""The supplies and tools that an episode used beyond its steps."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.store.schema import UsedItem


def of_episode(work: Session, episode_id: int) -> list[UsedItem]:
    """In the order they were added, supplies before tools."""
    query = (
        select(UsedItem)
        .where(UsedItem.episode_id == episode_id)
        .order_by(UsedItem.kind, UsedItem.id)
    )
    return list(work.scalars(query))
