"""Looking for a plan of an episode's cuts beside the pages, watched by them.

A search ends by itself when nothing better can be found, by its work or by the
shop's time limit; somebody may stop it and keep the best plan so far, or leave
everything as it was. It lives as long as the program: what was planned before
stands until the new plan is kept whole.
"""

from __future__ import annotations

import threading
from dataclasses import dataclass, field, replace
from datetime import datetime
from fractions import Fraction
from time import monotonic

from app.core.cutting import proof
from app.core.cutting.alternatives import solve
from app.core.cutting.effort import Standing
from app.core.cutting.plan import Bound, Plan
from app.core.errors import NotFound, WorkshopError
from app.services import plans, settings, tasks
from app.services.plan_job import Asked
from app.services.plans import Begun
from app.services.tasks import Progress, Stage, Stopped
from app.store.workspace import Workspace

# So long a page waits for a plan before it shows how far the search is, seconds.
PATIENCE = 1.0
# The first plan of a search comes within milliseconds; this is for a bad moment.
FIRST_PLAN = 10.0
BARS = 24  # of the small picture of the gap, one for each better plan


@dataclass(frozen=True, slots=True)
class Bar:
    """One better plan in the picture of the gap; in hundredths of its size."""

    left: float
    width: float
    top: float
    height: float


@dataclass(frozen=True, slots=True)
class SearchView:
    """What a page shows of a search.

    ``over`` with ``told``: why it came to nothing. ``cost`` is that of the best
    plan so far in minor units, None before the first; ``gap`` says in words how
    far that is from the best possible; ``homeless`` counts blanks without a place.
    ``unkept``: no plan of it is kept; ``version`` is that of the plan before it.
    """

    id: str
    asked: Asked
    over: bool
    version: int = 0
    told: str = ""
    cost: int | None = None
    gap: str = ""
    boards: int = 0
    homeless: int = 0
    found: int = 0
    bars: tuple[Bar, ...] = ()
    unkept: bool = True


@dataclass(eq=False)
class _Search:
    """One search.

    Whoever holds ``turn`` first, the solver or a person, ends it and has ``taken``
    it; it is ``over`` when that is done. ``closing`` tells the solver to end.
    """

    workspace: Workspace
    begun: Begun
    now: datetime
    ends: float
    id: str = ""
    over: bool = False
    closing: bool = False
    taken: bool = False
    kept: bool = False
    error: WorkshopError | None = None
    trail: list[Standing] = field(default_factory=list)
    laid: tuple[Standing, Plan] | None = None
    turn: threading.Lock = field(default_factory=threading.Lock)
    begun_well: threading.Event = field(default_factory=threading.Event)

    def left(self) -> float:
        """Seconds that the solver still has.

        Raises Stopped after somebody ended the search: then nobody waits for the
        solver's answer, and whatever it still does only takes time from others.
        """
        if self.closing:
            raise Stopped
        return self.ends - monotonic()

    def watch(self, standing: Standing) -> None:
        """Note a better plan; the solver's thread calls this. Raises as ``left``."""
        if self.closing:
            raise Stopped
        self.trail.append(standing)
        self.begun_well.set()

    def run(self, _report: Progress) -> str:
        """Look until the end, and keep what was found; the task's work."""
        try:
            plan = solve(self.begun.job, left=self.left, watch=self.watch)
            self.end(plan, self.now)
        except WorkshopError as error:
            self.error = error
            raise
        finally:
            # Whoever closed it is about to end it.
            self.over = self.over or not self.closing
        return ""

    def best(self) -> tuple[Standing, Plan] | None:
        """The best plan so far, laid out once."""
        if not self.trail:
            return None
        standing = self.trail[-1]
        if self.laid is None or self.laid[0] is not standing:
            self.laid = standing, standing.plan()
        return self.laid

    def end(self, plan: Plan, now: datetime) -> None:
        """Keep this plan, unless the search was ended before."""
        with self.turn:
            if self.taken:
                return
            self.taken = self.closing = True
            try:
                plans.keep(self.workspace, self.begun, plan, now)
                self.kept = True
            except WorkshopError as error:
                self.error = error
                raise
            finally:
                self.over = True

    def leave(self) -> None:
        """End without keeping anything."""
        with self.turn:
            self.taken = self.closing = self.over = True


_searches: dict[tuple[str, int], _Search] = {}
_lock = threading.Lock()


