"""Promises to viewers: made in one episode, kept in another, linked both ways."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.day import read_day
from app.core.errors import NotFound, WorkshopError
from app.core.film_time import film_time, read_film_time
from app.core.plain_text import check_length, is_blank
from app.store import promises as store
from app.store.edits import check_version, get
from app.store.schema import Episode, Promise, Series
from app.store.workspace import Workspace

LONGEST = 2000  # characters


@dataclass(frozen=True, slots=True)
class Place:
    """An episode to point at."""

    id: int
    series: str
    series_slug: str
    number: int
    title: str
    url: str


@dataclass(frozen=True, slots=True)
class PromiseView:
    """One promise. ``late``: its date has passed and it is open still."""

    id: int
    version: int
    text: str
    video_ms: int | None
    due_on: date | None
    made_in: Place
    kept_in: Place | None
    kept_how: str
    late: bool = False

    @property
    def at(self) -> str:
        """The time in the film as typed."""
        return "" if self.video_ms is None else film_time(self.video_ms)


@dataclass(frozen=True, slots=True)
class PromisesView:
    """An episode's promises and those it can keep. ``others``: where to keep one."""

    made: tuple[PromiseView, ...]
    kept_here: tuple[PromiseView, ...]
    open_elsewhere: tuple[PromiseView, ...]
    others: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class SeriesPromises:
    """All the promises of a series, the open ones first."""

    series: str
    series_slug: str
    open: tuple[PromiseView, ...]
    kept: tuple[PromiseView, ...]
    episodes: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class PromiseTyped:
    """A promise as typed: what was told, when in the film, when it is due."""

    text: str
    at: str = ""
    due: str = ""


def of_series(workspace: Workspace, slug: str, today: date) -> SeriesPromises:
    """Every promise made or kept in the series."""
    with workspace.read() as work:
        series = work.scalar(select(Series).where(Series.slug == slug))
        if series is None:
            raise NotFound(f"There is no series “{slug}”.")
        views = _views(work, series.id, today)
        return SeriesPromises(
            series.title,
            slug,
            tuple(view for view in views if view.kept_in is None),
            tuple(view for view in views if view.kept_in is not None),
            tuple(_place(episode) for episode in series.episodes),
        )


def of_episode(workspace: Workspace, episode_id: int, today: date) -> PromisesView:
    """What this episode promised, what it keeps, what it could keep."""
    with workspace.read() as work:
        return within(work, episode_id, today)


def check_told(workspace: Workspace, slug: str, promise_id: int) -> None:
    """NotFound where the series neither made nor keeps this promise."""
    with workspace.read() as work:
        series = work.scalar(select(Series).where(Series.slug == slug))
        told = store.of_series(work, series.id) if series else []
        if promise_id not in {promise.id for promise, *_ in told}:
            raise NotFound(f"The series “{slug}” has no promise {promise_id}.")


def within(work: Session, episode_id: int, today: date | None) -> PromisesView:
    """The same, inside a transaction that is open already."""
    episode = get(work, Episode, episode_id, "Episode")
    views = _views(work, episode.series_id, today)
    return PromisesView(
        tuple(v for v in views if v.made_in.id == episode_id),
        tuple(v for v in views if v.kept_in and v.kept_in.id == episode_id),
        tuple(v for v in views if v.made_in.id != episode_id and not v.kept_in),
        tuple(_place(e) for e in episode.series.episodes if e.id != episode_id),
    )


def record(workspace: Workspace, episode_id: int, typed: PromiseTyped) -> int:
    """Note what an episode told its viewers would come; gives its id."""
    with workspace.write() as work:
        row = Promise(episode_id=get(work, Episode, episode_id, "Episode").id)
        _fill(row, typed)
        work.add(row)
        work.flush()
        return row.id


def edit(
    workspace: Workspace, promise_id: int, typed: PromiseTyped, version: int
) -> None:
    """Change its words, time or date. Raises StaleEdit after another save."""
    with workspace.write() as work:
        _fill(_checked(work, promise_id, version), typed)


def keep(
    workspace: Workspace, promise_id: int, in_episode: int, how: str, version: int
) -> None:
    """Say which other episode keeps it; from then on both link to each other."""
    with workspace.write() as work:
        row = _checked(work, promise_id, version)
        keeper = get(work, Episode, in_episode, "Episode")
        if keeper.id == row.episode_id:
            raise WorkshopError(
                "The episode that makes a promise cannot keep it too. Choose another.",
                input="in_episode",
            )
        row.kept_in = keeper.id
        row.kept_how = how.strip()
        check_length(row.kept_how, LONGEST, "That", input="how")


def reopen(workspace: Workspace, promise_id: int, version: int) -> None:
    """It is not kept after all."""
    with workspace.write() as work:
        row = _checked(work, promise_id, version)
        row.kept_in, row.kept_how = None, ""


def remove(workspace: Workspace, promise_id: int, version: int) -> None:
    """It was never said."""
    with workspace.write() as work:
        work.delete(_checked(work, promise_id, version))


def _checked(work: Session, promise_id: int, version: int) -> Promise:
    row = get(work, Promise, promise_id, "Promise")
    stored = {
        "text": row.text,
        "at": "" if row.video_ms is None else film_time(row.video_ms),
        "due": row.due_on.isoformat() if row.due_on else "",
        "how": row.kept_how,
        "in_episode": str(row.kept_in or ""),
    }
    check_version(row, version, "The promise", stored)
    return row


def _fill(row: Promise, typed: PromiseTyped) -> None:
    row.text = " ".join(typed.text.split())
    check_length(row.text, LONGEST, "The promise", input="text")
    if is_blank(row.text):
        raise WorkshopError("Write down what the viewers were told.", input="text")
    row.video_ms = read_film_time(typed.at, input="at")
    row.due_on = read_day(typed.due, input="due")


def _views(
    work: Session, series_id: int, today: date | None
) -> tuple[PromiseView, ...]:
    return tuple(_view(told, today) for told in store.of_series(work, series_id))


def _view(told: store.Told, today: date | None) -> PromiseView:
    row, made_in, kept_in = told
    late = bool(today and row.due_on and row.due_on < today and kept_in is None)
    return PromiseView(
        row.id,
        row.version,
        row.text,
        row.video_ms,
        row.due_on,
        _place(made_in),
        None if kept_in is None else _place(kept_in),
        row.kept_how,
        late,
    )


def _place(row: Episode) -> Place:
    series = row.series
    return Place(
        row.id, series.title, series.slug, row.number, row.title, row.video_url
    )
