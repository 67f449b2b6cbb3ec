"""Episodes: one build and its video."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.errors import NotFound
from app.store.schema import Episode, Series
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class EpisodeView:
    """An episode as pages and other services see it."""

    id: int
    version: int
    series_id: int
    series_slug: str
    series_title: str
    number: int
    slug: str
    title: str
    opening: str
    introduces: str
    due_on: date | None
    video_url: str
    length_ms: int | None


def find(workspace: Workspace, series_slug: str, number: int) -> EpisodeView:
    """The episode with this number in this series, or NotFound."""
    with workspace.read() as work:
        return view(within(work, series_slug, number))


def within(work: Session, series_slug: str, number: int) -> Episode:
    """The episode's row, inside a transaction that is open already."""
    row = work.scalar(
        select(Episode)
        .join(Series)
        .where(Series.slug == series_slug, Episode.number == number)
    )
    if row is None:
        raise NotFound(f"There is no part {number} in the series “{series_slug}”.")
    return row


def view(row: Episode) -> EpisodeView:
    """A row as a frozen value."""
    return EpisodeView(
        id=row.id,
        version=row.version,
        series_id=row.series_id,
        series_slug=row.series.slug,
        series_title=row.series.title,
        number=row.number,
        slug=row.slug,
        title=row.title,
        opening=row.opening,
        introduces=row.introduces,
        due_on=row.due_on,
        video_url=row.video_url,
        length_ms=row.length_ms,
    )
