"""Planning the wood of all parts of a series together."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from time import monotonic

from sqlalchemy.orm import Session

from app.core.cutting import alternatives, proof
from app.core.cutting.effort import Standing
from app.core.cutting.job import Job
from app.core.cutting.open_ways import choice_of
from app.core.cutting.parts_wood import meant_for
from app.core.cutting.plan import Bound, Plan
from app.core.cutting.series import BothWays, both_ways
from app.core.cutting.solve import WORK
from app.core.cutting.written import answer_document, job_document, read_plan
from app.core.errors import StaleEdit, WorkshopError
from app.core.money import Money
from app.services import settings, tasks
from app.services.plan_job import blanks_of, changed, job_for, names_of
from app.services.series_wood_view import SeriesPlanView, view
from app.services.tasks import Progress, Stopped
from app.store import plans as wants
from app.store import rack
from app.store import series as series_store
from app.store import series_wood as store
from app.store.schema import Episode, Series
from app.store.workspace import Workspace

MISSING = (
    "No part of this series has blanks that are still to be cut. Save a design for "
    "one of its parts first."
)


@dataclass(frozen=True, slots=True)
class SeriesWoodView:
    """What the wood of a series shows. ``plan`` None: none made yet.

    ``missing`` is a sentence where there is nothing to plan; ``parts`` are the
    numbers of those with blanks still to cut, ``to_cut`` how many blanks in all.
    ``dealer`` is what was typed for the plan; ``version`` what its form sends.
    """

    plan: SeriesPlanView | None
    missing: str
    parts: tuple[int, ...]
    to_cut: int
    dealer: str
    version: int


@dataclass(frozen=True, slots=True)
class Begun:
    """A series' job to plan, and the plan's version when it was asked for."""

    slug: str
    version: int
    dealer: str
    job: Job
    currency: str


def show(workspace: Workspace, slug: str) -> SeriesWoodView:
    """The wood of a series: the plan that stands, and what could be planned."""
    with workspace.read() as work:
        series = series_store.by_slug(work, slug)
        row = store.of_series(work, series.id)
        wanted = _wanted(work, series)
        return SeriesWoodView(
            plan=shown(work, series),
            missing="" if wanted else MISSING,
            parts=tuple(episode.number for episode in wanted),
            to_cut=sum(one.quantity for those in wanted.values() for one in those),
            dealer=row.job["dealer"] if row else "",
            version=row.version if row else 0,
        )


def begin(workspace: Workspace, slug: str, version: int, dealer: str) -> Begun:
    """The job as it is now, saving nothing.

    Raises WorkshopError where there is nothing to cut or a dealer's line is not
    understood, StaleEdit where another window planned in between.
    """
    with workspace.read() as work:
        series = series_store.by_slug(work, slug)
        job = job_now(work, series, dealer)
        _check_version(work, series, version)
        return Begun(slug, version, dealer, job, settings.within(work).shop.currency)


def search(
    workspace: Workspace,
    begun: Begun,
    now: datetime,
    goes_to: Callable[[], str],
) -> str:
    """Look for the plan beside the pages and keep it; gives the id to watch it by.

    Both ways, all parts together and part by part, have the shop's time limit.
    Whoever stops the search keeps the best plan so far.
    """
    seconds = settings.load(workspace).shop.plan_seconds

    def look(report: Progress) -> str:
        watched = _Watched(report, 2 * seconds, begun.currency)
        found = both_ways(
            begun.job,
            left=watched.left,
            watch=watched.see,
            planner=alternatives.solve,
        )
        keep(workspace, begun, found, now)
        return goes_to()

    return tasks.start("Planning the wood for the whole series", look)


def make(
    workspace: Workspace,
    slug: str,
    version: int,
    dealer: str,
    now: datetime,
    work: int = WORK,
) -> None:
    """Plan at once, by ``work`` alone. Raises as ``begin`` does."""
    begun = begin(workspace, slug, version, dealer)
    found = both_ways(begun.job, work=work, planner=alternatives.solve)
    keep(workspace, begun, found, now)


def keep(workspace: Workspace, begun: Begun, found: BothWays, now: datetime) -> None:
    """Keep a plan of a job that was begun, whole or not at all.

    Raises WorkshopError where rack, designs or settings changed since, StaleEdit
    where another window planned in between.
    """
    with workspace.write() as work:
        series = series_store.by_slug(work, begun.slug)
        if job_now(work, series, begun.dealer) != begun.job:
            raise WorkshopError(
                "The rack or a design changed while the plan was being made. Plan the "
                "wood again; nothing was saved."
            )
        _check_version(work, series, begun.version)
        row = store.to_fill(work, series.id)
        row.job = job_document(found.plan.job) | {"dealer": begun.dealer}
        row.answer = answer_document(found.plan)
        row.apart = answer_document(found.apart)
        row.made_at = now


def job_now(work: Session, series: Series, dealer: str) -> Job:
    """The job of all parts with blanks to cut, as rack, designs and shop are now.

    Raises WorkshopError where there is nothing to cut.
    """
    wanted = _wanted(work, series)
    if not wanted:
        raise WorkshopError(MISSING)
    shop = settings.within(work).shop
    called = names_of(one for those in wanted.values() for one in those)
    blanks = tuple(
        replace(one, id=f"{episode.number}.{one.id}", period=period(episode.number))
        for episode, those in wanted.items()
        for one in blanks_of(work, episode.id, those, called, shop)
    )
    job = job_for(work, blanks, called, dealer, shop)
    return replace(job, periods=tuple(period(one.number) for one in wanted))


def period(number: int) -> str:
    """What a part is called on the drawings and in the job."""
    return f"part {number}"


def kept_for_others(work: Session, episode: Episode) -> Mapping[str, str]:
    """What the series' plan says of pieces that it means for other parts alone.

    A sentence by the label of the piece on the rack, for the plan of one part.
    Nothing where there is no plan for the series.
    """
    row = store.of_series(work, episode.series_id)
    if row is None:
        return {}
    plan = read_plan(row.job, row.answer)
    mine = period(episode.number)
    if mine not in plan.job.periods:
        return {}
    found: dict[str, str] = {}
    for label in {one.stock for one in plan.layouts}:
        others = meant_for(plan, label)
        if others and mine not in others:
            found[label] = f"The series’ plan keeps {label} for {_listed(others)}."
    return found


def taken_from_others(work: Session, episode_id: int, plan: Plan) -> tuple[str, ...]:
    """A sentence for each board of one part's plan that others should have."""
    episode = work.get_one(Episode, episode_id)
    told = kept_for_others(work, episode)
    used = dict.fromkeys(one.stock for one in plan.layouts)
    return tuple(told[label] for label in used if label in told)


