"""What a person does with the rack: bring wood in, work it, let it go."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlalchemy.orm import Session

from app.core import leaving, receiving, shopwork
from app.core.cutting.plan import Direction
from app.core.day import read_past_day
from app.core.errors import NotFound, WorkshopError
from app.core.inputs import Ask, ask, read
from app.core.length import Length, mm
from app.core.money import Money
from app.core.movement import Made, Movement, PieceKind, Taken
from app.core.part import Dimensions
from app.core.plain_text import check_length
from app.core.receiving import Per
from app.core.shop import Shop
from app.services import settings
from app.store import movements, rack, thread
from app.store.edits import check_version, get
from app.store.rack import Pile
from app.store.schema import MovementRow, StockRow
from app.store.workspace import Workspace

LONGEST_NOTE = 2000
LONGEST_NAME = 200
REPEATED = re.compile(r"(\d{1,3}) ?[x×] ?(\S.*)")


@dataclass(frozen=True, slots=True)
class Clock:
    """The day in the shop and the moment, as the doorway says them."""

    today: date
    now: datetime


@dataclass(frozen=True)
class Incoming:
    """What is asked of wood that comes in. Any of its fields may be left out."""

    species: str = ask("Species", Ask.TEXT)
    thickness: Length = ask("Thickness", Ask.LENGTH, help="Type it like 1 or 25 mm.")
    width: Length = ask("Width", Ask.LENGTH, help="Type it like 6 1/2 or 165 mm.")
    length: Length = ask(
        "Length", Ask.LENGTH, help="Type it like 96 or 2440 mm.", most=mm(12_000)
    )
    quantity: int = ask(
        "Pieces", Ask.COUNT, default=1, least=1, most=receiving.MOST_PIECES
    )
    kind: str = ask("Kind", Ask.CHOICE, default="board", choices=tuple(PieceKind))
    price: str = ask("Price", Ask.TEXT, default="")
    per: str = ask("Price is for", Ask.CHOICE, default=Per.PIECE, choices=tuple(Per))
    supplier: str = ask("Supplier", Ask.TEXT, default="")
    place: str = ask("Place", Ask.TEXT, default="")
    name: str = ask("Name", Ask.TEXT, default="")
    on: str = ask("Day", Ask.TEXT, default="")


@dataclass(frozen=True)
class Size:
    """The size of a piece after surfacing; what is left empty stays."""

    thickness: Length | None = ask("Thickness", Ask.LENGTH, default=None)
    width: Length | None = ask("Width", Ask.LENGTH, default=None)
    length: Length | None = ask("Length", Ask.LENGTH, default=None)


@dataclass(frozen=True)
class HandCut:
    """A cut with the kerf of the saw in hand."""

    direction: str = ask(
        "Cut", Ask.CHOICE, default=Direction.CROSSCUT, choices=tuple(Direction)
    )
    kerf: Length | None = ask("Kerf", Ask.LENGTH, default=None, least=Length(0))
    rest: str = ask(
        "What is left", Ask.CHOICE, default="keep", choices=("keep", "scrap")
    )


@dataclass(frozen=True)
class Pieces:
    """How many of a pile."""

    quantity: int = ask("Pieces", Ask.COUNT, default=1, least=1)


@dataclass(frozen=True)
class Count:
    """How many a pile is found to have."""

    counted: int = ask("Counted", Ask.COUNT, help="Type how many are there.", most=9999)


def buy(workspace: Workspace, typed: Mapping[str, str], clock: Clock) -> str:
    """Record a purchase; gives the new pile's label."""
    return _bring_in(workspace, typed, clock, receiving.bought)


def count_in(workspace: Workspace, typed: Mapping[str, str], clock: Clock) -> str:
    """Record wood that was in the shop before; gives the new pile's label."""
    return _bring_in(workspace, typed, clock, receiving.opening_count)


