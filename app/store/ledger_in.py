"""A series' ledger on its way in: checked on paper, then recorded."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.core.movement import Made, Movement, MovementKind, PartMade, Piece, Taken
from app.store import movements, rack
from app.store.ledger import AMOUNTS, POINTERS, Ledger, Record
from app.store.records import BadRecord, from_record
from app.store.schema import Episode, MovementLine, MovementRow, PlanRow, StockRow

LINE_POINTERS = {"movement_id": 0, "position": 0, "stock_id": None}


@dataclass(frozen=True, slots=True)
class Pile:
    """A pile as the file describes it."""

    row: StockRow
    piece: Piece
    episode: int | None


def read_piles(ledger: Ledger) -> dict[str, Pile]:
    """The piles by label. Raises BadRecord."""
    piles: dict[str, Pile] = {}
    for at, record in enumerate(ledger.stock, 1):
        try:
            rest = {k: v for k, v in record.items() if k != "episode"}
            row = from_record(StockRow, rest, episode_id=None)
            piece = rack.piece(row)
        except (BadRecord, KeyError, TypeError, ValueError) as error:
            raise BadRecord(f"“stock”, record {at}: {error}") from error
        if row.label in piles:
            raise BadRecord(f"“stock”, record {at}: {row.label} is there twice.")
        piles[row.label] = Pile(row, piece, record.get("episode"))
    return piles


def check(ledger: Ledger) -> None:
    """Refuse a ledger in which wood or money appears or vanishes.

    Raises BadRecord naming the movement.
    """
    piles = read_piles(ledger)
    ids = {label: at for at, label in enumerate(piles, 1)}
    held: Counter[str] = Counter()
    for at, record in enumerate(ledger.movements, 1):
        if record.get("number") != at:
            raise BadRecord(f"“movements”, record {at}: its number is not {at}.")
        read_movement(at, record, piles, ids)
        for line in record["lines"]:
            _count(at, line, held)


def _count(at: int, line: Record, held: Counter[str]) -> None:
    if line["side"] == "made":
        held[line["stock"]] += line["quantity"]
    elif line["side"] == "taken":
        held[line["stock"]] -= line["quantity"]
        if held[line["stock"]] < 0:
            raise BadRecord(
                f"“movements”, record {at}: {line['stock']} would fall below zero."
            )


def read_movement(
    at: int, record: Record, piles: dict[str, Pile], ids: dict[str, int]
) -> Movement:
    """A record as a balanced movement; ``ids`` are the piles there already."""
    try:
        lines = [_line(line, piles, ids) for line in record["lines"]]
        return Movement(
            MovementKind(record["kind"]),
            tuple(line for line in lines if isinstance(line, Taken)),
            tuple(line for line in lines if isinstance(line, Made)),
            tuple(line for line in lines if isinstance(line, PartMade)),
            note=record["note"],
            **{name: record[name] for name in (*AMOUNTS, "paid", "written_off")},
        )
    except (WorkshopError, BadRecord, KeyError, TypeError, ValueError) as error:
        raise BadRecord(f"“movements”, record {at}: {error}") from error


def _line(record: Record, piles: dict[str, Pile], ids: dict[str, int]) -> Any:
    rest = {key: value for key, value in record.items() if key != "stock"}
    row = from_record(MovementLine, rest, **LINE_POINTERS)
    if row.side == "part":
        return PartMade(
            row.part_key or "", row.part_name or "", row.quantity, row.volume, row.cost
        )
    if row.side not in ("taken", "made") or record.get("stock") not in piles:
        raise BadRecord(f"there is no stock {record.get('stock')!r} to be {row.side}.")
    pile = piles[record["stock"]]
    if row.volume != pile.piece.volume * row.quantity:
        raise BadRecord(f"the volume of {pile.row.label} is not that of its pieces.")
    if row.side == "taken":
        return Taken(ids[pile.row.label], pile.piece, row.quantity, row.cost)
    return Made(
        pile.piece,
        row.quantity,
        row.cost,
        name=pile.row.name or "",
        place=pile.row.place or "",
        part_key=pile.row.part_key or "",
        stock_id=ids.get(pile.row.label),
        label=pile.row.label,
    )


@dataclass
class Recording:
    """Records a checked ledger, oldest first; ``ids`` are its piles' new rows."""

    work: Session
    ledger: Ledger
    episodes: dict[int, Episode]
    plans: dict[tuple[int, int], PlanRow]
    ids: dict[str, int] = field(default_factory=dict)

    def run(self) -> dict[str, int]:
        """Record every movement. Raises BadRecord, WorkshopError."""
        piles = read_piles(self.ledger)
        numbers: dict[int, int] = {}
        for at, record in enumerate(self.ledger.movements, 1):
            row = self._record(at, record, piles)
            if record.get("reverses") is not None:
                row.reverses_id = numbers[record["reverses"]]
            numbers[at] = row.id
        self.work.flush()
        return self.ids

    def _record(self, at: int, record: Record, piles: dict[str, Pile]) -> MovementRow:
        movement = read_movement(at, record, piles, self.ids)
        left = ("episode", "plan", "reverses", "number", "lines")
        rest = {key: value for key, value in record.items() if key not in left}
        facts = from_record(MovementRow, rest, **dict.fromkeys(POINTERS))
        number, plan = record.get("episode"), record.get("plan")
        episode = self._episode(at, number)
        row = movements.record(
            self.work,
            movement,
            on=facts.on,
            now=facts.recorded_at,
            zone=facts.zone,
            currency=facts.currency,
            episode_id=episode.id if episode else None,
            plan_id=self.plans[number, plan].id if number and plan else None,
            supplier=facts.supplier or "",
        )
        made = [line["stock"] for line in record["lines"] if line["side"] == "made"]
        written = [line for line in row.lines if line.side == "made"]
        for label, line in zip(made, written, strict=True):
            if label not in self.ids:
                self._new(at, label, piles[label], line)
        return row

    def _new(self, at: int, label: str, pile: Pile, line: MovementLine) -> None:
        stock = self.work.get_one(StockRow, line.stock_id)
        self.ids[label] = stock.id
        episode = self._episode(at, pile.episode)
        stock.episode_id = episode.id if episode else None

    def _episode(self, at: int, number: int | None) -> Episode | None:
        if number is not None and number not in self.episodes:
            raise BadRecord(f"“movements”, record {at}: there is no part {number}.")
        return self.episodes[number] if number is not None else None
