"""Dives: round the relaxation piece by piece, with fresh fillings on the way down."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import Any

import numpy as np

from app.core.cutting.kinds import Kinds
from app.core.cutting.master import Master
from app.core.cutting.price import Prices
from app.core.cutting.pricing import Pricer, generate
from app.core.cutting.sequence import Rest

# Rounds of column generation between two steps down.
ROUNDS = 200
# Of a fraction's candidates the largest so many, and what they need at least.
CANDIDATES = 12
LIKELY = 0.2
NONE = 1e-6
# One filling is rounded up at a time for so many sticks that are still to come.
AT_ONCE = 30


@dataclass(slots=True)
class Diver:
    """Dives in one job. ``dice`` picks among the candidates of later dives."""

    kinds: Kinds
    prices: Prices
    master: Master
    pricer: Pricer
    dice: Random
    duals: Any = None

    def dive(self, most: float, stop: float, choose: bool) -> Rest | None:
        """Take fillings until the rest costs no more than ``stop``, or nothing is left.

        ``most`` is the price to beat: None where that is out of reach. ``duals``
        are those of the rest.
        ``choose``: among likely fillings by chance, instead of the most likely.
        """
        rest = Rest.of(self.kinds)
        while any(rest.wanted):
            if self.pricer.meter.over:
                return None
            relaxed = generate(
                self.master, self.pricer, rest.wanted, rest.there, ROUNDS
            )
            self.duals = relaxed.duals
            spent = rest.price(self.prices)
            ahead = self.prices.least(spent + relaxed.bound)
            if ahead >= most - 1e-9:
                return None
            if relaxed.price <= stop:
                return rest
            if not (self._whole(rest) or self._some(rest, choose)):
                return rest
        return rest

    def _whole(self, rest: Rest) -> bool:
        """Take the fillings that the relaxation takes at least once."""
        often = self.master.often
        took = False
        for place in np.argsort(-often, kind="stable"):
            times = int(often[place] + NONE)
            if times < 1:
                break
            column = self.master.columns[place]
            fits = [rest.wanted[kind] // n for kind, n in column.filling.items()]
            times = min(times, *fits)
            if times > 0:
                took = rest.take(column, times) or took
        return took

    def _some(self, rest: Rest, choose: bool) -> bool:
        """Take a likely filling, and while much is left a few more of them."""
        times = max(1, int(self.master.price / AT_ONCE))
        return [self._one(rest, choose) for _ in range(times)].count(True) > 0

    def _one(self, rest: Rest, choose: bool) -> bool:
        """Take one of the likely fillings, without what is not wanted."""
        often = self.master.often
        order = np.argsort(-often, kind="stable")
        likely = [n for n in order[:CANDIDATES] if often[n] > LIKELY]
        likely = likely or [n for n in order[:3] if often[n] > NONE]
        if not likely:
            return False
        chosen = likely[0]
        if choose:
            weights = [float(often[place]) ** 2 for place in likely]
            chosen = self.dice.choices(likely, weights)[0]
        often[chosen] = 0.0
        return rest.take(self.master.columns[chosen])
