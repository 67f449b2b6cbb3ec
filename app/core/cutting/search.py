"""The best plan of a search and how far it may be from the best possible."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.master import missing
from app.core.cutting.price import SLACK, Prices
from app.core.cutting.sequence import Rest


@dataclass(slots=True)
class Search:
    """The best plan so far, what bounds it in price, and its ``floor`` in money.

    ``settled``: nothing cheaper is possible.
    """

    kinds: Kinds
    prices: Prices
    meter: Work
    best: Rest | None = None
    price: float = float("inf")
    bound: float = 0.0
    floor: int = 0
    settled: bool = False

    def offer(self, rest: Rest | None) -> bool:
        """Keep a plan if it places all for less."""
        if rest is None:
            return False
        price = rest.price(self.prices) + missing(self.kinds, rest.wanted)
        if price >= self.price - 1e-9:
            return False
        self.best, self.price = rest, price
        return True

    @property
    def target(self) -> float:
        """What a plan may cost to be better in the first of the objectives."""
        return self.price - self.prices.step + self.prices.loose + SLACK

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper is possible."""
        if self.settled or self.prices.least(self.bound) >= self.price - 1e-9:
            return True
        if self.best is None or any(self.best.wanted):
            return False
        return 0 < self.money() <= self.floor

    def money(self) -> int:
        """What the best plan costs."""
        taken = self.best.taken if self.best else ()
        return sum(self.kinds.sticks[column.stick].money for column in taken)