def _bring_in(
    workspace: Workspace,
    typed: Mapping[str, str],
    clock: Clock,
    how: Callable[[list[Made], int, str], Movement],
) -> str:
    with workspace.write() as work:
        shop = settings.within(work).shop
        wanted = read(Incoming, asked(Incoming, typed), shop)
        size = Dimensions(wanted.length, wanted.width, wanted.thickness)
        # One wood, one name: plans match species by it.
        species = " ".join(wanted.species.split()).lower()
        piece = receiving.rough(PieceKind(wanted.kind), short(species, "species"), size)
        each = Money.read(wanted.price, shop.currency, input="price")
        price = receiving.price(each, Per(wanted.per), piece, wanted.quantity)
        made = Made(
            piece,
            wanted.quantity,
            name=short(wanted.name, "name"),
            place=short(wanted.place, "place"),
        )
        movement = how([made], price.paid, price.working if price.paid else "")
        supplier = short(wanted.supplier, "supplier")
        row = record(work, movement, wanted.on, clock, supplier=supplier)
        return get(work, StockRow, row.lines[0].stock_id or 0, "Stock").label


def plane(
    workspace: Workspace,
    label: str,
    typed: Mapping[str, str],
    clock: Clock,
    episode_id: int | None = None,
) -> str:
    """Surface pieces of a pile; gives the label of the thinner ones."""

    def planed(pile: Pile, shop: Shop) -> Movement:
        given = read(Size, asked(Size, typed), shop)
        size = pile.piece.size
        after = replace(
            size,
            thickness=given.thickness or size.thickness,
            width=given.width or size.width,
            length=given.length or size.length,
        )
        movement = shopwork.surfaced(pile.taking(_quantity(typed, shop)), after)
        return _kept_with(movement, pile)

    return _new_label(workspace, label, typed, clock, planed, episode_id)


def cut(
    workspace: Workspace, label: str, typed: Mapping[str, str], clock: Clock
) -> str:
    """Cut pieces of a pile by hand; gives the label of the first piece cut."""

    def cut_up(pile: Pile, shop: Shop) -> Movement:
        given = read(HandCut, asked(HandCut, typed), shop)
        return shopwork.cut_by_hand(
            pile.taking(_quantity(typed, shop)),
            Direction(given.direction),
            _sizes(typed.get("sizes", ""), shop),
            shop.kerf if given.kerf is None else given.kerf,
            keep_rest=given.rest == "keep",
            place=pile.place,
        )

    return _new_label(workspace, label, typed, clock, cut_up)


def _kept_with(movement: Movement, pile: Pile) -> Movement:
    """What is made stays what it was: its name, its place, its part."""
    made = (
        replace(line, name=pile.name, place=pile.place, part_key=pile.part_key)
        for line in movement.made
    )
    return replace(movement, made=tuple(made))


def _sizes(text: str, shop: Shop) -> list[Length]:
    """``24, 2 x 18 1/2``: one size after the other, as they come off the board."""
    sizes = []
    for item in filter(None, (part.strip() for part in re.split(r"[,;\n]", text))):
        repeated = REPEATED.fullmatch(item)
        times, size = (int(repeated[1]), repeated[2]) if repeated else (1, item)
        sizes += [Length.read(size, shop.unit, input="sizes")] * times
        if len(sizes) > shopwork.MOST_CUTS:
            break
    return sizes


def discard(
    workspace: Workspace, label: str, typed: Mapping[str, str], clock: Clock
) -> None:
    """Throw pieces of a pile out, with the reason."""
    _work(workspace, label, typed, clock, _leaving(typed, "reason", leaving.discarded))


def give_away(
    workspace: Workspace, label: str, typed: Mapping[str, str], clock: Clock
) -> None:
    """Give pieces of a pile to somebody."""
    _work(workspace, label, typed, clock, _leaving(typed, "note", leaving.given_away))


def _leaving(
    typed: Mapping[str, str], words: str, how: Callable[[Taken, str], Movement]
) -> Callable[[Pile, Shop], Movement]:
    """Some pieces of a pile go for good; the field ``words`` says why or to whom."""

    def gone(pile: Pile, shop: Shop) -> Movement:
        return how(pile.taking(_quantity(typed, shop)), note(typed, words))

    return gone


