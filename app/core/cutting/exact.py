"""Every filling that a cheaper plan could use.

A filling whose price exceeds its pieces' duals by more than the gap between the
best plan and the bound is in no cheaper plan. Where the others are few, an
integer program over them settles the matter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import CELLS, ROW
from app.core.cutting.master import Column
from app.core.cutting.price import SLACK
from app.core.cutting.pricing import Pricer
from app.core.cutting.sequence import Rest

# More steps than this are too slow; looks that one costs.
STEPS, STEP = 100_000, 4


class TooMany(Exception):
    """There are more fillings than a program should have."""


@dataclass(slots=True)
class _Walk:
    """All fillings of one stick whose worth comes up to ``least``.

    ``order`` are the kinds one after another, ``ahead`` the most that those from
    each place on are worth by room: no step leads nowhere.
    """

    kinds: Kinds
    wanted: Sequence[int]
    duals: Any
    order: list[int]
    ahead: Any
    steps: int
    most: int
    least: float = 0.0
    held: dict[int, int] = field(default_factory=dict)
    found: list[Column] = field(default_factory=list)

    def go(self, stick: int, least: float) -> None:
        """Add the fillings of a stick to ``found``."""
        self.least = least
        self._step(stick, 0, self.kinds.sticks[stick].room, 0.0)

    def _step(self, stick: int, at: int, room: int, worth: float) -> None:
        self.steps -= 1
        if self.steps < 0 or len(self.found) > self.most:
            raise TooMany
        if at == len(self.order):
            if self._full(room):
                self.found.append(Column(stick, dict(self.held)))
            return
        kind = self.order[at]
        size, value = self.kinds.sizes[kind], float(self.duals[kind])
        for times in range(min(self.wanted[kind], room // size), -1, -1):
            rest, now = room - times * size, worth + times * value
            if now + self.ahead[at + 1, rest] < self.least:
                continue
            if times:
                self.held[kind] = times
            self._step(stick, at + 1, rest, now)
            self.held.pop(kind, None)

    def _full(self, room: int) -> bool:
        """Whether no wanted piece fits beside the held ones."""
        return bool(self.held) and not any(
            self.kinds.sizes[kind] <= room
            and self.held.get(kind, 0) < self.wanted[kind]
            for kind in self.order
        )


def useful(
    kinds: Kinds, pricer: Pricer, duals: Any, rest: Rest, target: float, most: int
) -> list[Column] | None:
    """All full fillings that a plan for ``rest`` of price ``target`` or less may use.

    None where they are more than ``most``, or where the grid is too coarse to say.
    """
    if not kinds.exact:
        return None
    pricer.fill(duals, rest.wanted)
    bound, duals = pricer.bound(duals, rest.wanted, rest.there)
    pricer.fill(duals, rest.wanted)
    gap = max(target - bound, 0.0) + SLACK
    worths = {column.stick: worth for worth, column in pricer.found}
    found: list[Column] = []
    steps = STEPS
    for suited, sticks in kinds.families:
        order = [kind for kind in sorted(suited) if rest.wanted[kind]]
        usable = [n for n in sticks if rest.there[n] != 0]
        if not order or not usable:
            continue
        room = max(kinds.sticks[n].room for n in usable)
        ahead = _ahead(kinds, order, rest.wanted, duals, room)
        pricer.meter.tick(len(order) * (ROW + room // CELLS))
        walk = _Walk(kinds, rest.wanted, duals, order, ahead, steps, most - len(found))
        try:
            for n in usable:
                price = pricer.prices.each[n]
                walk.go(n, price + max(0.0, worths[n] - price) - gap)
        except TooMany:
            return None
        finally:
            pricer.meter.tick(STEP * (steps - walk.steps))
        steps = walk.steps
        found += walk.found
    return found


def _ahead(
    kinds: Kinds, order: list[int], wanted: Sequence[int], duals: Any, room: int
) -> Any:
    """The most that the kinds from each place of ``order`` on are worth, by room."""
    ahead = np.zeros((len(order) + 1, room + 1))
    for at in range(len(order) - 1, -1, -1):
        row = ahead[at]
        row[:] = ahead[at + 1]
        kind = order[at]
        left, times = min(wanted[kind], room // kinds.sizes[kind]), 1
        while left > 0:
            taken = min(times, left)
            size = kinds.sizes[kind] * taken
            tried = row[: room + 1 - size] + float(duals[kind]) * taken
            np.maximum(row[size:], tried, out=row[size:])
            left -= taken
            times *= 2
    return ahead
