"""The planner for jobs of lengths only, with a bound that no plan can beat."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from random import Random

import numpy as np

from app.core.cutting.chosen import choose, worth_choosing
from app.core.cutting.dive import Diver
from app.core.cutting.effort import Progress, Work
from app.core.cutting.exact import useful
from app.core.cutting.gather import gathered
from app.core.cutting.kinds import kinds
from app.core.cutting.lay import from_laid, to_laid
from app.core.cutting.master import Master
from app.core.cutting.plan import Bound
from app.core.cutting.price import SLACK, least_money, prices
from app.core.cutting.pricing import Pricer, Relaxed, generate
from app.core.cutting.program import Outcome, programmed
from app.core.cutting.repack import repacked
from app.core.cutting.search import Search
from app.core.cutting.sequence import Rest, corrected, serve, worth_by_length
from app.core.cutting.supply import Laid, Run

SEED = 1
# Dives that bring nothing better before it is left at that, by work allowed.
STALE, WORK_A_DIVE = 12, 100_000
# Part of the work that goes into serving sticks one after another, and its rounds.
SERVING, SERVINGS = 0.15, 400
# The same for filling equal sticks anew, before the relaxation and after it.
REPACKING = (0.04, 0.08)
# What a dive may leave to an integer program, in sticks, its part of the time, and
# nodes of its search.
LEFT = (8.0, 12.0, 16.0)
ENDING = 0.3
NODES, WHOLE_NODES = 200, 500
# Fillings that the program over all that matter may have, before the dives and
# amid them, and its part of the time.
FEW, MANY, SETTLING = 300, 4_000, 0.6
# Part of the work for plans whose sticks are chosen first.
CHOOSING = 0.6
# Looks that gathering the leftovers may cost.
GATHERING = 400_000
# Fillings that the program over what a dive leaves may have.
SOME = 1_500


@dataclass(frozen=True, slots=True)
class Answer:
    """What was found: ways to lay it all out, and what bounds them."""

    laid: tuple[tuple[Laid, ...], ...]
    bounds: tuple[Bound, ...]


def plan_lengths(
    run: Run, meter: Work, progress: Progress | None = None, done: int = 0
) -> Answer | None:
    """Go on from a plan of another kind: a better one, or at least its bounds.

    None where there is nothing to plan. The bounds are for all blanks that any
    stick holds; they say nothing about a plan that leaves some of those out.
    """
    job = run.job
    found = kinds(job)
    if not found.sizes:
        return None
    search = Search(found, prices(found), meter)
    served = from_laid(run, found)
    search.offer(served)
    relaxed = _search(search, progress, done)
    best = search.best or served
    part = Work(GATHERING)
    ways = (best.taken, *(gathered(found, one.taken, part) for one in (best, served)))
    laid = tuple(to_laid(job, found, one) for one in ways)
    return Answer(laid, _bounds(search, relaxed))


def _bounds(search: Search, relaxed: Relaxed) -> tuple[Bound, ...]:
    one_each = (1,) * len(search.kinds.sticks)
    cost, pieces = search.floor, least_money(search.kinds, relaxed.duals, one_each)
    if search.settled and search.best:
        cost = search.money()
        if len(one_each) == 1:
            pieces = len(search.best.taken)
    return Bound("cost", cost), Bound("stock_pieces", pieces)


def _search(search: Search, progress: Progress | None, done: int) -> Relaxed:
    """Bound first, then cheap ways, then dives until proven or out of patience."""
    found, meter, dice = search.kinds, search.meter, Random(SEED)  # noqa: S311
    rest = Rest.of(found)
    master = Master(found, search.prices, meter)
    pricer = Pricer(found, search.prices, meter)
    quick = rest.copy()
    serve(found, search.prices, quick, worth_by_length(found), float("inf"), meter)
    search.offer(quick)
    if found.alike and _repack(search, dice, REPACKING[0]):
        return _by_length(search)
    for column in (search.best or quick).taken:
        master.add(column)
    relaxed = generate(master, pricer, rest.wanted, rest.there)
    search.bound = relaxed.bound
    money = tuple(stick.money for stick in found.sticks)
    search.floor = least_money(found, relaxed.duals, money)
    if master.left_out():
        # What is left out does not count in whole steps of the prices.
        search.prices = replace(search.prices, step=0.0)
    elif not search.proven:
        if found.alike:
            _repack(search, dice, REPACKING[1])
        _serve_again(search, dice)
    if not search.proven:
        _settle(search, pricer, relaxed, FEW)
    diver = Diver(found, search.prices, master, pricer, dice)
    _dives(search, diver, progress, done, relaxed)
    return relaxed


def _repack(search: Search, dice: Random, share: float) -> bool:
    """Equal sticks emptied and filled again; whether as few as can be came of it."""
    found, part = search.kinds, search.meter.share(share)
    length = sum(size * n for size, n in zip(found.fine, found.wanted, strict=True))
    least = max(ceil(search.bound - SLACK), -(-length // found.sticks[0].fine))
    search.offer(repacked(found, least, dice, part))
    search.meter.tick(part.spent)
    return search.best is not None and len(search.best.taken) <= least


def _by_length(search: Search) -> Relaxed:
    """Every piece worth its length: all that a bound needs where sticks are full."""
    found = search.kinds
    duals = np.array(found.fine) / found.sticks[0].fine
    money = (found.sticks[0].money,)
    search.floor = least_money(found, duals, money)
    search.bound = float(np.dot(duals, found.wanted))
    return Relaxed(search.bound, search.bound, duals)


def _serve_again(search: Search, dice: Random) -> None:
    part = search.meter.share(SERVING)
    search.offer(
        corrected(search.kinds, search.prices, search.price, dice, part, SERVINGS)
    )
    search.meter.tick(part.spent)


def _settle(search: Search, pricer: Pricer, relaxed: Relaxed, most: int) -> None:
    """The best of all fillings that matter, if they are no more than ``most``."""
    if not search.prices.step:
        return
    args = (search.kinds, search.prices)
    rest = Rest.of(search.kinds)
    columns = useful(search.kinds, pricer, relaxed.duals, rest, search.target, most)
    if columns is None:
        return
    part = search.meter.share(SETTLING)
    outcome = programmed(*args, rest, columns, search.target, part, WHOLE_NODES)
    search.meter.tick(part.spent)
    if outcome in {Outcome.BETTER, Outcome.BEST}:
        search.offer(rest)
    if outcome in {Outcome.NONE, Outcome.BEST}:
        search.settled = True


def _dives(
    search: Search,
    diver: Diver,
    progress: Progress | None,
    done: int,
    relaxed: Relaxed,
) -> None:
    stale = STALE + search.meter.most // WORK_A_DIVE
    number = since = 0
    while not search.proven and not search.meter.over and since < stale:
        since = 0 if _dive(search, diver, number) else since + 1
        number += 1
        if progress:
            progress(done + number, done + number + stale - since)
        if number == STALE // 2 and worth_choosing(search.kinds):
            _choose(search, diver, relaxed)
        if since == STALE // 2:
            _settle(search, diver.pricer, relaxed, MANY)


def _choose(search: Search, diver: Diver, relaxed: Relaxed) -> None:
    part = search.meter.share(CHOOSING)
    apart = replace(search, meter=part)
    choose(apart, diver, relaxed.duals, _dive)
    search.meter.tick(part.spent)
    search.offer(apart.best)


def _dive(search: Search, diver: Diver, number: int) -> bool:
    """One dive, its end by an integer program or by serving what is left."""
    # Left to the program is never most of a job: that would ask the same each time.
    stop = min(diver.dice.choice(LEFT), search.bound / 2) if number % 3 else 0.0
    rest = diver.dive(search.price, stop, choose=number > 0)
    if rest is None:
        return False
    if any(rest.wanted):
        _finish(search, diver, rest, stop)
    return search.offer(rest)


def _finish(search: Search, diver: Diver, rest: Rest, stop: float) -> None:
    found, most = search.kinds, search.target
    args = (found, search.prices)
    if stop:
        room = most - rest.price(search.prices)
        all_of_them = useful(found, diver.pricer, diver.duals, rest, room, SOME)
        columns = diver.master.columns if all_of_them is None else all_of_them
        part = search.meter.share(ENDING)
        outcome = programmed(*args, rest, columns, most, part, NODES)
        search.meter.tick(part.spent)
        if outcome in {Outcome.BETTER, Outcome.BEST}:
            return
    serve(*args, rest, worth_by_length(found), search.price, search.meter)
