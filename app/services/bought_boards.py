"""Boards of random width: how much to buy, and the real ones once they are bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from sqlalchemy.orm import Session

from app.core import receiving
from app.core.cutting.how_much import Amount, how_much, sold
from app.core.cutting.job import Blank
from app.core.cutting.plan import Plan
from app.core.cutting.random_widths import Must, RandomWidths
from app.core.cutting.resawn import pieces, told
from app.core.cutting.written import read_plan
from app.core.errors import NotFound, WorkshopError
from app.core.length import Length
from app.core.money import Money
from app.core.movement import Made, Movement, Piece, PieceKind
from app.core.part import Dimensions
from app.core.shop import Shop
from app.services import buying, dealer, episodes, plans, rack_work, settings
from app.services.boards_typed import boards_typed
from app.services.rack_work import Clock
from app.store import plans as store
from app.store.edits import check_version
from app.store.schema import PlanRow
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class ToChoose:
    """One of the dealer's lines of which real boards are to be chosen.

    ``about`` and ``most`` are how much of it to buy, on average and where the
    boards fall badly; ``cost`` and ``most_cost`` what that is, minor units. ``drawn``
    is what the drawn boards come to, if such boards can be picked from the pile.
    ``musts`` are what some boards must measure. ``waste`` is whole percent of
    ``about``; None where the boards are resawn, and what is drawn is all to go by.
    """

    id: str
    name: str
    per: str
    rate: int
    rate_typed: str
    about: str
    most: str
    drawn: str
    cost: int
    most_cost: int
    boards: tuple[int, int]
    waste: int | None
    musts: tuple[Must, ...]


def show_for(workspace: Workspace, episode_id: int) -> tuple[ToChoose, ...]:
    """What is to be chosen at the dealer's for the plan that stands."""
    with workspace.read() as work:
        row = store.latest(work, episode_id)
        if row is None or row.cut_on:
            return ()
        plan = read_plan(row.job, row.answer)
        wanted = buying.random_lines(plan)
        if not wanted:
            return ()
        shop = settings.within(work).shop
        lines = _lines(row, shop)
        found = ((lines[key], _on(plan, key)) for key in wanted if key in lines)
        return tuple(_to_choose(line, on, plan, shop) for line, on in found)


def _lines(row: PlanRow, shop: Shop) -> dict[str, RandomWidths]:
    try:
        return {one.id: one for one in dealer.random_lines(row.job["dealer"], shop)}
    except WorkshopError:
        return {}  # typed in another unit; the plan says that the settings changed


def _on(plan: Plan, line_id: str) -> tuple[Blank, ...]:
    """The blanks that the plan cuts from boards of one line."""
    counts: Counter[str] = Counter()
    for layout in plan.layouts:
        if dealer.is_random(layout.stock) and dealer.line_of(layout.stock) == line_id:
            for piece in layout.pieces:
                counts[piece.blank] += layout.copies
    return tuple(
        Blank(
            one.id,
            one.length,
            one.width,
            one.thickness,
            counts[one.id],
            one.species,
            one.may_turn,
        )
        for one in plan.job.blanks
        if counts[one.id]
    )


def _to_choose(
    line: RandomWidths, blanks: tuple[Blank, ...], plan: Plan, shop: Shop
) -> ToChoose:
    drawn = _drawn(line, plan)
    amount = None if _is_resawn(line, plan) else how_much(line, blanks, plan.job.saw)
    known = amount is not None
    amount = amount or Amount(drawn, drawn, drawn, (0, 0), ())
    return ToChoose(
        id=line.id,
        name=line.name,
        per=line.per.value,
        rate=line.rate,
        rate_typed=Money(line.rate, shop.currency).figure,
        about=_bill(amount.average, line),
        most=_bill(amount.most, line) if amount.most > amount.average else "",
        drawn=_bill(drawn, line),
        cost=round(line.rate * amount.average),
        most_cost=round(line.rate * amount.most),
        boards=amount.boards,
        waste=amount.waste(amount.average) if known else None,
        musts=amount.musts,
    )