def _listed(parts: Sequence[str]) -> str:
    *first, last = parts
    return f"{', '.join(first)} and {last}" if first else last


def _wanted(work: Session, series: Series) -> dict[Episode, tuple[wants.Wanted, ...]]:
    """What the parts still want, part by part; only those that want something."""
    found = {one: wants.still_wanted(work, one.id) for one in series.episodes}
    return {episode: those for episode, those in found.items() if those}


def _check_version(work: Session, series: Series, version: int) -> None:
    row = store.of_series(work, series.id)
    if version != (row.version if row else 0):
        stored = {
            "dealer": row.job["dealer"] if row else "",
            "version": str(row.version if row else 0),
        }
        raise StaleEdit("The plan of the series’ wood", stored)


def shown(work: Session, series: Series) -> SeriesPlanView | None:
    """The plan that stands as its page shows it, inside an open transaction."""
    row = store.of_series(work, series.id)
    if row is None:
        return None
    plan = read_plan(row.job, row.answer)
    apart = read_plan(row.job, row.apart)
    piles = {pile.label: pile for pile in rack.on_hand(work)}
    titles = {period(one.number): one.title for one in series.episodes}
    why = _stale(work, series, row.job["dealer"], plan)
    return view(row.made_at, row.version, why, plan, apart, piles, titles)


def _stale(work: Session, series: Series, dealer: str, plan: Plan) -> str:
    """Why the plan no longer holds, as a sentence; empty while it does."""
    try:
        job = job_now(work, series, dealer)
    except WorkshopError as gone:
        return str(gone)
    return changed(choice_of(plan.job).on(job), plan.job)


@dataclass
class _Watched:
    """A search with its time limit, told to whoever watches."""

    report: Progress
    seconds: int
    currency: str
    words: str = "Looking for a first plan."
    closing: bool = False
    began: float = field(default_factory=monotonic)

    def left(self) -> float:
        """Seconds left; none once somebody stopped the search."""
        taken = monotonic() - self.began
        if not self.closing:
            try:
                self.report(min(int(taken), self.seconds), self.seconds, self.words)
            except Stopped:
                # What was found so far is worth keeping.
                self.closing = True
        return 0.0 if self.closing else self.seconds - taken

    def see(self, standing: Standing) -> None:
        """Say how the best plan so far stands."""
        plan = standing.plan()
        plan = replace(plan, bounds=(Bound("cost", standing.bound),))
        cost = Money(standing.cost, self.currency)
        self.words = (
            f"Best plan so far: {cost} to buy. {proof.in_words(plan)} Stopping keeps "
            "it."
        )
