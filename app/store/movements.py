"""The ledger of wood: one function writes it, nothing edits it."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from datetime import date, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.core.movement import (
    Made,
    Movement,
    MovementKind,
    PartMade,
    Piece,
    Taken,
    reversal,
)
from app.store import rack
from app.store.edits import get
from app.store.schema import MovementLine, MovementRow, PlanRow, StockRow

# A code stands in an address and on the end of a board.
CODE = re.compile(r"[A-Za-z0-9-]{1,20}", re.ASCII)
FROM_OUTSIDE = (MovementKind.BOUGHT, MovementKind.OPENING, MovementKind.FOUND)


def record(
    work: Session,
    movement: Movement,
    *,
    on: date,
    now: datetime,
    zone: str,
    currency: str,
    episode_id: int | None = None,
    plan_id: int | None = None,
    supplier: str = "",
) -> MovementRow:
    """Record a balanced movement; the rack is then what it says.

    ``on`` is the day in the shop, ``now`` the moment of recording. New piles
    get labels and belong to ``episode_id``, unless the wood came from outside.
    Raises WorkshopError where a pile has fewer pieces than are taken.
    """
    return _written(
        work,
        movement,
        MovementRow(
            kind=movement.kind,
            on=on,
            recorded_at=now,
            zone=zone,
            currency=currency,
            episode_id=episode_id,
            plan_id=plan_id,
            supplier=supplier,
        ),
    )


def _written(work: Session, movement: Movement, row: MovementRow) -> MovementRow:
    _refuse_what_is_not_there(work, movement)
    for pile in ("from_outside", "to_outside", "kerf", "chips", "scrap"):
        setattr(row, pile, getattr(movement, pile))
    row.paid, row.written_off = movement.paid, movement.written_off
    row.note = movement.note
    work.add(row)
    work.flush()
    origin = _origin(work, movement, row)
    lines = [_taken(line) for line in movement.taken]
    lines += [_made(work, line, row.id, origin) for line in movement.made]
    lines += [_part(line) for line in movement.parts]
    for position, line in enumerate(lines):
        line.position = position
        row.lines.append(line)
    work.flush()
    return row


def _refuse_what_is_not_there(work: Session, movement: Movement) -> None:
    """No pile below zero, no piece that is not what it is said to be."""
    wanted: Counter[int] = Counter()
    money: Counter[int] = Counter()
    for line in movement.taken:
        wanted[line.stock_id] += line.quantity
        money[line.stock_id] += line.cost
    held = {pile.stock_id: pile for pile in rack.piles(work, wanted)}
    for line in movement.taken:
        _check_piece(held.get(line.stock_id), line)
    for stock_id, quantity in wanted.items():
        _check_pile(held[stock_id], quantity, money[stock_id])


def _check_piece(pile: rack.Pile | None, line: Taken) -> None:
    if pile is None:
        raise WorkshopError(
            f"Stock {line.stock_id} is not in this workspace. Take from what the "
            "rack lists."
        )
    if pile.piece != line.piece:
        raise WorkshopError(
            f"{pile.label} is not the piece this movement takes: its size or kind "
            "differs. Open the rack again and take it from there."
        )


def _check_pile(pile: rack.Pile, quantity: int, cost: int) -> None:
    if quantity > pile.quantity:
        raise WorkshopError(
            f"{quantity} of {pile.label} are wanted and {pile.quantity} are on the "
            "rack. Take fewer, or count the pile again.",
            input="quantity",
            nearest=str(pile.quantity),
        )
    emptied = quantity == pile.quantity
    if cost > pile.cost or (emptied and cost != pile.cost):
        raise WorkshopError(
            f"{pile.label} carries {pile.cost} in money and this movement takes "
            f"{cost}: the last pieces take all of it, and never more."
        )


def _origin(work: Session, movement: Movement, row: MovementRow) -> int | None:
    """The episode new piles belong to; work outside one keeps a common origin."""
    if movement.kind in FROM_OUTSIDE or row.episode_id is not None:
        return None if movement.kind in FROM_OUTSIDE else row.episode_id
    ids = {line.stock_id for line in movement.taken}
    before = {pile.episode_id for pile in rack.piles(work, ids)}
    return before.pop() if len(before) == 1 else None


def _taken(line: Taken) -> MovementLine:
    return MovementLine(
        side="taken",
        stock_id=line.stock_id,
        quantity=line.quantity,
        volume=line.volume,
        cost=line.cost,
    )


def _made(
    work: Session, line: Made, movement_id: int, origin: int | None
) -> MovementLine:
    stock_id = line.stock_id
    if stock_id is None:
        stock_id = _new_pile(work, line, movement_id, origin)
    elif (row := work.get(StockRow, stock_id)) is None or rack.piece(row) != line.piece:
        raise WorkshopError(
            "These pieces cannot join that pile: it holds pieces of another kind or "
            "size. Count them in as a pile of their own."
        )
    return MovementLine(
        side="made",
        stock_id=stock_id,
        quantity=line.quantity,
        volume=line.volume,
        cost=line.cost,
    )


def _part(line: PartMade) -> MovementLine:
    return MovementLine(
        side="part",
        part_key=line.key,
        part_name=line.name,
        quantity=line.quantity,
        volume=line.volume,
        cost=line.cost,
    )


def _new_pile(work: Session, line: Made, movement_id: int, origin: int | None) -> int:
    piece = line.piece
    row = StockRow(
        label=_label(work, piece, line.label),
        kind=piece.kind,
        species=piece.species,
        length_nm=piece.size.length.nm,
        width_nm=piece.size.width.nm,
        thickness_nm=piece.size.thickness.nm,
        strips=[
            {"species": strip.species, "width_nm": strip.width.nm}
            for strip in piece.strips
        ],
        name=line.name,
        part_key=line.part_key,
        place=line.place,
        episode_id=origin,
        made_by=movement_id,
    )
    work.add(row)
    work.flush()
    return row.id


def _label(work: Session, piece: Piece, wanted: str) -> str:
    """A code to chalk on the end: species initials and a running number.

    The number alone is unique, so a smudged letter does no harm.
    """
    number = (work.scalar(select(func.max(StockRow.id))) or 0) + 1
    label = wanted if CODE.fullmatch(wanted) else f"{_initials(piece.species)}{number}"
    while work.scalar(select(StockRow.id).where(StockRow.label == label)):
        label = f"{_initials(piece.species)}{number}"
        number += 1
    return label


def _initials(species: str) -> str:
    """The first letter of each species' last word: ``hard maple`` is M."""
    plain = unicodedata.normalize("NFKD", species).encode("ascii", "ignore").decode()
    words = (name.split()[-1] for name in plain.split("+") if name.split())
    letters = "".join(word[0].upper() for word in words if word[0].isalpha())
    return letters[:3] or "X"


