"""Sticks chosen first: which to buy for less money, then whether all fits them.

Where sticks differ in price, the relaxation takes parts of a stick, and what its
rounding costs depends on which whole ones are bought. For every sum of money below
the best plan's there is a choice that holds the most; few of them hold enough, and
a dive that may take these sticks and no others goes straight at it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import reduce
from math import gcd
from typing import Any

import numpy as np

from app.core.cutting.dive import Diver
from app.core.cutting.kinds import Kinds
from app.core.cutting.knapsack import Filling, table
from app.core.cutting.master import Master
from app.core.cutting.pricing import Pricer, generate
from app.core.cutting.search import Search
from app.core.cutting.sequence import Rest

# Sums of money that a table may list, choices looked at, and dives for each.
SUMS, MOST, DIVES = 1_000_000, 40, 4
# Looks that a sum of money costs, by kinds of sticks.
SUM = 100

Dive = Callable[[Search, Diver, int], bool]


@dataclass(frozen=True, slots=True)
class Choice:
    """How many of each priced stick, and by how much they are worth too much."""

    sticks: Filling
    spare: float


def worth_choosing(kinds: Kinds) -> bool:
    """Whether the money depends on which sticks are bought, not on how many."""
    return len({stick.money for stick in kinds.sticks if stick.money}) > 1


def choices(search: Search, pricer: Pricer, duals: Any) -> list[Choice]:
    """For every sum below the best plan's the sticks that hold most, if enough.

    The likeliest come first: those that have most to spare.
    """
    kinds, top = search.kinds, search.money() - 1
    money = [stick.money for stick in kinds.sticks]
    step = reduce(gcd, money)
    if not step or not 0 < top // step <= SUMS:
        return []
    pricer.fill(duals, kinds.wanted)
    worth = [0.0] * len(money)
    for best, column in pricer.found:
        worth[column.stick] = best
    needed = float(np.dot(duals, kinds.wanted))
    for n, stick in enumerate(kinds.sticks):
        if not stick.money:
            needed -= worth[n] * (stick.there or 0)
    paid = [n for n, one in enumerate(money) if one]
    limits = [kinds.limit(n) or kinds.pieces for n in paid]
    sizes = [money[n] // step for n in paid]
    made = table(sizes, limits, [worth[n] for n in paid], top // step, search.meter)
    search.meter.tick(len(paid) * top // step // SUM)
    found: dict[tuple[tuple[int, int], ...], Choice] = {}
    enough = np.flatnonzero(made.worth >= needed - 1e-9)
    steps = enough[enough >= -(-search.floor // step)]
    for at in steps[np.unique(made.worth[steps], return_index=True)[1]]:
        taken = {paid[n]: times for n, times in made.filling(int(at)).items()}
        spare = float(made.worth[at]) - needed
        found.setdefault(tuple(sorted(taken.items())), Choice(taken, spare))
    return sorted(found.values(), key=lambda one: -one.spare)


def choose(search: Search, diver: Diver, duals: Any, by: Dive) -> None:
    """Dive with sticks chosen first, ``by`` one dive after another."""
    tried: set[tuple[tuple[int, int], ...]] = set()
    while not (search.proven or search.meter.over):
        fresh = [
            one
            for one in choices(search, diver.pricer, duals)
            if tuple(sorted(one.sticks.items())) not in tried
        ]
        if not fresh or len(tried) >= MOST:
            return
        tried.add(tuple(sorted(fresh[0].sticks.items())))
        _try(search, diver, fresh[0], by)


def _try(search: Search, diver: Diver, choice: Choice, by: Dive) -> None:
    """A few dives that may take these sticks only."""
    kinds = only(search.kinds, choice)
    program = Master(kinds, search.prices, search.meter)
    for column in diver.master.columns:
        if kinds.sticks[column.stick].there != 0:
            program.add(column)
    inner = Pricer(kinds, search.prices, search.meter)
    rest = Rest.of(kinds)
    relaxed = generate(program, inner, rest.wanted, rest.there)
    if program.left_out():
        return
    part = replace(search, kinds=kinds, bound=relaxed.bound, settled=False)
    other = Diver(kinds, search.prices, program, inner, diver.dice)
    for number in range(DIVES):
        if search.meter.over:
            return
        if by(part, other, number):
            search.offer(part.best)
            return


def only(kinds: Kinds, choice: Choice) -> Kinds:
    """The same job with no priced sticks but the chosen ones."""
    sticks = tuple(
        replace(stick, there=choice.sticks.get(n, 0)) if stick.money else stick
        for n, stick in enumerate(kinds.sticks)
    )
    return replace(kinds, sticks=sticks)
