"""Episodes: one build and its video."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from urllib.parse import urlsplit

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.day import read_day
from app.core.errors import NotFound, WorkshopError
from app.core.slug import free_slug
from app.services.series import read_title
from app.store import series as store
from app.store.edits import check_version
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


def add(
    workspace: Workspace, series_slug: str, title: str, introduces: str, due: str
) -> int:
    """Add a part at the end of a series; gives its number."""
    title, due_on = read_title(title), read_day(due, input="due_on")
    with workspace.write() as work:
        series = store.by_slug(work, series_slug)
        number = max((row.number for row in series.episodes), default=0) + 1
        series.episodes.append(
            Episode(
                number=number,
                slug=free_slug(title, {row.slug for row in series.episodes}, "part"),
                title=title,
                introduces=introduces.strip(),
                due_on=due_on,
            )
        )
    return number


def plan(
    workspace: Workspace,
    series_slug: str,
    number: int,
    version: int,
    title: str,
    introduces: str,
    due: str,
) -> None:
    """Change what the plan says of a part."""
    title, due_on = read_title(title), read_day(due, input="due_on")
    with workspace.write() as work:
        row = within(work, series_slug, number)
        check_version(row, version, f"Part {number}", _as_typed(row))
        row.title, row.introduces, row.due_on = title, introduces.strip(), due_on


def save_head(
    workspace: Workspace,
    series_slug: str,
    number: int,
    version: int,
    title: str,
    opening: str,
    due: str,
    video_url: str,
) -> None:
    """Change the head of an episode's page."""
    title, due_on = read_title(title), read_day(due, input="due_on")
    link = read_link(video_url, "video_url")
    with workspace.write() as work:
        row = within(work, series_slug, number)
        check_version(row, version, f"Part {number}", _as_typed(row))
        row.title, row.opening, row.due_on = title, opening.strip(), due_on
        row.video_url = link


def _as_typed(row: Episode) -> dict[str, str]:
    return {
        "title": row.title,
        "introduces": row.introduces,
        "opening": row.opening,
        "due_on": row.due_on.isoformat() if row.due_on else "",
        "video_url": row.video_url,
    }


def read_link(typed: str, input: str) -> str:
    """A web address as typed, or nothing; anything that is no https link is refused."""
    link = typed.strip()
    if not link:
        return ""
    try:
        parts = urlsplit(link)
        good = parts.scheme in ("http", "https") and bool(parts.hostname)
    except ValueError:
        good = False
    if not good or len(link) > 500 or not link.isprintable() or " " in link:
        raise WorkshopError(
            f"“{link[:60]}” is not a web address. "
            "Paste it whole, from https:// on, 500 characters at most.",
            input=input,
        )
    return link


def move(workspace: Workspace, series_slug: str, number: int, to: str) -> int:
    """Give a part another number; those between close up. Gives the new number."""
    with workspace.write() as work:
        series = store.by_slug(work, series_slug)
        row = within(work, series_slug, number)
        place = _read_place(to, len(series.episodes))
        order = [episode for episode in series.episodes if episode is not row]
        order.insert(place - 1, row)
        _renumber(work, series, order)
    return place


def _read_place(typed: str, most: int) -> int:
    text = typed.strip()
    if not (text.isdecimal() and text.isascii() and 1 <= int(text[:6]) <= most):
        raise WorkshopError(
            f"“{text[:20]}” is no place in this series. "
            f"Type a number from 1 to {most}.",
            input="to",
            nearest=str(most),
        )
    return int(text)


def remove(workspace: Workspace, series_slug: str, number: int) -> None:
    """Take out a part that holds nothing yet; those after it close up."""
    with workspace.write() as work:
        series = store.by_slug(work, series_slug)
        row = within(work, series_slug, number)
        if held := store.holdings(work, [row.id])[row.id]:
            raise WorkshopError(
                f"Part {number} holds {', '.join(held)}, so it stays. "
                "Give it another title or another place instead."
            )
        order = [episode for episode in series.episodes if episode is not row]
        _check_published(work, series, order)
        work.delete(row)
        work.flush()
        work.expire(series)
        _renumber(work, series, order)


def _check_published(work: Session, series: Series, order: list[Episode]) -> None:
    reached = store.reached(work, [series.id])
    for place, episode in enumerate(order, start=1):
        if episode.number != place and reached[episode.id].published_at:
            raise WorkshopError(
                f"Part {episode.number} “{episode.title}” is published under its "
                "number, and viewers have seen it. Only parts after the last "
                "published one can change places.",
                input="to",
            )


def _renumber(work: Session, series: Series, order: list[Episode]) -> None:
    _check_published(work, series, order)
    changed = [(n, row) for n, row in enumerate(order, start=1) if row.number != n]
    # Numbers are unique in a series: step aside first, then into place.
    for place, row in changed:
        row.number = place + 100_000
    work.flush()
    for place, row in changed:
        row.number = place
        row.version += 1
