"""The cutting job of an episode as rack, design, settings and wishes have it now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy.orm import Session

from app.core.cutting.job import Blank, Job, Keep, Machine, OffcutValue, Saw, Stock
from app.core.cutting.open_ways import choice_of
from app.core.cutting.plan import Plan
from app.core.errors import WorkshopError
from app.core.length import Length
from app.core.movement import PieceKind
from app.core.shop import Shop
from app.core.wood import species_or_plain
from app.services import dealer, plan_wishes, settings, wood_ways
from app.services.plan_wishes import Wishes
from app.store import plans as store
from app.store import rack
from app.store.schema import PlanRow

OFFERED = (PieceKind.OFFCUT, PieceKind.BOARD, PieceKind.SHEET, PieceKind.STRIP)


@dataclass(frozen=True, slots=True)
class Asked:
    """What a plan is asked for: what the dealer sells, as typed, and the wishes."""

    dealer: str = ""
    wishes: Wishes = Wishes()

    @classmethod
    def of(cls, row: PlanRow | None) -> Asked:
        """What a stored plan was asked for; nothing where there is none."""
        if row is None:
            return cls()
        return cls(row.job["dealer"], plan_wishes.of(row.job))


def missing(wants: tuple[store.Wanted, ...] | None) -> str:
    """Why there is nothing to plan, as a sentence; empty where there is something."""
    if wants is None:
        return "No design yet, so nothing to cut."
    return "" if wants else "Every blank of this design has been cut."


def job_now(work: Session, episode_id: int, asked: Asked) -> Job:
    """The job as rack, design and settings have it now, with its wishes.

    Raises WorkshopError where there is nothing to cut.
    """
    return asked.wishes.on(job_unwished(work, episode_id, asked.dealer))


def job_unwished(work: Session, episode_id: int, dealer_lines: str) -> Job:
    """The job before any wish: every board that is there, nothing bound.

    Raises WorkshopError where there is nothing to cut.
    """
    wants = store.still_wanted(work, episode_id)
    if not wants:
        raise WorkshopError(missing(wants) + " Save a design that needs wood first.")
    shop = settings.within(work).shop
    called = names_of(wants)
    blanks = blanks_of(work, episode_id, wants, called, shop)
    return job_for(work, blanks, called, dealer_lines, shop)


def names_of(wants: Iterable[store.Wanted]) -> dict[str, str]:
    """What each wood is called in a job, whatever else the trade calls it."""
    return {_species(one.species): one.species for one in reversed([*wants])}


def blanks_of(
    work: Session,
    episode_id: int,
    wants: Sequence[store.Wanted],
    called: Mapping[str, str],
    shop: Shop,
) -> tuple[Blank, ...]:
    """What a design wants as blanks of a job, with how they may be glued up."""
    return wood_ways.allowed(
        work,
        episode_id,
        (_blank(one, called[_species(one.species)]) for one in wants),
        (one.key for one in wants if one.strip),
        shop,
    )


def job_for(
    work: Session,
    blanks: tuple[Blank, ...],
    called: Mapping[str, str],
    dealer_lines: str,
    shop: Shop,
) -> Job:
    """The job of some blanks in this shop: its rack, its saw, its ways.

    ``called`` is what each wood is called in it, see ``names_of``. Raises
    WorkshopError for a line that no dealer writes.
    """
    offered = [_stock(pile) for pile in rack.on_hand(work) if _is_free(pile)]
    return Job(
        saw=Saw(shop.kerf, shop.end_trim, shop.edge_trim),
        keep=Keep(shop.keep_length, shop.keep_width),
        stock=tuple(
            replace(one, species=called.get(_species(one.species), one.species))
            for one in (*offered, *dealer.read(dealer_lines, shop, blanks))
        ),
        blanks=blanks,
        plane=shop.plane_most,
        display=replace(shop.display, both=False),
        machine=_machine(shop),
        offcut_value=OffcutValue(shop.offcut_full_length, shop.offcut_full_width),
        resaw=wood_ways.resaw(shop),
    )


def _machine(shop: Shop) -> Machine:
    """The saw's limits; a limit of nothing is none that is known."""

    def limit(length: Length) -> Length | None:
        return length or None

    return Machine(
        longest_crosscut=limit(shop.widest_crosscut),
        longest_rip=limit(shop.longest_rip),
        shortest_piece=limit(shop.shortest_sawn),
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


def stale(work: Session, row: PlanRow, plan: Plan) -> str:
    """Why the plan no longer holds, as a sentence; empty while it does."""
    try:
        job = job_now(work, row.episode_id, Asked.of(row))
    except WorkshopError as gone:
        return str(gone)
    return changed(choice_of(plan.job).on(job), plan.job)


def changed(now: Job, then: Job) -> str:
    """Why a plan of the job ``then`` no longer holds, as a sentence, or nothing."""
    if now == then:
        return ""
    found = [
        words
        for words, one, other in (
            ("the design", now.blanks, then.blanks),
            ("the rack", now.stock, then.stock),
            ("the shop’s settings", _shop(now), _shop(then)),
        )
        if one != other
    ]
    words = " and ".join(found)
    return (
        f"After this plan was made, {words} changed. Plan the cuts again before "
        "you saw."
    )


def _shop(job: Job) -> Job:
    return replace(job, stock=(), blanks=(), pins=(), periods=())
