"""Planning an episode's cuts, buying the boards, marking the plan as cut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from app.core.cutting.alternatives import solve
from app.core.cutting.glued import part_and_strips
from app.core.cutting.job import Job
from app.core.cutting.open_ways import choice_of
from app.core.cutting.outcome import movement, refusal
from app.core.cutting.plan import Plan
from app.core.cutting.split import split
from app.core.cutting.written import read_plan
from app.core.day import read_past_day
from app.core.errors import NotFound, WorkshopError
from app.core.movement import PieceKind
from app.services import (
    buying,
    episodes,
    plan_proof,
    plan_questions,
    sawn_first,
    series_wood,
    settings,
)
from app.services.plan_job import Asked, job_now, job_unwished, missing, stale
from app.services.plan_proof import ProofView
from app.services.plan_rows import check_planned, fill, new_row, row_to_fill
from app.services.plan_view import PlanView, view
from app.services.plan_wishes import (
    FIRST,
    Choices,
    WishLine,
    blank_choices,
    board_choices,
    told,
)
from app.services.rack_work import short
from app.store import plans as store
from app.store import rack
from app.store.edits import check_version
from app.store.movements import record
from app.store.schema import PlanRow
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class CutBefore:
    """Boards of an earlier plan of the same cuts, and when they were cut."""

    on: date
    boards: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WoodView:
    """What the wood section of an episode shows. ``plan`` None: none made yet.

    ``missing`` is a sentence where there is nothing to plan; ``to_cut`` how many
    blanks the design still wants; ``version`` what a planning form sends. ``asked``
    is what the plan was asked for, ``wishes`` the same in words; ``blanks`` and
    ``boards`` are what a new wish may name, ``changes`` what a question may change.
    ``cut_before`` are boards of earlier plans of this part that are cut;
    ``for_others`` says which boards of this one the series' plan keeps for others.
    """

    plan: PlanView | None
    missing: str
    to_cut: int
    version: int
    asked: Asked
    wishes: tuple[WishLine, ...] = ()
    blanks: Choices = ()
    boards: Choices = ()
    planned_at: datetime | None = None
    proof: ProofView | None = None
    changes: Choices = ()
    cut_before: tuple[CutBefore, ...] = ()
    for_others: tuple[str, ...] = ()


def show(workspace: Workspace, episode_id: int, *, drawn: bool = True) -> WoodView:
    """The wood section: the latest plan, and what could be planned.

    Not ``drawn``: the plan is left out, as while another is looked for.
    """
    with workspace.read() as work:
        row = store.latest(work, episode_id)
        wants = store.still_wanted(work, episode_id)
        asked = Asked.of(row)
        job = _unwished(work, episode_id, asked.dealer)
        plan = read_plan(row.job, row.answer) if row and drawn else None
        return WoodView(
            plan=_shown(work, row, plan) if row and plan else None,
            proof=plan_proof.view(plan, settings.within(work).shop) if plan else None,
            changes=plan_questions.choices(plan) if plan else (),
            for_others=(
                series_wood.taken_from_others(work, episode_id, plan)
                if plan and row and not row.cut_on
                else ()
            ),
            cut_before=tuple(
                CutBefore(one.cut_on, _boards(one))
                for one in store.cut(work, episode_id)
                if row and one.id != row.id and one.cut_on
            ),
            planned_at=row.made_at if row else None,
            missing=missing(wants),
            to_cut=sum(one.quantity for one in wants or ()),
            version=row.version if row else 0,
            asked=asked,
            wishes=told(asked.wishes, job) if job else (),
            blanks=blank_choices(job) if job else (),
            boards=board_choices(job) if job else (),
        )


def _unwished(work: Session, episode_id: int, dealer_lines: str) -> Job | None:
    """All that a wish may name; None where there is nothing to cut."""
    try:
        return job_unwished(work, episode_id, dealer_lines)
    except WorkshopError:
        return None


def _boards(row: PlanRow) -> tuple[str, ...]:
    return tuple(one["stock"] for one in row.answer.get("layouts", ()))


def latest(workspace: Workspace, episode_id: int) -> PlanView | None:
    """The plan made last, or None."""
    with workspace.read() as work:
        row = store.latest(work, episode_id)
        return shown(work, row) if row else None


@dataclass(frozen=True, slots=True)
class Begun:
    """A job to plan, and the plan's version when it was asked for."""

    episode_id: int
    version: int
    asked: Asked
    job: Job


