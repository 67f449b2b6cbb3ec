"""The search for the least money: relaxation, sets of boards, parts of the plan."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from math import gcd
from typing import Any

import numpy as np

from app.core.cutting.boards.dive import Diver
from app.core.cutting.boards.fill import Filled, Filler, exactly, usable
from app.core.cutting.boards.floor import Floor
from app.core.cutting.boards.grow import LOSS
from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.master import Master
from app.core.cutting.boards.pricing import GAIN, Pricer, generate
from app.core.cutting.boards.program import boards_for, chosen
from app.core.cutting.boards.tree import Column, counted
from app.core.cutting.effort import Work
from app.core.cutting.job import Job

SEED = 1
SMALLEST = 1e-6
BOARDS, RICH, REST = 12, 60, 150  # boards and layouts to enrich by; pieces left
EXACT = 4  # rounds of blocks for one of the table of all rectangles
# A piece left out costs this many of the dearest board.
MISSING = 10.0
KEEP, ROUNDS, SMALL, LARGE = 150, 40, 120, 250
# Pieces of a part of the plan that is taken up again; sets tried for it.
ENDING = 6  # rounds of new layouts for what a set leaves out
PIECES, PARTS, PARTS_OF_MANY, WHOLE = (30, 50, 80), 40, 10, 100
STALE = 30
FEW, THOROUGH = (
    (500, 200),
    (1500, 20_000),
)  # layouts and nodes of the program for a part
KNOWN = 4_000  # layouts that go into a choice of boards


@dataclass
class Search:
    """One job's search; ``told`` hears of every better plan."""

    job: Job
    kinds: Kinds
    meter: Work
    told: Callable[[list[Column], float], None]
    best: list[Column] = field(default_factory=list)
    money: float = float("inf")
    floor: float = 0.0
    pool: dict[tuple[int, bytes], Column] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.dice = np.random.default_rng(SEED)
        self.pricer = Pricer(self.job, self.kinds, self.meter, self.dice)
        self.filler = Filler(self.kinds, self.pricer, self.pool, self.meter)
        self.prices = [float(board.money) for board in self.kinds.boards]
        self.step = float(gcd(*(board.money for board in self.kinds.boards)) or 1)
        dearest = max([*self.prices, 1.0])
        areas = self.kinds.areas / self.kinds.areas.max()
        # A little for the room of a board: free ones are not used up for nothing.
        room = max(board.area for board in self.kinds.boards)
        tiny = self.step / 1000
        each = [
            price + tiny * board.area / room
            for price, board in zip(self.prices, self.kinds.boards, strict=True)
        ]
        self.missing = MISSING * dearest * (1 + areas)
        self.master = Master(self.kinds, each, self.missing, self.meter)
        self.diver = Diver(self.kinds, self.master, self.pricer)
        self.wanted = np.array(self.kinds.wanted, np.int64)
        self.bounds = Floor(self.kinds, self.step, self.meter)

    def offer(self, columns: Sequence[Column]) -> bool:
        """Keep a plan that places all for less money."""
        placed = sum((one.counts for one in columns), np.zeros_like(self.wanted))
        money = sum(self.prices[one.board] for one in columns)
        if (placed < self.wanted).any() or money >= self.money - 1e-6:
            return False
        exact = exactly(self.kinds, columns, self.wanted)
        # Without what is too many, another cut may come first.
        if not all(self.pricer.can_be_sawn(one) for one in exact):
            return False
        self.best, self.money = exact, money
        self.told(self.best, self.floor)
        return True

    def note(self, columns: Sequence[Column]) -> None:
        """Know layouts that were made elsewhere."""
        for column in columns:
            self.pool.setdefault(column.key, column)
            self.master.add(column)

    def begin(self, columns: Sequence[Column]) -> None:
        """Begin with a plan that was made another way, as far as it can be sawn."""
        good = [one for one in columns if self.pricer.can_be_sawn(one)]
        self.note(good)
        self.offer(good)

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper is possible."""
        return self.money <= self.floor + 1e-6

    def relax(self, rounds: int) -> None:
        """New layouts at the duals of the whole job."""
        known = len(self.master.columns)
        generate(
            self.master, self.pricer, self.wanted, self.kinds.there(), rounds, KEEP
        )
        self.note(self.master.columns[known:])
        if self.money and not self.proven:
            self.master.ask(self.wanted, self.kinds.there())
            self.master.run()
            for _ in range(max(1, rounds // EXACT)):
                if self.meter.over or not self._priced_exactly():
                    break
            self.raise_floor()

    def _priced_exactly(self) -> int:
        """Bound by the duals; how many layouts worth adding that gave."""
        self.bounds.values(self.master.duals)
        new = 0
        for board, tree in self.bounds.worths.trees():
            column = Column(board, counted(self.kinds, tree), tree)
            saving = (
                self.prices[board]
                - float(self.master.duals @ column.counts)
                - float(self.master.scarce[board])
            )
            if saving < -GAIN and self.pricer.can_be_sawn(column):
                self.pool.setdefault(column.key, column)
                new += self.master.add(column)
        if new:
            self.master.run()
        return new

    def raise_floor(self) -> None:
        """Work out what no plan can cost less than, and tell if that is news."""
        floor = min(self.bounds.least(), self.money)
        if floor > self.floor + SMALLEST:
            self.floor = floor
            if self.best:
                self.told(self.best, self.floor)

    def go(self) -> None:
        """Search until proven, out of work, or nothing better turned up for long."""
        stale = turn = 0
        self.raise_floor()
        if self.proven:
            return
        self.relax(2 * ROUNDS)
        self._whole(0)
        while not (self.proven or self.meter.over) and stale < STALE:
            before = self.money
            for _ in range(PARTS_OF_MANY if self.many else PARTS):
                self._part()
            self.relax(ROUNDS // 4)
            turn += 1
            self._whole(turn)
            stale = 0 if self.money < before else stale + 1

    @cached_property
    def many(self) -> bool:
        """Whether there is no end of any board that costs money."""
        return all(b.there is None for b in self.kinds.boards if b.money)

    def _whole(self, turn: int) -> None:
        """Take the whole job up again: by a dive, a program, or a set of boards."""
        args: tuple[Any, list[int | None], list[Column]]
        args = (self.wanted, self.kinds.there(), [])
        self._dive(*args, 0.4 if turn else 0.0)
        if self.proven:
            return
        if self.many:
            self._rounded()
        if self.kinds.pieces <= (LARGE if self.many else SMALL // 2) and turn % 3 != 1:
            self._enrich()
            self._program(*args, self.best, THOROUGH)
        if self.kinds.pieces <= LARGE and turn % 3 == int(self.many):
            self._sets(*args, (1, 1, WHOLE * (1 + int(self.many))))

    def _rounded(self) -> None:
        """Take what the relaxation takes whole, and choose boards for the rest."""
        there = self.kinds.there()
        self.master.ask(self.wanted, there)
        self.master.run()
        rest, fixed = self.wanted.copy(), []
        for place in np.argsort(-self.master.often, kind="stable"):
            times = int(self.master.often[place] + GAIN)
            if not times:
                break
            column = self.master.columns[int(place)]
            held = column.counts > 0
            times = min(times, int((rest[held] // column.counts[held]).min()))
            number = there[column.board]
            if number is not None:
                times = min(times, number)
                there[column.board] = number - times
            fixed += [column] * times
            rest = rest - column.counts * times
        if int(rest.sum()) <= REST:
            self._sets(rest, there, fixed, (2, 1, WHOLE // 2))

    def _enrich(self) -> None:
        """Know more layouts than the relaxation needs: good ones, mixed by chance."""
        there = self.kinds.there()
        self.master.ask(self.wanted, there)
        self.master.run()
        duals, count = self.master.duals, len(self.kinds.boards)
        for board in self.dice.permutation(count)[:BOARDS]:
            if self.meter.over:
                return
            price = self.prices[int(board)]
            values = duals * self.dice.uniform(0.9, 1.1, len(duals))
            found = self.pricer.grow(
                int(board), values, self.wanted, price, KEEP, mix=True
            )
            if found is not None:
                self.note(
                    self.pricer.columns(found, int(board), RICH, price * (1 - LOSS))
                )

    def _part(self) -> None:
        """Take some boards of the best plan up again."""
        order = self.dice.permutation(len(self.best))
        taken: list[int] = []
        pieces = 0
        count = int(self.dice.integers(2, 10))
        most = int(self.dice.choice(PIECES))
        for place in order:
            more = int(self.best[place].counts.sum())
            if taken and pieces + more > most:
                continue
            taken.append(int(place))
            pieces += more
            if len(taken) == count:
                break
        stay = [one for n, one in enumerate(self.best) if n not in taken]
        rest = self.wanted - sum(
            (one.counts for one in stay), np.zeros_like(self.wanted)
        )
        there = self.kinds.there()
        for one in stay:
            number = there[one.board]
            if number is not None:
                there[one.board] = number - 1
        rest = np.maximum(rest, 0)
        known = len(self.master.columns)
        generate(self.master, self.pricer, rest, there, 8, 120)
        self.note(self.master.columns[known:])
        way = int(self.dice.integers(3))
        if way == 0:
            self._dive(rest, there, stay, 0.3)
        elif way == 1:
            self._sets(rest, there, stay, (2, 1, 20))
        else:
            self._program(rest, there, stay, [self.best[n] for n in taken], FEW)

    def _dive(
        self, rest: Any, there: list[int | None], stay: list[Column], chance: float
    ) -> None:
        spent = sum(self.prices[one.board] for one in stay)
        known = len(self.master.columns)
        most = self.money - spent - self.step / 2
        found = self.diver.dive(rest, there, most, chance)
        self.note(self.master.columns[known:])
        if found is not None and self.offer([*stay, *found]):
            self.note(self.best)

    def _program(
        self,
        rest: Any,
        there: list[int | None],
        stay: list[Column],
        now: list[Column],
        effort: tuple[int, int],
    ) -> None:
        """The cheapest of the layouts that matter most for a part.

        ``effort``: how many layouts, and how many nodes of the search.
        """
        few, nodes = effort
        if self.meter.over:
            return
        self.master.ask(rest, there)
        self.master.run()
        rank = self.master.saving()
        rank[[there[one.board] == 0 for one in self.master.columns]] = np.inf
        order = [int(n) for n in np.argsort(rank, kind="stable")[:few]]
        columns = [self.master.columns[n] for n in order if np.isfinite(rank[n])]
        keys = {one.key for one in columns}
        columns += [
            one for one in {c.key: c for c in now}.values() if one.key not in keys
        ]
        prices = [self.master.prices[one.board] for one in columns]
        args = (self.kinds, columns, rest, there, prices)
        found = chosen(*args, self.missing, self.meter, nodes, now)
        if found is None or found.missing.any():
            return
        if self.offer([*stay, *found.laid]):
            self.note(self.best)

    def _sets(
        self,
        wanted: Any,
        there: Sequence[int | None],
        stay: list[Column],
        effort: tuple[int, int, int],
    ) -> None:
        """Choose boards for what is wanted and fill them, cheaper than now."""
        spent = sum(self.prices[one.board] for one in stay)
        low = max(self.floor - spent, 0.0)
        barred: list[frozenset[int]] = []
        sets, tries, times = effort
        for _ in range(sets):
            if self.meter.over or self.proven:
                return
            money = (low, self.money - spent - self.step)
            if money[0] > money[1] + 1e-6:
                return
            boards = boards_for(
                self.kinds,
                self._known(wanted),
                wanted,
                there,
                money,
                self.meter,
                barred,
            )
            if boards is None:
                return
            usable = [
                boards.get(place, 0) if board.money else there[place]
                for place, board in enumerate(self.kinds.boards)
            ]
            found = self.filler.fill(wanted, usable, tries, times)
            before = self.money
            if found is not None:
                self._complete(found, there, stay)
            if self.money < before:
                barred, low = [], max(self.floor - spent, 0.0)
            else:
                if self._unique(boards):
                    barred.append(self._all(boards))
                cost = sum(self.prices[place] * n for place, n in boards.items())
                room = self.money - spent - cost
                low = cost + max(self.step, room / 4)

    def _complete(
        self, found: Filled, there: Sequence[int | None], stay: list[Column]
    ) -> None:
        """Take a filled set, with the cheapest boards for what it leaves out."""
        if not found.missing.any():
            if self.offer([*stay, *found.columns]):
                self.note(self.best)
            return
        left = list(there)
        for column in found.columns:
            number = left[column.board]
            if number is not None:
                left[column.board] = number - 1
        known = len(self.master.columns)
        generate(self.master, self.pricer, found.missing, left, ENDING, 100)
        self.note(self.master.columns[known:])
        self._program(found.missing, left, [*stay, *found.columns], [], FEW)

    def _unique(self, boards: dict[int, int]) -> bool:
        return all(self.kinds.boards[place].there == 1 for place in boards)

    def _all(self, boards: dict[int, int]) -> frozenset[int]:
        free = (n for n, board in enumerate(self.kinds.boards) if not board.money)
        return frozenset([*boards, *free])

    def _known(self, wanted: Any) -> list[Column]:
        """The layouts that matter most for what is wanted."""
        columns = self.master.columns
        if len(columns) > KNOWN:
            order = np.argsort(self.master.saving(), kind="stable")[:KNOWN]
            columns = [columns[int(place)] for place in order]
        return usable(self.kinds, columns, wanted)
