"""One series' own ledger, cut out of the workspace's so that it balances alone.

A series' movements are those of its episodes, and those without an episode
(purchases, counts, surfacing) whose wood no other series touched. Wood that
comes from elsewhere enters with an opening count of exactly what the series
takes, at the cost it carried; wood that went elsewhere leaves as given away.
So two series that share wood can both be brought into one workspace, and no
board is there twice.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.movement import MovementKind
from app.store.records import to_record
from app.store.schema import Episode, MovementLine, MovementRow, Series, StockRow

POINTERS = frozenset({"episode_id", "plan_id", "reverses_id"})
AMOUNTS = ("from_outside", "to_outside", "kerf", "chips", "scrap")
Record = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Ledger:
    """Records of piles and movements; piles by label, movements by number."""

    stock: list[Record]
    movements: list[Record]


def of_series(work: Session, series: Series, plan_numbers: dict[int, int]) -> Ledger:
    """The ledger of ``series``; ``plan_numbers`` names its plans by row id."""
    return _Cutting(work, series, plan_numbers).ledger()


def own_movements(work: Session, series_id: int) -> frozenset[int]:
    """Ids of the movements that belong to this series alone."""
    episodes = work.scalars(select(Episode))
    series_of: dict[int | None, int] = {row.id: row.series_id for row in episodes}
    rows = list(work.scalars(select(MovementRow).order_by(MovementRow.id)))
    loose = [row for row in rows if row.episode_id is None]
    group = _groups(loose)
    touched: dict[int, set[int]] = defaultdict(set)
    for row in rows:
        if row.episode_id is not None:
            for stock in _stock(row) & group.keys():
                touched[group[stock]].add(series_of[row.episode_id])
    own = {row.id for row in rows if series_of.get(row.episode_id) == series_id}
    own |= {
        row.id
        for row in loose
        if any(touched[group[stock]] == {series_id} for stock in _stock(row))
    }
    return frozenset(own)


def _stock(row: MovementRow) -> set[int]:
    return {line.stock_id for line in row.lines if line.stock_id is not None}


def _groups(loose: list[MovementRow]) -> dict[int, int]:
    """Piles joined by movements without an episode, each with its group's name."""
    group: dict[int, int] = {}
    for row in loose:
        piles = _stock(row)
        joined = {group[pile] for pile in piles if pile in group} | piles
        name = min(joined, default=0)
        for pile, old in list(group.items()):
            if old in joined:
                group[pile] = name
        group.update(dict.fromkeys(piles, name))
    return group


@dataclass
class _Cutting:
    """The walk through the workspace's movements, oldest first."""

    work: Session
    series: Series
    plan_numbers: dict[int, int]
    movements: list[Record] = field(default_factory=list)
    stock: list[Record] = field(default_factory=list)
    numbers: dict[int, int] = field(default_factory=dict)
    entered: set[int] = field(default_factory=set)

    def ledger(self) -> Ledger:
        own = own_movements(self.work, self.series.id)
        self.episodes = {row.id: row.number for row in self.series.episodes}
        self.piles = {row.id: row for row in self.work.scalars(select(StockRow))}
        ours = {pile.id for pile in self.piles.values() if pile.made_by in own}
        rows = self.work.scalars(select(MovementRow).order_by(MovementRow.id))
        for row in rows:
            if row.id in own:
                foreign = [ln for ln in row.lines if ln.stock_id not in {*ours, None}]
                self._enter(row, [ln for ln in foreign if ln.side == "taken"])
                self._own(row)
                self._leave(row, [ln for ln in foreign if ln.side == "made"])
            else:
                shared = [line for line in row.lines if line.stock_id in ours]
                self._enter(row, [ln for ln in shared if ln.side == "made"])
                self._leave(row, [ln for ln in shared if ln.side == "taken"])
        return Ledger(self.stock, self.movements)

    def _own(self, row: MovementRow) -> None:
        record = to_record(row, POINTERS)
        record["episode"] = self.episodes.get(row.episode_id or 0)
        record["plan"] = self.plan_numbers.get(row.plan_id or 0)
        record["reverses"] = self.numbers.get(row.reverses_id or 0)
        self.numbers[row.id] = len(self.movements) + 1
        self._add(record, [(line, line.side) for line in row.lines])

    def _enter(self, row: MovementRow, lines: list[MovementLine]) -> None:
        if not lines:
            return
        record = self._border(row, MovementKind.OPENING, self._whence(lines))
        record["from_outside"] = sum(line.volume for line in lines)
        record["paid"] = sum(line.cost for line in lines)
        self._add(record, [(line, "made") for line in lines])

    def _leave(self, row: MovementRow, lines: list[MovementLine]) -> None:
        if not lines:
            return
        record = self._border(row, MovementKind.GIVEN_AWAY, self._whither(row))
        record["to_outside"] = sum(line.volume for line in lines)
        record["written_off"] = sum(line.cost for line in lines)
        self._add(record, [(line, "taken") for line in lines])

    def _border(self, row: MovementRow, kind: MovementKind, note: str) -> Record:
        record = to_record(row, POINTERS)
        nothing = dict.fromkeys((*AMOUNTS, "paid", "written_off"), 0)
        record.update(nothing, kind=kind.value, note=note, supplier="")
        return record | {"episode": None, "plan": None, "reverses": None}

    def _whence(self, lines: list[MovementLine]) -> str:
        piles = [self.piles[line.stock_id or 0] for line in lines]
        owners = {pile.episode_id for pile in piles}
        names = [self._name(owner) for owner in sorted(filter(None, owners))]
        return "From " + (", ".join(names) or "wood that more than one series uses")

    def _whither(self, row: MovementRow) -> str:
        if row.episode_id is None:
            return "To wood that more than one series uses"
        return f"To {self._name(row.episode_id)}"

    def _name(self, episode_id: int) -> str:
        episode = self.work.get_one(Episode, episode_id)
        return f"“{episode.series.title}”, part {episode.number}"

    def _add(self, record: Record, lines: list[tuple[MovementLine, str]]) -> None:
        number = len(self.movements) + 1
        for line, side in lines:
            if side == "made" and line.stock_id not in self.entered:
                self._pile(self.piles[line.stock_id or 0], number)
        written = [self._line(line, side) for line, side in lines]
        self.movements.append(record | {"number": number, "lines": written})

    def _pile(self, pile: StockRow, number: int) -> None:
        self.entered.add(pile.id)
        record = to_record(pile, frozenset({"episode_id", "made_by"}))
        record["episode"] = self.episodes.get(pile.episode_id or 0)
        self.stock.append(record | {"made_by": number})

    def _line(self, line: MovementLine, side: str) -> Record:
        record = to_record(line, frozenset({"movement_id", "position", "stock_id"}))
        label = self.piles[line.stock_id].label if line.stock_id else None
        return record | {"side": side, "stock": label}