def _is_resawn(line: RandomWidths, plan: Plan) -> bool:
    return any(dealer.line_of(one.stock) == line.id for one in told(plan))


def _drawn(line: RandomWidths, plan: Plan) -> Fraction:
    """What the boards come to that the plan is drawn on."""
    stock = {one.id: one for one in plan.job.stock}
    total = Fraction(0)
    for key, count in pieces(plan).items():
        if dealer.is_random(key) and dealer.line_of(key) == line.id:
            board = stock[key]
            total += line.amount(board.width or Length(0), board.length) * count
    return sold(total, line.per)


def _bill(amount: Fraction, line: RandomWidths) -> str:
    words = receiving.amount(amount, line.per)
    return words.replace(".00 ", " ")


def buy(
    workspace: Workspace,
    slug: str,
    number: int,
    line_id: str,
    version: int,
    typed: Mapping[str, str],
    clock: Clock,
) -> None:
    """Record the boards of one of the dealer's lines as they were bought.

    All of them are one purchase. The plan stays as it is: it is to be made again.
    Raises WorkshopError for boards that cannot be read, StaleEdit where the plan
    was made anew in between, NotFound where it wants none of that line.
    """
    with workspace.write() as work:
        row = _standing(work, slug, number, version, typed)
        known = settings.within(work)
        line = _lines(row, known.shop).get(line_id)
        if line is None:
            raise NotFound("This plan wants no such boards any more. Open it again.")
        movement = _bought(line, typed, known.shop)
        rack_work.record(
            work,
            movement,
            typed.get("on", ""),
            clock,
            supplier=rack_work.short(typed.get("supplier", ""), "supplier"),
            episode_id=row.episode_id,
        )


def plan_again(workspace: Workspace, slug: str, number: int, now: datetime) -> None:
    """Plan the cuts anew as they were planned before, from what the rack has now.

    Where that cannot be done the purchase stands, and the page says that the plan no
    longer holds and why.
    """
    with workspace.read() as work:
        row = store.latest(work, episodes.within(work, slug, number).id)
        if row is None:
            return
        asked = (row.version, row.job["dealer"], row.job["job"]["first"])
    with suppress(WorkshopError):
        plans.make(workspace, slug, number, *asked, now)


def _standing(
    work: Session, slug: str, number: int, version: int, typed: Mapping[str, str]
) -> PlanRow:
    row = store.latest(work, episodes.within(work, slug, number).id)
    if row is None:
        raise NotFound("There is no plan of this episode's cuts yet.")
    if row.cut_on:
        raise WorkshopError(
            "This plan was marked as cut already. Record the boards on the rack."
        )
    stored = {"boards": "", "version": str(row.version)}
    check_version(row, version, "The cutting plan", stored)
    return row


def _bought(line: RandomWidths, typed: Mapping[str, str], shop: Shop) -> Movement:
    boards = boards_typed(typed.get("boards", ""), shop)
    place = rack_work.short(typed.get("place", ""), "place")
    made = [
        Made(_piece(line, width, length, line.thickness), count, place=place)
        for (width, length), count in boards.items()
    ]
    charged = [
        (_piece(line, width, length, line.charged), count)
        for (width, length), count in boards.items()
    ]
    each = Money(line.rate, shop.currency)
    if typed.get("rate", "").strip():
        each = Money.read(typed["rate"], shop.currency, input="rate")
    units = sum(
        (receiving.tally(line.per, piece, count) for piece, count in charged),
        Fraction(0),
    )
    paid, note = round(each.minor * units), ""
    if typed.get("paid", "").strip():
        paid = Money.read(typed["paid"], shop.currency, input="paid").minor
    else:
        note = f"{receiving.amount(units, line.per)} at {each} a {line.per}"
    return receiving.bought(made, paid, note)


def _piece(
    line: RandomWidths, width: Length, length: Length, thickness: Length
) -> Piece:
    size = Dimensions(length, width, thickness)
    species = " ".join(line.species.split()).lower()
    return receiving.rough(PieceKind.BOARD, species, size)