def recount(
    workspace: Workspace, label: str, typed: Mapping[str, str], clock: Clock
) -> None:
    """Record what a pile was found to have, when it differs from the record."""

    def counted(pile: Pile, shop: Shop) -> Movement:
        there = read(Count, asked(Count, typed), shop).counted
        more = there - pile.quantity
        if not more:
            raise WorkshopError(
                f"The record already says {there} of {pile.label}: nothing to change.",
                input="counted",
            )
        joining = Made(pile.piece, max(more, 1), stock_id=pile.stock_id)
        difference = joining if more > 0 else pile.taking(-more)
        return leaving.recounted(difference, there, note(typed, "note"))

    _work(workspace, label, typed, clock, counted)


def move(workspace: Workspace, label: str, place: str, version: int) -> None:
    """Say where a pile stands now. Raises StaleEdit."""
    with workspace.write() as work:
        row = get(work, StockRow, rack.pile(work, label).stock_id, "Stock")
        check_version(row, version, f"The place of {label}", {"place": row.place})
        row.place = short(place, "place")


def undo(
    workspace: Workspace, label: str, movement_id: int, reason: str, clock: Clock
) -> None:
    """Take a record of this pile back, unless later ones build on it."""
    with workspace.write() as work:
        pile = rack.pile(work, label)
        if movement_id not in {one.id for one in thread.history(work, pile.stock_id)}:
            raise NotFound(f"Record {movement_id} is not one of {label}’s.")
        take_back(work, movement_id, reason, clock)


def take_back(work: Session, movement_id: int, reason: str, clock: Clock) -> None:
    """Reverse a record, with the reason as typed."""
    movements.reverse(
        work,
        movement_id,
        on=clock.today,
        now=clock.now,
        zone=settings.within(work).zone,
        note=note({"reason": reason}, "reason"),
    )


def _work(
    workspace: Workspace,
    label: str,
    typed: Mapping[str, str],
    clock: Clock,
    decide: Callable[[Pile, Shop], Movement],
    episode_id: int | None = None,
) -> list[int]:
    """Decide on a pile as it stands now and record it; gives the new piles' ids."""
    with workspace.write() as work:
        pile = rack.pile(work, label)
        movement = decide(pile, settings.within(work).shop)
        day = typed.get("on", "")
        row = record(work, movement, day, clock, episode_id=episode_id)
        return [line.stock_id or 0 for line in row.lines if line.side == "made"]


def _new_label(
    workspace: Workspace,
    label: str,
    typed: Mapping[str, str],
    clock: Clock,
    decide: Callable[[Pile, Shop], Movement],
    episode_id: int | None = None,
) -> str:
    made = _work(workspace, label, typed, clock, decide, episode_id)
    with workspace.read() as work:
        return get(work, StockRow, made[0], "Stock").label


def record(
    work: Session,
    movement: Movement,
    on: str,
    clock: Clock,
    *,
    supplier: str = "",
    episode_id: int | None = None,
) -> MovementRow:
    """Record a movement with the workspace's zone and money, on a typed day.

    Nothing typed is today; a day to come is refused.
    """
    known = settings.within(work)
    day = read_past_day(on, clock.today, input="on")
    return movements.record(
        work,
        movement,
        on=day,
        now=clock.now,
        zone=known.zone,
        currency=known.shop.currency,
        episode_id=episode_id,
        supplier=supplier,
    )


def asked(inputs: type, typed: Mapping[str, str]) -> dict[str, str]:
    """What was typed into the fields of one form."""
    names = inputs.__dataclass_fields__  # type: ignore[attr-defined]
    return {name: typed[name] for name in names if name in typed}


def _quantity(typed: Mapping[str, str], shop: Shop) -> int:
    return read(Pieces, asked(Pieces, typed), shop).quantity


def short(text: str, input: str) -> str:
    """Words of one line; refuses them where they are too long for a name."""
    check_length(text.strip(), LONGEST_NAME, "That", input=input)
    return text.strip()


def note(typed: Mapping[str, str], name: str) -> str:
    """A typed reason or remark; refuses one that is too long."""
    text = typed.get(name, "").strip()
    check_length(text, LONGEST_NOTE, "That", input=name)
    return text
