"""Column generation: fillings are added until none would make the plan cheaper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import Table, table
from app.core.cutting.master import Column, Master
from app.core.cutting.price import Prices

# A filling must save this share of the dearest stick to be worth adding.
GAIN = 1e-7
ROUNDS = 10_000
# How many fillings to add besides the best one in a round: at least so many, and
# one for so many kinds of pieces.
BESIDE, KINDS = 8, 10


@dataclass(slots=True)
class Relaxed:
    """What column generation found: a price, and a bound that holds at any time."""

    price: float
    bound: float
    duals: Any


@dataclass(slots=True)
class Pricer:
    """Finds the fillings that are worth most at given duals."""

    kinds: Kinds
    prices: Prices
    meter: Work
    found: list[tuple[float, Column]] = field(default_factory=list)
    beside: list[Column] = field(default_factory=list)

    def fill(self, duals: Any, wanted: Sequence[int], *, more: bool = False) -> None:
        """The best filling of each stick, with its worth, into ``found``.

        With ``more``, good ones around a certain piece each into ``beside``.
        """
        kinds = self.kinds
        self.found, self.beside = [], []
        for suited, sticks in kinds.families:
            asked = [n if kind in suited else 0 for kind, n in enumerate(wanted)]
            room = max(kinds.sticks[n].room for n in sticks)
            made = table(kinds.sizes, asked, duals, room, self.meter)
            for n in sticks:
                stick = kinds.sticks[n].room
                column = Column(n, made.filling(stick))
                self.found.append((float(made.worth[stick]), column))
                if more and kinds.limit(n) is None:
                    self._beside(n, made, duals, asked)

    def _beside(
        self, stick: int, made: Table, duals: Any, wanted: Sequence[int]
    ) -> None:
        """The best fillings that hold at least one of a certain kind."""
        room, sizes = self.kinds.sticks[stick].room, self.kinds.sizes
        worths = [
            (float(duals[kind] + made.worth[room - size]), kind)
            for kind, size in enumerate(sizes)
            if wanted[kind] and size <= room and duals[kind] > GAIN
        ]
        least = self.prices.each[stick] + GAIN
        most = max(BESIDE, len(sizes) // KINDS)
        for worth, kind in sorted(worths, reverse=True)[:most]:
            if worth < least:
                break
            filling = made.filling(room - sizes[kind])
            filling[kind] = filling.get(kind, 0) + 1
            if filling[kind] <= wanted[kind]:
                self.beside.append(Column(stick, filling))

    def bound(
        self, duals: Any, wanted: Sequence[int], there: Sequence[int | None]
    ) -> tuple[float, Any]:
        """No plan for ``wanted`` is cheaper than this, by the duals just filled.

        Either sticks without limit gain nothing, because the duals are scaled
        down to that, or they gain as often as there are pieces. With the bound
        come the duals that gave it.
        """
        total, most = float(np.dot(duals, wanted)), sum(wanted)
        each = self.prices.each
        scale = 1.0
        for worth, column in self.found:
            if there[column.stick] is None and worth > each[column.stick]:
                scale = min(scale, each[column.stick] / worth)
        best = (0.0, duals)
        for by in (scale, 1.0):
            gains = 0.0
            for worth, column in self.found:
                limit = there[column.stick]
                times = most if limit is None else min(limit, most)
                gains += times * max(0.0, by * worth - each[column.stick])
            if by * total - gains > best[0]:
                best = (by * total - gains, duals * by)
        return best


def generate(
    master: Master,
    pricer: Pricer,
    wanted: Sequence[int],
    there: Sequence[int | None],
    rounds: int = ROUNDS,
) -> Relaxed:
    """Solve the relaxation for what is wanted and there.

    Duals halfway to the best ones known swing less and need fewer rounds; where
    they find nothing new, the program's own are tried.
    """
    master.ask(wanted, there)
    relaxed = Relaxed(0.0, 0.0, np.zeros(len(wanted)))
    for turn in range(rounds):
        master.run()
        relaxed.price = master.price
        if relaxed.bound >= relaxed.price - GAIN:
            break
        halfway = (relaxed.duals + master.duals) / 2
        tries = (halfway, master.duals) if turn else (master.duals,)
        improved = any(
            _improve(master, pricer, relaxed, duals, wanted, there) for duals in tries
        )
        if not improved:
            break
        if pricer.meter.over:
            break
    return relaxed


def _improve(
    master: Master,
    pricer: Pricer,
    relaxed: Relaxed,
    duals: Any,
    wanted: Sequence[int],
    there: Sequence[int | None],
) -> bool:
    """Add what these duals find worth it; keep their bound if it is better."""
    pricer.fill(duals, wanted, more=True)
    bound, scaled = pricer.bound(duals, wanted, there)
    if bound > relaxed.bound:
        relaxed.bound, relaxed.duals = bound, scaled
    added = False
    for column in [*(column for _, column in pricer.found), *pricer.beside]:
        worth = sum(master.duals[kind] * n for kind, n in column.filling.items())
        price = pricer.prices.each[column.stick] - master.scarce[column.stick]
        if worth - price > GAIN:
            added = master.add(column) or added
    return added
