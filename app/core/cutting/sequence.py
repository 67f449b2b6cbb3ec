"""One stick after another: fill it with what is worth most, then the next.

What ended in a badly filled stick is worth more the next time round, so that
it is served while there is still something to go with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import table
from app.core.cutting.master import Column
from app.core.cutting.price import Prices

# Long pieces are worth a little more than their length: they fit nowhere else.
LONG = 1.02


@dataclass(slots=True)
class Rest:
    """What is still wanted and what is still there, and what was taken so far."""

    wanted: list[int]
    there: list[int | None]
    taken: list[Column] = field(default_factory=list)

    @classmethod
    def of(cls, kinds: Kinds) -> Rest:
        """The whole job."""
        sticks = range(len(kinds.sticks))
        return cls(list(kinds.wanted), [kinds.limit(stick) for stick in sticks])

    def copy(self) -> Rest:
        """The same, to go on from in another way."""
        return Rest(self.wanted.copy(), self.there.copy(), self.taken.copy())

    def take(self, column: Column, times: int = 1) -> bool:
        """Take a filling, without what is not wanted; False if nothing is."""
        there = self.there[column.stick]
        if there is not None:
            times = min(times, there)
        took = False
        for _ in range(times):
            filling = {
                kind: min(n, self.wanted[kind])
                for kind, n in column.filling.items()
                if self.wanted[kind]
            }
            if not filling:
                break
            for kind, number in filling.items():
                self.wanted[kind] -= number
            self.taken.append(Column(column.stick, filling))
            if there is not None:
                there -= 1
            took = True
        self.there[column.stick] = there
        return took

    def price(self, prices: Prices) -> float:
        """What the sticks taken come to."""
        return sum(prices.each[column.stick] for column in self.taken)


def worth_by_length(kinds: Kinds) -> list[float]:
    """What each kind is worth to begin with: a little more than its length."""
    return [float(size) ** LONG for size in kinds.sizes]


def serve(
    kinds: Kinds,
    prices: Prices,
    rest: Rest,
    values: Sequence[float],
    most: float,
    meter: Work,
) -> None:
    """Fill sticks into ``rest`` until all is placed or nothing suits.

    Gives up where the price would reach ``most``.
    """
    rate = _rate(kinds, prices)
    spent = rest.price(prices)
    while any(rest.wanted) and not meter.over:
        best = _next(kinds, prices, rest, values, meter)
        if best is None:
            return
        rest.take(best)
        spent += prices.each[best.stick]
        ahead = rate * sum(
            size * n for size, n in zip(kinds.sizes, rest.wanted, strict=True)
        )
        if prices.least(spent + ahead) >= most:
            return


def _rate(kinds: Kinds, prices: Prices) -> float:
    """The lowest price of a step of length."""
    return min(
        prices.each[n] / max(stick.room, 1) for n, stick in enumerate(kinds.sticks)
    )


def _next(
    kinds: Kinds, prices: Prices, rest: Rest, values: Sequence[float], meter: Work
) -> Column | None:
    """The filling that is worth most for its stick's price."""
    best: tuple[float, Column] | None = None
    for suited, sticks in kinds.families:
        usable = [n for n in sticks if rest.there[n] != 0]
        asked = [n if kind in suited else 0 for kind, n in enumerate(rest.wanted)]
        if not usable or not any(asked):
            continue
        room = max(kinds.sticks[n].room for n in usable)
        made = table(kinds.sizes, asked, values, room, meter)
        for n in usable:
            worth = float(made.worth[kinds.sticks[n].room])
            rate = worth / max(prices.each[n], 1e-9)
            if worth and (best is None or rate > best[0]):
                best = (rate, Column(n, made.filling(kinds.sticks[n].room)))
    return None if best is None else best[1]


def corrected(
    kinds: Kinds, prices: Prices, most: float, dice: Random, meter: Work, rounds: int
) -> Rest | None:
    """A plan below the price ``most`` by serving again and again, or None."""
    first = worth_by_length(kinds)
    values = list(first)
    for _ in range(rounds):
        rest = Rest.of(kinds)
        serve(kinds, prices, rest, values, most, meter)
        if not any(rest.wanted) and rest.price(prices) < most - 1e-9:
            return rest
        if meter.over:
            return None
        _correct(kinds, rest, first, values, dice)
    return None


def _correct(
    kinds: Kinds, rest: Rest, first: list[float], values: list[float], dice: Random
) -> None:
    """What lies in a badly filled stick becomes worth more."""
    for column in rest.taken:
        filled = sum(kinds.sizes[kind] * n for kind, n in column.filling.items())
        room = kinds.sticks[column.stick].room
        if filled == room:
            continue
        for kind, n in column.filling.items():
            share = n / kinds.wanted[kind] * dice.uniform(0.3, 1.0) / 2
            raised = first[kind] * room / filled
            values[kind] = (1 - share) * values[kind] + share * raised
