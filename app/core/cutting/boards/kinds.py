"""A job of boards in the planner's terms: equal things counted, kerfs added.

Every size is a piece's with one kerf, every room a board's between its trims with
one kerf more: then pieces side by side fit when their sizes add up to no more.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from app.core.cutting.fit import clear, suits, ways
from app.core.cutting.job import Job, Stock
from app.core.cutting.worth import worth
from app.core.length import Length

# No board holds more pieces of a kind than this.
MOST = 1_000


@dataclass(frozen=True, slots=True)
class Lie:
    """A way a kind of blank may lie: along the grain, across it, in nm with kerf."""

    kind: int
    length: int
    width: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Limits:
    """What the saw and the shop allow, nm without kerf; None: no limit."""

    kerf: int
    stages: int | None
    first: str
    keep_length: int
    keep_width: int
    longest_crosscut: int | None
    longest_rip: int | None
    shortest: int | None


@dataclass(frozen=True, slots=True)
class Board:
    """Equal boards: the room between their trims with one kerf, nm.

    ``there`` None: without limit. ``worth`` is what one that is here already is
    worth keeping, nm². ``stock`` are the places in the job.
    """

    length: int
    width: int
    there: int | None
    money: int
    worth: int
    stock: tuple[int, ...]
    suited: frozenset[int]

    @property
    def area(self) -> float:
        """Its room, nm²."""
        return float(self.length) * self.width


@dataclass(frozen=True)
class Kinds:
    """What is wanted and what there is.

    ``blanks`` are the places in the job of each kind's blanks, ``periods`` when
    each kind is cut. What fits no board is left out.
    """

    lies: tuple[Lie, ...]
    wanted: tuple[int, ...]
    blanks: tuple[tuple[int, ...], ...]
    periods: tuple[int, ...]
    boards: tuple[Board, ...]
    limits: Limits

    @cached_property
    def areas(self) -> Any:
        """What each kind takes with its kerf, nm²."""
        found = np.zeros(len(self.wanted))
        for lie in self.lies:
            found[lie.kind] = float(lie.length) * lie.width
        return found

    @cached_property
    def pieces(self) -> int:
        """How many pieces are wanted."""
        return sum(self.wanted)

    def there(self) -> list[int | None]:
        """How many of each board there are."""
        return [board.there for board in self.boards]


def limits(job: Job) -> Limits:
    """The job's limits in plain numbers."""
    machine = job.machine

    def plain(length: Length | None) -> int | None:
        return None if length is None else length.nm

    return Limits(
        job.saw.kerf.nm,
        job.stages,
        job.first,
        job.keep.length.nm,
        job.keep.width.nm,
        plain(machine.longest_crosscut),
        plain(machine.longest_rip),
        plain(machine.shortest_piece),
    )


def kinds(job: Job) -> Kinds:
    """The job in the planner's terms; it must have widths, but no pins or defects."""
    boards = _boards(job)
    lies: list[Lie] = []
    wanted: list[int] = []
    blanks: list[tuple[int, ...]] = []
    periods: list[int] = []
    suited: dict[int, list[int]] = {place: [] for place in range(len(boards))}
    for (lie, period, fitting), these in _blanks(job, boards).items():
        kind = len(wanted)
        kerf = job.saw.kerf.nm
        lies += [Lie(kind, a + kerf, b + kerf, turned) for a, b, turned in lie]
        wanted.append(sum(job.blanks[n].quantity for n in these))
        blanks.append(tuple(these))
        periods.append(period)
        for place in fitting:
            suited[place].append(kind)
    return Kinds(
        tuple(lies),
        tuple(wanted),
        tuple(blanks),
        tuple(periods),
        tuple(
            replace(board, suited=frozenset(suited[place]))
            for place, board in enumerate(boards)
            if suited[place]
        ),
        limits(job),
    )


def _boards(job: Job) -> list[Board]:
    found: dict[tuple[object, ...], list[int]] = {}
    # Stock that some blanks are bound to is a kind of its own.
    own = {name for blank in job.blanks for name in blank.only}
    for number, one in enumerate(job.stock):
        room = clear(one, job)
        if all(room) and one.quantity != 0:
            apart = one.id if one.id in own else ""
            found.setdefault((*room, *_matter(one), apart), []).append(number)
    return [_board(job, these) for these in found.values()]


def _matter(one: Stock) -> tuple[object, ...]:
    """What else has to be equal for two boards to be of one kind."""
    thick = one.thickness.nm if one.thickness else None
    return (one.cost or 0, one.cost is None, one.species, thick, one.period)


def _board(job: Job, these: list[int]) -> Board:
    one, kerf = job.stock[these[0]], job.saw.kerf.nm
    length, width = clear(one, job)
    there = 0
    for number in these:
        quantity = job.stock[number].quantity
        there = -1 if quantity is None or there < 0 else there + quantity
    here = worth(length, width, job) if not one.cost else 0
    return Board(
        length + kerf,
        width + kerf,
        None if there < 0 else there,
        one.cost or 0,
        here,
        tuple(these),
        frozenset(),
    )


Key = tuple[tuple[tuple[int, int, bool], ...], int, frozenset[int]]


def _blanks(job: Job, boards: list[Board]) -> dict[Key, list[int]]:
    """Blanks of one size and period that the same boards hold, largest first."""
    found: dict[Key, list[int]] = {}
    for number, blank in enumerate(job.blanks):
        when = job.when(blank.period)
        fitting = frozenset(
            place
            for place, board in enumerate(boards)
            if suits(job.stock[board.stock[0]], blank, job.plane)
            and job.when(job.stock[board.stock[0]].period) <= when
            and any(_holds(board, way, job.saw.kerf.nm) for way in ways(blank))
        )
        if fitting and blank.quantity:
            found.setdefault((ways(blank), when, fitting), []).append(number)
    order = sorted(found, key=lambda key: (-key[0][0][0] * key[0][0][1], found[key]))
    return {key: found[key] for key in order}


def _holds(board: Board, way: tuple[int, int, bool], kerf: int) -> bool:
    return way[0] + kerf <= board.length and way[1] + kerf <= board.width


def apart(whole: Kinds) -> Iterator[Kinds]:
    """Kinds and boards that have nothing to do with each other, one by one."""
    left = set(range(len(whole.wanted)))
    while left:
        these = {min(left)}
        boards: set[int] = set()
        while True:
            more = {
                place
                for place, board in enumerate(whole.boards)
                if place not in boards and board.suited & these
            }
            if not more:
                break
            boards |= more
            these |= {k for place in more for k in whole.boards[place].suited}
        left -= these
        yield _part(whole, sorted(these), sorted(boards))


def _part(whole: Kinds, these: list[int], boards: list[int]) -> Kinds:
    place = {kind: n for n, kind in enumerate(these)}
    return Kinds(
        tuple(
            replace(lie, kind=place[lie.kind])
            for lie in whole.lies
            if lie.kind in place
        ),
        tuple(whole.wanted[kind] for kind in these),
        tuple(whole.blanks[kind] for kind in these),
        tuple(whole.periods[kind] for kind in these),
        tuple(
            replace(board, suited=frozenset(place[k] for k in board.suited))
            for board in (whole.boards[n] for n in boards)
        ),
        whole.limits,
    )
