"""Series: what is planned, in which order, and how far each part has come."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.core.plain_text import check_length, is_blank
from app.core.slug import free_slug
from app.store import series as store
from app.store.edits import check_version
from app.store.schema import Episode, Series
from app.store.series import Reached
from app.store.workspace import Workspace

LONGEST_TITLE = 200


@dataclass(frozen=True, slots=True)
class PartView:
    """One part of a series as its plan lists it."""

    id: int
    version: int
    number: int
    title: str
    introduces: str
    due_on: date | None
    words: str
    published: bool
    holds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeriesView:
    """A series and its plan."""

    version: int
    slug: str
    title: str
    summary: str
    disclosure: str
    parts: tuple[PartView, ...]
    open_promises: int

    @property
    def next_part(self) -> PartView | None:
        """The first part that is not out yet."""
        return next((part for part in self.parts if not part.published), None)


@dataclass(frozen=True, slots=True)
class Knot:
    """One part on the thread. ``strand``: the line's width to the next knot."""

    number: int
    title: str
    state: str
    words: str
    in_hand: bool
    passes_on: int
    strand: float


@dataclass(frozen=True, slots=True)
class Thread:
    """A series as one line with a knot for each part."""

    slug: str
    title: str
    knots: tuple[Knot, ...]


def listing(workspace: Workspace) -> tuple[SeriesView, ...]:
    """Every series, by title."""
    with workspace.read() as work:
        return _views(work, store.every(work))


def show(workspace: Workspace, slug: str) -> SeriesView:
    """One series with its plan, or NotFound."""
    with workspace.read() as work:
        (view,) = _views(work, [store.by_slug(work, slug)])
        return view


def create(workspace: Workspace, title: str, summary: str) -> str:
    """Start a series; gives its slug."""
    title = read_title(title)
    with workspace.write() as work:
        # "new" is the page that starts a series.
        name = free_slug(title, store.slugs(work) | {"new"})
        work.add(Series(slug=name, title=title, summary=summary.strip()))
    return name


def save(
    workspace: Workspace,
    slug: str,
    version: int,
    title: str,
    summary: str,
    disclosure: str,
) -> None:
    """Change a series' own words. Its address stays: it may be in print."""
    title = read_title(title)
    with workspace.write() as work:
        row = store.by_slug(work, slug)
        stored = {
            "title": row.title,
            "summary": row.summary,
            "disclosure": row.disclosure,
        }
        check_version(row, version, f"The series “{row.title}”", stored)
        row.title = title
        row.summary = summary.strip()
        row.disclosure = disclosure.strip()


def thread(workspace: Workspace, slug: str, number: int | None) -> Thread | None:
    """The series as one line; ``number`` is the part in hand. None: no such series."""
    with workspace.read() as work:
        if slug not in store.slugs(work):
            return None
        row = store.by_slug(work, slug)
        reached = store.reached(work, [row.id])
        passed = store.wood_passed(work, row.id)
        numbers = [episode.number for episode in row.episodes]
        carried = {n: _carried(passed, n) for n in numbers}
        most = max(carried.values(), default=0)
        knots = tuple(
            _knot(episode, reached[episode.id], number, carried[episode.number], most)
            for episode in row.episodes
        )
        return Thread(row.slug, row.title, knots)


def _carried(passed: dict[tuple[int, int], int], number: int) -> int:
    """What passes over the gap behind a part: from it or before, to any later one."""
    return sum(
        volume for (source, user), volume in passed.items() if source <= number < user
    )


def _knot(
    episode: Episode, reached: Reached, in_hand: int | None, carried: int, most: int
) -> Knot:
    # 1.5 px where nothing passes, up to 10 px for the most in this series.
    strand = 1.5 if not carried else round(3 + 7 * carried / most, 1)
    return Knot(
        number=episode.number,
        title=episode.title,
        state="published" if reached.published_at else "planned",
        words=state_in_words(reached),
        in_hand=episode.number == in_hand,
        passes_on=carried,
        strand=strand,
    )


def state_in_words(reached: Reached) -> str:
    """How far a part has come, as one would say it."""
    if reached.published_at:
        again = f", revision {reached.revision}" if reached.revision > 1 else ""
        return "published" + again
    if reached.captions:
        return "film cut, not published yet"
    if reached.steps_done:
        return f"at the bench, {reached.steps_done} of {reached.steps} steps done"
    if reached.cut_on:
        return "wood cut"
    if reached.planned:
        return "cuts planned"
    return "designed" if reached.designed else "planned"


def read_title(typed: str) -> str:
    """A title as typed, without the spaces around it; refused where empty."""
    title = " ".join(typed.split())
    if is_blank(title):
        raise WorkshopError(
            "A title is missing. A few words are enough, and they can change.",
            input="title",
        )
    check_length(title, LONGEST_TITLE, "The title", input="title")
    return title


def _views(work: Session, rows: Sequence[Series]) -> tuple[SeriesView, ...]:
    reached = store.reached(work, [row.id for row in rows])
    # All episodes at once: the first page may show years of series.
    holds = store.holdings(work, [one.id for row in rows for one in row.episodes])
    return tuple(
        SeriesView(
            version=row.version,
            slug=row.slug,
            title=row.title,
            summary=row.summary,
            disclosure=row.disclosure,
            parts=tuple(
                _part(one, reached[one.id], holds[one.id]) for one in row.episodes
            ),
            open_promises=store.open_promises(work, row.id),
        )
        for row in rows
    )


def _part(episode: Episode, reached: Reached, holds: tuple[str, ...]) -> PartView:
    return PartView(
        id=episode.id,
        version=episode.version,
        number=episode.number,
        title=episode.title,
        introduces=episode.introduces,
        due_on=episode.due_on,
        words=state_in_words(reached),
        published=reached.published_at is not None,
        holds=holds,
    )