def start(
    workspace: Workspace,
    slug: str,
    number: int,
    version: int,
    asked: Asked,
    now: datetime,
    patience: float | None = None,
) -> None:
    """Look for a plan; comes back when it is kept, or after ``patience`` seconds.

    None: the time that a page may wait.

    Raises as ``plans.make`` does, and where these cuts are being planned already.
    """
    begun = plans.begin(workspace, slug, number, version, asked)
    seconds = settings.load(workspace).shop.plan_seconds
    search = _Search(workspace, begun, now, monotonic() + seconds)
    key = _key(workspace, begun.episode_id)
    with _lock:
        if (known := _searches.get(key)) and not known.over:
            raise WorkshopError(
                "These cuts are being planned already, here or in another window. "
                "Wait until that ends, or stop it there."
            )
        search.id = tasks.start("Planning the cuts", search.run)
        _searches[key] = search
    state = tasks.wait(search.id, PATIENCE if patience is None else patience)
    if search.error:
        raise search.error
    if state.stage is Stage.BROKEN:
        raise WorkshopError(state.refusal)


def keep_best(
    workspace: Workspace, episode_id: int, search_id: str, now: datetime
) -> SearchView:
    """Stop looking and keep the best plan so far, without waiting for the solver.

    Gives how that plan stands. Raises WorkshopError where the search is not known
    any more or its plan cannot be kept.
    """
    search = _find(workspace, episode_id, search_id)
    search.begun_well.wait(FIRST_PLAN)
    search.closing = True
    best = search.best()
    if best is None:
        search.leave()
        raise WorkshopError("There is no plan yet to keep; nothing was changed.")
    search.end(best[1], now)
    if search.error:
        raise search.error
    return _standing(_view(search, over=True), search.trail, *best)


def leave(workspace: Workspace, episode_id: int, search_id: str) -> None:
    """Stop looking; everything stays as it was. Raises as ``keep_best``."""
    _find(workspace, episode_id, search_id).leave()


def look(workspace: Workspace, episode_id: int) -> SearchView | None:
    """How the latest search for an episode stands; None where none is known."""
    search = _searches.get(_key(workspace, episode_id))
    if search is None:
        return None
    over = search.over
    view = _view(search, over)
    if over:
        return replace(view, told=_why(search))
    best = search.best()
    return _standing(view, search.trail, *best) if best else view


def _view(search: _Search, over: bool) -> SearchView:
    begun = search.begun
    unkept = not search.kept
    return SearchView(search.id, begun.asked, over, begun.version, unkept=unkept)


def _standing(
    view: SearchView, trail: list[Standing], standing: Standing, plan: Plan
) -> SearchView:
    """The view with the figures of the best plan so far."""
    known = [one for one in plan.bounds if one.objective != "cost"]
    plan = replace(plan, bounds=(Bound("cost", standing.bound), *known))
    return replace(
        view,
        cost=standing.cost,
        gap=proof.in_words(plan),
        boards=sum(layout.copies for layout in plan.layouts),
        homeless=sum(one.quantity for one in plan.unplaced),
        found=len(trail),
        bars=_bars(trail, proof.value_of_parts(plan)),
    )


def _why(search: _Search) -> str:
    """Why a search came to nothing, as a sentence; empty where it did not."""
    if search.error:
        return str(search.error)
    try:
        return tasks.state(search.id).refusal
    except NotFound:  # long ago
        return ""


def _bars(trail: list[Standing], value: Fraction) -> tuple[Bar, ...]:
    """The gap of each better plan beside the one before, the first in full height."""
    shown = trail[-BARS:]
    gaps = [max(one.cost - one.bound, 0) for one in shown]
    if not value or not gaps or not max(gaps):
        return ()
    width = Fraction(100, len(gaps))
    return tuple(
        Bar(
            float(at * width),
            float(width * Fraction(4, 5)),
            float(100 - Fraction(100 * gap, max(gaps))),
            float(Fraction(100 * gap, max(gaps))),
        )
        for at, gap in enumerate(gaps)
    )


def _find(workspace: Workspace, episode_id: int, search_id: str) -> _Search:
    search = _searches.get(_key(workspace, episode_id))
    if search is None or search.id != search_id:
        raise WorkshopError(
            "That search for a plan is not known any more: the program was started "
            "anew since, or the cuts were planned again. Nothing was half saved."
        )
    return search


def _key(workspace: Workspace, episode_id: int) -> tuple[str, int]:
    return str(workspace.folder), episode_id