def reverse(
    work: Session, movement_id: int, *, on: date, now: datetime, zone: str, note: str
) -> MovementRow:
    """Record the movement that takes another back; its plan may be cut again.

    Raises WorkshopError, naming the records, where later ones build on what it
    made, and where it was taken back already.
    """
    row = get(work, MovementRow, movement_id, "Record")
    _refuse_what_cannot_go_back(work, row)
    if row.plan_id is not None and (plan := work.get(PlanRow, row.plan_id)):
        plan.cut_on = None
        plan.version += 1
    return _written(
        work,
        reversal(as_movement(work, row), note),
        MovementRow(
            kind=MovementKind.REVERSED,
            on=on,
            recorded_at=now,
            zone=zone,
            currency=row.currency,
            episode_id=row.episode_id,
            plan_id=row.plan_id,
            reverses_id=row.id,
        ),
    )


def _refuse_what_cannot_go_back(work: Session, row: MovementRow) -> None:
    if row.reverses_id is not None:
        raise WorkshopError(
            f"{named(row)} is itself an undoing. Record anew what did happen."
        )
    undone = work.scalar(select(MovementRow).where(MovementRow.reverses_id == row.id))
    if undone is not None:
        raise WorkshopError(f"{named(row)} was taken back already on {undone.on}.")
    if later := _building_on(work, row):
        names = "; ".join(named(each) for each in later)
        raise WorkshopError(
            f"{named(row)} cannot be taken back while later records build on what it "
            f"made: {names}. Take those back first, the latest first."
        )


def _building_on(work: Session, row: MovementRow) -> list[MovementRow]:
    """Later standing movements that touch the piles this one made."""
    made = [line.stock_id for line in row.lines if line.side == "made"]
    query = (
        select(MovementRow)
        .join(MovementLine)
        .where(MovementLine.stock_id.in_(made), MovementRow.id > row.id)
        .distinct()
        .order_by(MovementRow.id)
    )
    return list(work.scalars(rack.standing(query)))


def named(row: MovementRow) -> str:
    """A record by number, kind and day, for sentences."""
    return f"Record {row.id} ({row.kind}, {row.on})"


def as_movement(work: Session, row: MovementRow) -> Movement:
    """The core's value of a recorded movement. Raises Unbalanced if it is none."""
    taken, made, parts = [], [], []
    for line in row.lines:
        if line.side == "part":
            name = line.part_name
            parts.append(
                PartMade(line.part_key, name, line.quantity, line.volume, line.cost)
            )
            continue
        stock = get(work, StockRow, line.stock_id or 0, "Stock")
        piece = rack.piece(stock)
        if line.side == "taken":
            taken.append(Taken(stock.id, piece, line.quantity, line.cost))
        else:
            made.append(Made(piece, line.quantity, line.cost, stock_id=stock.id))
    return Movement(
        MovementKind(row.kind),
        tuple(taken),
        tuple(made),
        tuple(parts),
        from_outside=row.from_outside,
        to_outside=row.to_outside,
        kerf=row.kerf,
        chips=row.chips,
        scrap=row.scrap,
        paid=row.paid,
        written_off=row.written_off,
        note=row.note,
    )
