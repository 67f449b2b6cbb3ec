"""Every filling that a cheaper plan could use, and the integer program over them.

A filling whose price exceeds its pieces' duals by more than the gap between the
best plan and the bound is in no cheaper plan. Where the others are few, the
program over them settles the matter.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.master import Column
from app.core.cutting.price import SLACK, Prices
from app.core.cutting.pricing import Pricer, Relaxed

# More steps than this are too slow.
STEPS = 150_000
# Looks that a step costs.
STEP = 4


class TooMany(Exception):
    """There are more fillings than a program should have."""


@dataclass(slots=True)
class _Walk:
    """All fillings of one stick whose worth comes up to ``least``.

    ``order`` is by worth for length, the best first.
    """

    kinds: Kinds
    stick: int
    duals: Any
    least: float
    steps: int
    most: int
    order: list[int] = field(default_factory=list)
    dense: list[float] = field(default_factory=list)
    held: dict[int, int] = field(default_factory=dict)
    found: list[Column] = field(default_factory=list)

    def go(self) -> None:
        """Fill ``found``."""
        sizes, room = self.kinds.sizes, self.kinds.sticks[self.stick].room
        suited = self.kinds.sticks[self.stick].suited
        self.order = sorted(suited, key=lambda n: (-self.duals[n] / sizes[n], n))
        self.dense = [self.duals[n] / sizes[n] for n in self.order] + [0.0]
        self._step(0, room, 0.0)

    def _step(self, at: int, room: int, worth: float) -> None:
        self.steps -= 1
        if self.steps < 0 or len(self.found) > self.most:
            raise TooMany
        if at == len(self.order):
            if self._full(room):
                self.found.append(Column(self.stick, dict(self.held)))
            return
        kind = self.order[at]
        size, value = self.kinds.sizes[kind], float(self.duals[kind])
        for times in range(min(self.kinds.wanted[kind], room // size), -1, -1):
            rest, now = room - times * size, worth + times * value
            if now + rest * self.dense[at + 1] < self.least:
                return
            if times:
                self.held[kind] = times
            self._step(at + 1, rest, now)
            self.held.pop(kind, None)

    def _full(self, room: int) -> bool:
        """Whether no wanted piece fits beside the held ones."""
        return bool(self.held) and not any(
            self.kinds.sizes[kind] <= room
            and self.held.get(kind, 0) < self.kinds.wanted[kind]
            for kind in self.order
        )


def useful(
    kinds: Kinds,
    prices: Prices,
    pricer: Pricer,
    relaxed: Relaxed,
    target: float,
    most: int,
) -> list[Column] | None:
    """All full fillings that a plan of price ``target`` or less may use.

    None where they are more than ``most``, or where the grid is too coarse to say.
    """
    if kinds.small != kinds.sizes:
        return None
    there = [kinds.limit(stick) for stick in range(len(kinds.sticks))]
    pricer.fill(relaxed.duals, kinds.wanted)
    bound, duals = pricer.bound(relaxed.duals, kinds.wanted, there)
    pricer.fill(duals, kinds.wanted)
    gap = max(target - bound, 0.0) + SLACK
    return _walked(kinds, prices, pricer, duals, gap, most)


def _walked(
    kinds: Kinds, prices: Prices, pricer: Pricer, duals: Any, gap: float, most: int
) -> list[Column] | None:
    found: list[Column] = []
    steps = STEPS
    meter: Work = pricer.meter
    try:
        for worth, column in pricer.found:
            price = prices.each[column.stick]
            least = price + max(0.0, worth - price) - gap
            walk = _Walk(kinds, column.stick, duals, least, steps, most - len(found))
            try:
                walk.go()
            finally:
                meter.tick(STEP * (steps - walk.steps))
                steps = walk.steps
            found += walk.found
    except TooMany:
        return None
    return found
