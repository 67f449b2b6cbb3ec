"""What a stick counts for while planning, and what a plan can cost at least.

Money comes first, then whole boards, then length. The second and third count
for so little that all of them together weigh less than a quarter of the
smallest step in money.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, gcd
from typing import Any

import numpy as np

from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import exact_worth

# Floating sums may err by this much; far below any step in price.
SLACK = 1e-7
# Duals become whole numbers in this many parts of the dearest stick.
PARTS = 1 << 32
# Sums of prices are listed up to here; beyond, their common step must do.
LISTED = 4_000_000
# The same where each is listed with what its sticks hold.
SUMS = 1_000_000


@dataclass(frozen=True, slots=True)
class Prices:
    """The price of each stick, the dearest about 1, and the step of their sums.

    Every sum is a multiple of ``step`` and something up to ``loose``.
    """

    each: tuple[float, ...]
    step: float
    loose: float

    def least(self, bound: float) -> float:
        """The smallest sum that is possible where none is below the bound."""
        if not self.step:
            return bound
        steps = ceil((bound - self.loose - SLACK) / self.step)
        return max(bound, steps * self.step)


def prices(kinds: Kinds) -> Prices:
    """Prices in the order of the objectives that this job has."""
    sticks, count = kinds.sticks, kinds.pieces + 1
    longest = max(stick.room for stick in sticks)
    minor = [int(stick.board) + stick.room / longest / count for stick in sticks]
    if len({(stick.money, stick.board, stick.room) for stick in sticks}) == 1:
        return Prices((1.0,) * len(sticks), 1.0, 0.0)
    dearest = max(stick.money for stick in sticks)
    if not dearest:
        if all(stick.board for stick in sticks):
            tail = [stick.room / longest / count / 4 for stick in sticks]
            return Prices(tuple(1 + one for one in tail), 1.0, 0.25)
        return Prices(tuple(minor), 1.0, 1.0)
    step = gcd(*(stick.money for stick in sticks)) / dearest
    if len({stick.money for stick in sticks}) == 1:
        minor = [stick.room / longest for stick in sticks]
    weight = step / 4 / count / max(minor)
    each = tuple(
        stick.money / dearest + weight * one
        for stick, one in zip(sticks, minor, strict=True)
    )
    return Prices(each, step, step / 4)


def least_money(kinds: Kinds, duals: Any, money: tuple[int, ...]) -> int:
    """No plan that places every piece costs less. ``duals`` may be any.

    The relaxation by duals: each piece is worth its dual, and a stick gains at
    most its best filling less its money. Worked out in whole numbers, so no
    rounding can make it too high. Either sticks without limit gain nothing,
    because the duals are scaled down to that, or they gain as often as there
    are pieces. Or the sticks are whole ones and their best fillings are worth
    all pieces together. The best of all that holds.
    """
    dearest = max(money)
    if not dearest:
        return 0
    worth = [int(one) for one in np.floor(np.maximum(duals, 0) * PARTS)]
    best = _best(kinds, worth)
    total = sum(w * n for w, n in zip(worth, kinds.wanted, strict=True))
    found = [_gain(kinds, total, best, money, Fraction(1), dearest)]
    scale = _scale(kinds, best, money, dearest)
    found.append(_gain(kinds, total, best, money, scale, dearest))
    whole = [_whole(kinds, total, best, money)]
    if len(set(money)) > 1:
        sizes = list(kinds.fine)
        needed = sum(size * n for size, n in zip(sizes, kinds.wanted, strict=True))
        whole.append(_whole(kinds, needed, _best(kinds, sizes), money))
    return max(_reached(ceil(max(found)), money), *whole)


def _whole(kinds: Kinds, total: int, best: list[int], money: tuple[int, ...]) -> int:
    """The least money for whole sticks whose best fillings are worth ``total``."""
    step = gcd(*money)
    paid = [n for n, one in enumerate(money) if one and best[n]]
    for n, one in enumerate(money):
        if not one:
            limit = kinds.limit(n)
            total -= best[n] * (kinds.pieces if limit is None else limit)
    if total <= 0 or not paid:
        return 0
    limits = [kinds.limit(n) or kinds.pieces for n in paid]
    often = [min(k, -(-total // best[n])) for k, n in zip(limits, paid, strict=True)]
    enough = [
        money[n] * k // step
        for n, k in zip(paid, often, strict=True)
        if best[n] * k >= total
    ]
    if not enough or min(enough) > SUMS:
        return 0
    worth = exact_worth(
        [money[n] // step for n in paid], often, [best[n] for n in paid], min(enough)
    )
    return int(np.searchsorted(worth, total)) * step


def _best(kinds: Kinds, worth: list[int]) -> list[int]:
    """The most that a filling of each stick is worth, never too little."""
    best = [0] * len(kinds.sticks)
    for suited, sticks in kinds.families:
        mine = [one if n in suited else 0 for n, one in enumerate(worth)]
        room = max(kinds.sticks[n].fine for n in sticks)
        found = exact_worth(kinds.fine, kinds.wanted, mine, room)
        for n in sticks:
            best[n] = int(found[kinds.sticks[n].fine])
    return best


def _scale(
    kinds: Kinds, best: list[int], money: tuple[int, ...], dearest: int
) -> Fraction:
    """How far duals must come down so that no unlimited stick gains anything."""
    scale = Fraction(1)
    for n, most in enumerate(best):
        if kinds.limit(n) is None and most * dearest > money[n] * PARTS:
            scale = min(scale, Fraction(money[n] * PARTS, most * dearest))
    return scale


def _gain(
    kinds: Kinds,
    total: int,
    best: list[int],
    money: tuple[int, ...],
    scale: Fraction,
    dearest: int,
) -> Fraction:
    unit = scale * dearest / PARTS
    gains = Fraction(0)
    for n, most in enumerate(best):
        limit = kinds.limit(n)
        times = kinds.pieces if limit is None else limit
        gains += times * max(Fraction(0), most * unit - money[n])
    return total * unit - gains


def _reached(bound: int, money: tuple[int, ...]) -> int:
    """The next sum that these prices can add up to."""
    step = gcd(*money)
    steps = max(0, -(-bound // step))
    costs = sorted({one // step for one in money if one})
    top = steps + costs[-1]
    if top > LISTED:
        return steps * step
    sums = 1
    for cost in costs:
        shift = cost
        while shift <= top:
            sums |= sums << shift
            shift *= 2
        sums &= (1 << (top + 1)) - 1
    above = sums >> steps
    return (steps + (above & -above).bit_length() - 1) * step
