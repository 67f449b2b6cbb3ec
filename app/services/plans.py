"""Planning an episode's cuts, buying the boards, marking the plan as cut."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy.orm import Session

from app.core.cutting.alternatives import choice_of, solve
from app.core.cutting.glued import part_and_strips
from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.outcome import movement, refusal
from app.core.cutting.plan import Plan
from app.core.cutting.written import answer_document, job_document, read_plan
from app.core.day import read_past_day
from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.core.movement import PieceKind
from app.core.wood import species_or_plain
from app.services import buying, dealer, episodes, sawn_first, settings, wood_ways
from app.services.plan_view import PlanView, view
from app.services.rack_work import short
from app.store import plans as store
from app.store import rack
from app.store.edits import check_version
from app.store.movements import record
from app.store.schema import PlanRow
from app.store.workspace import Workspace

# Rounds of cuts that stay easy to follow at the saw; common practice, no source.
STAGES = 3
FIRST = ("either", "crosscut", "rip")
OFFERED = (PieceKind.OFFCUT, PieceKind.BOARD, PieceKind.SHEET, PieceKind.STRIP)


@dataclass(frozen=True, slots=True)
class WoodView:
    """What the wood section of an episode shows. ``plan`` None: none made yet.

    ``missing`` is a sentence where there is nothing to plan; ``to_cut`` how many
    blanks the design still wants; ``version`` what a planning form sends.
    """

    plan: PlanView | None
    missing: str
    to_cut: int
    version: int
    dealer: str
    first: str


def show(workspace: Workspace, episode_id: int) -> WoodView:
    """The wood section: the latest plan, and what could be planned."""
    with workspace.read() as work:
        row = store.latest(work, episode_id)
        wants = store.still_wanted(work, episode_id)
        return WoodView(
            plan=shown(work, row) if row else None,
            missing=_missing(wants),
            to_cut=sum(one.quantity for one in wants or ()),
            version=row.version if row else 0,
            dealer=row.job["dealer"] if row else "",
            first=row.job["job"]["first"] if row else "either",
        )


def latest(workspace: Workspace, episode_id: int) -> PlanView | None:
    """The plan made last, or None."""
    with workspace.read() as work:
        row = store.latest(work, episode_id)
        return shown(work, row) if row else None


def make(
    workspace: Workspace,
    slug: str,
    number: int,
    version: int,
    dealer_lines: str,
    first: str,
    now: datetime,
) -> None:
    """Plan the cuts from the rack and what the dealer sells.

    ``version`` is the latest plan's, 0 where there was none. Raises
    WorkshopError where there is nothing to cut, StaleEdit where another window
    planned in between.
    """
    if first not in FIRST:
        raise WorkshopError(
            "Choose which cut comes first from the list.", input="first"
        )
    with workspace.read() as work:
        episode_id = episodes.within(work, slug, number).id
        job = _job(work, episode_id, dealer_lines, first)
    # The thinking is done outside the transaction: nobody waits for the lock.
    plan = solve(job)
    with workspace.write() as work:
        if _job(work, episode_id, dealer_lines, first) != job:
            raise WorkshopError(
                "The rack or the design changed while the plan was being made. "
                "Plan the cuts again; nothing was saved."
            )
        row = _row_to_fill(work, episode_id, version, dealer_lines)
        _fill(row, plan, dealer_lines, now)


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
        job = _job(work, row.episode_id, row.job["dealer"], plan.job.first)
        moved = buying.with_bought(plan, job, dict(zip(needs, piles, strict=True)))
        _fill(row, moved, row.job["dealer"], now)


def mark_cut(
    workspace: Workspace, slug: str, number: int, version: int, on: str, now: datetime
) -> None:
    """Record the plan as cut: boards off the rack, blanks and offcuts onto it.

    Raises WorkshopError, changing nothing, where blanks have no place, boards
    are still to be bought, the rack or design changed, or it was cut already.
    """
    with workspace.write() as work:
        row, plan = _standing(work, slug, number, version, {"on": on})
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


def _missing(wants: tuple[store.Wanted, ...] | None) -> str:
    if wants is None:
        return "No design yet, so nothing to cut."
    return "" if wants else "Every blank of this design has been cut."


def shown(work: Session, row: PlanRow) -> PlanView:
    """A stored plan as its page shows it, inside a transaction that is open."""
    plan = read_plan(row.job, row.answer)
    piles = {pile.label: pile for pile in rack.on_hand(work)}
    stale = "" if row.cut_on else _stale(work, row, plan)
    return view(row.id, row.version, row.made_at, row.cut_on, stale, plan, piles)


def _stale(work: Session, row: PlanRow, plan: Plan) -> str:
    """Why the plan no longer holds, as a sentence; empty while it does."""
    try:
        job = _job(work, row.episode_id, row.job["dealer"], plan.job.first)
    except WorkshopError as gone:
        return str(gone)
    job = choice_of(plan.job).on(job)
    if job == plan.job:
        return ""
    changed = [
        words
        for words, now, then in (
            ("the design", job.blanks, plan.job.blanks),
            ("the rack", job.stock, plan.job.stock),
            ("the shop’s settings", _shop(job), _shop(plan.job)),
        )
        if now != then
    ]
    words = " and ".join(changed)
    return (
        f"After this plan was made, {words} changed. Plan the cuts again before "
        "you saw."
    )


def _shop(job: Job) -> Job:
    return replace(job, stock=(), blanks=())


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
    if stale := _stale(work, row, plan):
        raise WorkshopError(stale)
    return row, plan


def _job(work: Session, episode_id: int, dealer_lines: str, first: str) -> Job:
    """The job as rack, design and settings have it now.

    Raises WorkshopError where there is nothing to cut.
    """
    wants = store.still_wanted(work, episode_id)
    if not wants:
        raise WorkshopError(_missing(wants) + " Save a design that needs wood first.")
    shop = settings.within(work).shop
    offered = [_stock(pile) for pile in rack.on_hand(work) if _is_free(pile)]
    called = {_species(one.species): one.species for one in reversed(wants)}
    blanks = wood_ways.allowed(
        work,
        episode_id,
        (_blank(one, called[_species(one.species)]) for one in wants),
        (one.key for one in wants if one.strip),
        shop,
    )
    return Job(
        saw=Saw(shop.kerf, shop.end_trim, shop.edge_trim),
        keep=Keep(shop.keep_length, shop.keep_width),
        stock=tuple(
            replace(one, species=called.get(_species(one.species), one.species))
            for one in (*offered, *dealer.read(dealer_lines, shop, blanks))
        ),
        blanks=blanks,
        stages=STAGES,
        first=first,
        plane=shop.plane_most,
        display=replace(shop.display, both=False),
        resaw=wood_ways.resaw(shop),
    )


def _species(name: str) -> str:
    """One name for a wood, however it is called in the trade."""
    return species_or_plain(name).name if name else ""


def _is_free(pile: rack.Pile) -> bool:
    """Not a blank or strip that waits for its build, not a panel of strips."""
    kept = pile.part_key or pile.piece.strips
    return pile.piece.kind in OFFERED and not kept


def _stock(pile: rack.Pile) -> Stock:
    size = pile.piece.size
    return Stock(
        pile.label,
        size.length,
        size.width,
        size.thickness,
        quantity=pile.quantity,
        species=pile.piece.species,
        offcut=pile.piece.kind is PieceKind.OFFCUT,
        name=pile.label,
        # An offcut was sawn all round when it came about; boards come as bought.
        trimmed=pile.piece.kind is PieceKind.OFFCUT,
    )


def _blank(one: store.Wanted, species: str) -> Blank:
    return Blank(
        one.key,
        one.size.length,
        one.size.width,
        one.size.thickness,
        one.quantity,
        species,
        one.may_turn,
        one.name,
    )


def _kinds(work: Session, episode_id: int, plan: Plan) -> dict[str, PieceKind]:
    wants = store.wanted(work, episode_id) or ()
    strips = [one.key for one in wants if one.strip]
    strips += [one.id for one in plan.job.blanks if part_and_strips(one.id)]
    return dict.fromkeys(strips, PieceKind.STRIP)


def _row_to_fill(
    work: Session, episode_id: int, version: int, dealer_lines: str
) -> PlanRow:
    """The plan to write over; a new one beside a plan that was cut."""
    row = store.latest(work, episode_id)
    if row is None:
        if version:
            raise StaleEdit("The cutting plan", {"dealer": "", "version": "0"})
        return _new(work, episode_id)
    check_version(row, version, "The cutting plan", {"dealer": row.job["dealer"]})
    return _new(work, episode_id) if row.cut_on else row


def _new(work: Session, episode_id: int) -> PlanRow:
    row = PlanRow(episode_id=episode_id)
    work.add(row)
    return row


def _fill(row: PlanRow, plan: Plan, dealer_lines: str, now: datetime) -> None:
    kept: dict[str, Any] = job_document(plan.job) | {"dealer": dealer_lines}
    row.job, row.answer, row.made_at = kept, answer_document(plan), now


def _day(typed: str, now: datetime, zone: str) -> date:
    """The day it was done, on the shop's calendar."""
    if not typed.strip():
        raise WorkshopError("The day is missing. Type it like 2026-03-02.", input="on")
    return read_past_day(typed, now.astimezone(ZoneInfo(zone)).date(), input="on")