def make(
    workspace: Workspace,
    slug: str,
    number: int,
    version: int,
    dealer_lines: str,
    first: str,
    now: datetime,
) -> None:
    """Plan the cuts at once, from the rack and what the dealer sells.

    By work alone, so the same shop gets the same plan; the wishes of the plan
    before stand. ``version`` is the latest plan's, 0 where there was none. Raises
    WorkshopError where there is nothing to cut, StaleEdit where another window
    planned in between.
    """
    if first not in FIRST:
        raise WorkshopError(
            "Choose which cut comes first from the list.", input="first"
        )
    with workspace.read() as work:
        row = store.latest(work, episodes.within(work, slug, number).id)
        wishes = replace(Asked.of(row).wishes, first=first)
    begun = begin(workspace, slug, number, version, Asked(dealer_lines, wishes))
    # The thinking is done outside the transaction: nobody waits for the lock.
    keep(workspace, begun, solve(begun.job), now)


def begin(
    workspace: Workspace, slug: str, number: int, version: int, asked: Asked
) -> Begun:
    """The job to plan as it is now. Raises as ``make`` does, saving nothing."""
    with workspace.read() as work:
        episode_id = episodes.within(work, slug, number).id
        job = job_now(work, episode_id, asked)
        check_planned(work, episode_id, version)
        return Begun(episode_id, version, asked, job)


def keep(workspace: Workspace, begun: Begun, plan: Plan, now: datetime) -> None:
    """Keep a plan of a job that was begun, whole or not at all.

    Raises WorkshopError where rack, design or settings changed since, StaleEdit
    where another window planned in between.
    """
    with workspace.write() as work:
        if job_now(work, begun.episode_id, begun.asked) != begun.job:
            raise WorkshopError(
                "The rack or the design changed while the plan was being made. "
                "Plan the cuts again; nothing was saved."
            )
        row = row_to_fill(work, begun.episode_id, begun.version)
        fill(row, plan, begun.asked, now)


def buy(
    workspace: Workspace,
    slug: str,
    number: int,
    version: int,
    on: str,
    supplier: str,
    now: datetime,
) -> None:
    """Record the purchase of exactly the boards the plan needs.

    The plan stands as it is, with the bought boards in place of those on offer.
    Raises WorkshopError where it needs none or no longer holds.
    """
    supplier = short(supplier, "supplier")
    with workspace.write() as work:
        row, plan = _standing(work, slug, number, version, {"on": on})
        needs = buying.pieces(plan)
        if not needs:
            raise WorkshopError("This plan needs no boards that are not on the rack.")
        if plan.unplaced:
            raise WorkshopError(
                "Some blanks have no place in this plan yet. List boards for them too "
                "and plan again before you buy; nothing was recorded."
            )
        facts = settings.within(work)
        bought = record(
            work,
            buying.purchase(plan, row.job["dealer"], facts.shop),
            on=_day(on, now, facts.zone),
            now=now,
            zone=facts.zone,
            currency=facts.shop.currency,
            episode_id=row.episode_id,
            supplier=supplier,
        )
        labels = {pile.stock_id: pile.label for pile in rack.on_hand(work)}
        piles = [labels[line.stock_id] for line in bought.lines if line.stock_id]
        names = dict(zip(needs, piles, strict=True))
        asked = Asked.of(row)
        asked = replace(asked, wishes=asked.wishes.renamed(names))
        job = job_now(work, row.episode_id, asked)
        fill(row, buying.with_bought(plan, job, names), asked, now)


