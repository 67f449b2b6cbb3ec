"""New layouts: blocks grown at the duals of a program, the best for each board."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from app.core.cutting.boards.grow import Blocks, Grower
from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.lay import laid_out
from app.core.cutting.boards.master import Master
from app.core.cutting.boards.packed import Packed
from app.core.cutting.boards.tree import Column, Tree, grown
from app.core.cutting.effort import Work
from app.core.cutting.job import Job
from app.core.cutting.layouts import layout
from app.core.cutting.pattern import Pattern

# Layouts taken for the board that blocks were grown for, and for each other.
BEST, BESIDE = 40, 4
GAIN = 1e-6


@dataclass
class Pricer:
    """Grows layouts for a job; ``dice`` are one for all, so a run can be repeated."""

    job: Job
    kinds: Kinds
    meter: Work
    dice: Any

    def __post_init__(self) -> None:
        limits = self.kinds.limits
        machine = (limits.longest_crosscut, limits.longest_rip, limits.shortest)
        self._free = limits.stages is None and machine == (None, None, None)
        self._free = self._free and limits.first == "either"
        self._free = self._free and len(self.job.periods) < 2
        self._known: dict[tuple[int, Tree], bool] = {}

    def can_be_sawn(self, column: Column) -> bool:
        """Whether the saw can part it, in the rounds and in the time there is."""
        if self._free:
            return True
        mark = (column.board, column.tree)
        if mark not in self._known:
            self._known[mark] = self._sawn(column)
        return self._known[mark]

    def _sawn(self, column: Column) -> bool:
        place = self.kinds.boards[column.board].stock[0]
        made = laid_out(self.job, self.kinds, place, column.tree)
        if made is None or len(self.job.periods) < 2:
            return made is not None
        blanks = [
            (replace(shape, blank=self.kinds.blanks[shape.blank][0]), box)
            for shape, box in made.pieces
        ]
        named = Pattern(blanks, made.waste, made.cuts)
        return layout(self.job, place, named) is not None

    def grow(
        self,
        board: int,
        values: Any,
        wanted: Any,
        price: float,
        keep: int,
        *,
        mix: bool,
    ) -> tuple[Blocks, Packed] | None:
        """Blocks for one board; ``mix``: with chance in what is kept."""
        dice = self.dice if mix else None
        one = self.kinds.boards[board]
        # Either way of ranking finds what the other misses.
        high = bool(self.dice.integers(2))
        grower = Grower(
            self.kinds,
            one,
            wanted,
            values,
            price,
            self.meter,
            keep,
            dice=dice,
            high=high,
        )
        return grower.grow()

    def columns(
        self, found: tuple[Blocks, Packed], board: int, count: int, least: float
    ) -> list[Column]:
        """The blocks worth most on a board, more than ``least``."""
        blocks, packed = found
        one = self.kinds.boards[board]
        fits = (blocks.length <= one.length) & (blocks.width <= one.width)
        fits &= blocks.value > least
        places = np.nonzero(fits)[0]
        if not len(places):
            return []
        if len(places) > count:
            best = np.argpartition(-blocks.value[places], count)[:count]
            places = places[best]
        places = places[np.argsort(-blocks.value[places], kind="stable")]
        counts = packed.counts(blocks.held[places])
        suited = np.zeros(counts.shape[1], bool)
        suited[list(one.suited)] = True
        made = [
            Column(board, row, grown(blocks, int(place)))
            for row, place in zip(counts, places, strict=True)
            if not row[~suited].any()
        ]
        return [one for one in made if self.can_be_sawn(one)]


def improve(
    master: Master,
    pricer: Pricer,
    wanted: Any,
    there: Sequence[int | None],
    board: int,
    keep: int,
    *,
    mix: bool,
) -> int:
    """Grow blocks for one board at the duals; how many new layouts that gave."""
    duals = master.duals * (wanted > 0)
    price = master.prices[board] - float(master.scarce[board])
    found = pricer.grow(board, duals, wanted, price, keep, mix=mix)
    if found is None:
        return 0
    new = 0
    for other, number in enumerate(there):
        if number == 0:
            continue
        count = BEST if other == board else BESIDE
        least = master.prices[other] - float(master.scarce[other]) + GAIN
        for column in pricer.columns(found, other, count, least):
            new += master.add(column)
    return new


def generate(
    master: Master,
    pricer: Pricer,
    wanted: Any,
    there: Sequence[int | None],
    rounds: int,
    keep: int,
) -> None:
    """Some rounds of new layouts for boards that the relaxation uses, and others."""
    master.ask(wanted, there)
    master.run()
    stale = 0
    for turn in range(rounds):
        if pricer.meter.over:
            return
        board = _next(master, pricer, there)
        if board is None:
            return
        # Fewer blocks are quicker; where they bring nothing, more may.
        more = keep * (2 if stale > 2 else 1)
        if improve(master, pricer, wanted, there, board, more, mix=bool(turn % 2)):
            master.run()
            stale = 0
        else:
            stale += 1
        if stale > 2 * len(there) + 6:
            return


def _next(master: Master, pricer: Pricer, there: Sequence[int | None]) -> int | None:
    """A board by chance, those in use more often than others."""
    use = np.full(len(there), 0.1)
    for place in np.nonzero(master.often > GAIN)[0]:
        use[master.columns[place].board] += master.often[place]
    use[[number == 0 for number in there]] = 0
    if not use.any():
        return None
    return int(pricer.dice.choice(len(use), p=use / use.sum()))
