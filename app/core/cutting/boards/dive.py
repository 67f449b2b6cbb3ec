"""Dives: round the relaxation board by board, with fresh layouts on the way down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.master import Master
from app.core.cutting.boards.pricing import Pricer, generate
from app.core.cutting.boards.tree import Column

KEEP, ROUNDS = 150, 3
SURE, NONE = 0.95, 1e-6


@dataclass(slots=True)
class Diver:
    """Dives in one job, over one program."""

    kinds: Kinds
    master: Master
    pricer: Pricer

    def dive(
        self, wanted: Any, there: Sequence[int | None], most: float, chance: float
    ) -> list[Column] | None:
        """Boards for all that is wanted for less than ``most``, or None.

        ``chance``: how far the likeliest layout may give way to another.
        """
        rest, left = np.array(wanted), list(there)
        taken: list[Column] = []
        spent = 0.0
        while rest.any():
            generate(self.master, self.pricer, rest, left, ROUNDS, KEEP)
            if self.pricer.meter.over or spent + self.master.price >= most - NONE:
                return None
            chosen = self._likely(rest, left, chance)
            if not chosen:
                return None
            for column in chosen:
                rest = np.maximum(rest - column.counts, 0)
                spent += self.master.prices[column.board]
            taken += chosen
        return taken

    def _likely(self, rest: Any, left: list[int | None], chance: float) -> list[Column]:
        """The layouts to take next, as often as they fit; ``left`` is counted down."""
        often = self.master.often
        places = np.nonzero(often > NONE)[0]
        dice = self.pricer.dice.uniform(1 - chance, 1, len(places))
        areas, rest = self.kinds.areas, rest.copy()
        rank = []
        for place, luck in zip(places, dice, strict=True):
            column = self.master.columns[place]
            used = float(np.minimum(column.counts, rest) @ areas)
            share = used / float(column.counts @ areas)
            rank.append(min(float(often[place]), 1.0) * share * luck)
        taken: list[Column] = []
        for n in np.argsort(-np.array(rank), kind="stable"):
            column = self.master.columns[int(places[n])]
            if taken and often[places[n]] < SURE:
                break
            for _ in range(max(1, int(often[places[n]] + NONE))):
                number = left[column.board]
                if number == 0 or not np.minimum(column.counts, rest).any():
                    break
                if number is not None:
                    left[column.board] = number - 1
                rest = np.maximum(rest - column.counts, 0)
                taken.append(column)
        return taken