def mark_cut(
    workspace: Workspace, slug: str, number: int, version: int, on: str, now: datetime
) -> None:
    """Record the plan as cut: boards off the rack, blanks and offcuts onto it.

    Raises WorkshopError, changing nothing, where blanks have no place, boards
    are still to be bought, the rack or design changed, or it was cut already.
    """
    with workspace.write() as work:
        row, plan = _standing(work, slug, number, version, {"on": on})
        _record_cut(work, row, plan, on, now)


def mark_some_cut(
    workspace: Workspace,
    slug: str,
    number: int,
    version: int,
    chosen: Mapping[int, int],
    on: str,
    now: datetime,
) -> None:
    """Record some boards of the plan as cut; the rest stays planned as it was.

    ``chosen`` gives copies by the layout's place in the plan, from 0. What is cut
    becomes a plan of its own; planning again touches only the rest. Raises as
    ``mark_cut`` does, but for boards and blanks of the rest.
    """
    with workspace.write() as work:
        row, plan = _standing(work, slug, number, version, {"on": on})
        done, rest = split(plan, chosen)
        asked, made_at = Asked.of(row), row.made_at
        _record_cut(work, row, done, on, now)
        fill(row, done, asked, made_at)
        work.flush()
        if store.still_wanted(work, row.episode_id):
            job = choice_of(plan.job).on(job_now(work, row.episode_id, asked))
            left = new_row(work, row.episode_id)
            # Above every version a window may have open of what was one plan.
            left.version = row.version + 1
            fill(left, replace(rest, job=job), asked, made_at)


def _record_cut(
    work: Session, row: PlanRow, plan: Plan, on: str, now: datetime
) -> None:
    """The movement of a plan that is cut, and the day of it on its row."""
    if refused := refusal(plan):
        raise refused
    facts = settings.within(work)
    day = _day(on, now, facts.zone)
    put_down = partial(
        record,
        work,
        on=day,
        now=now,
        zone=facts.zone,
        currency=facts.shop.currency,
        episode_id=row.episode_id,
    )
    kinds = _kinds(work, row.episode_id, plan)
    plan, taken = sawn_first.taken(work, plan, put_down)
    put_down(movement(plan, taken, kinds), plan_id=row.id)
    row.cut_on = day


def shown(work: Session, row: PlanRow) -> PlanView:
    """A stored plan as its page shows it, inside a transaction that is open."""
    return _shown(work, row, read_plan(row.job, row.answer))


def _shown(work: Session, row: PlanRow, plan: Plan) -> PlanView:
    piles = {pile.label: pile for pile in rack.on_hand(work)}
    why = "" if row.cut_on else stale(work, row, plan)
    return view(row.id, row.version, row.made_at, row.cut_on, why, plan, piles)


def _standing(
    work: Session, slug: str, number: int, version: int, typed: dict[str, str]
) -> tuple[PlanRow, Plan]:
    """The latest plan, checked: not cut, not changed elsewhere, still true."""
    row = store.latest(work, episodes.within(work, slug, number).id)
    if row is None:
        raise NotFound("There is no plan of this episode's cuts yet.")
    if row.cut_on:
        raise WorkshopError(
            f"This plan was marked as cut on {row.cut_on:%d.%m.%Y}; a plan can be cut "
            "once. Plan the cuts again for what is still missing."
        )
    check_version(row, version, "The cutting plan", {})
    plan = read_plan(row.job, row.answer)
    if why := stale(work, row, plan):
        raise WorkshopError(why)
    return row, plan


def _kinds(work: Session, episode_id: int, plan: Plan) -> dict[str, PieceKind]:
    wants = store.wanted(work, episode_id) or ()
    strips = [one.key for one in wants if one.strip]
    strips += [one.id for one in plan.job.blanks if part_and_strips(one.id)]
    return dict.fromkeys(strips, PieceKind.STRIP)


def _day(typed: str, now: datetime, zone: str) -> date:
    """The day it was done, on the shop's calendar."""
    if not typed.strip():
        raise WorkshopError("The day is missing. Type it like 2026-03-02.", input="on")
    return read_past_day(typed, now.astimezone(ZoneInfo(zone)).date(), input="on")
