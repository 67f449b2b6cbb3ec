"""A job of lengths in the planner's terms: equal things counted, on a grid.

Every size is a piece with one kerf, every room a stick between its trims with
one kerf more: then pieces fit a stick when their sizes add up to no more.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import gcd

from app.core.cutting.fit import clear, suits
from app.core.cutting.job import Job

# Cells of a table, all its rows together. A finer grid costs more time than it
# saves wood: with a hundred kinds a piece loses a hundredth of a hundredth at most.
CELLS = 2_000_000
# The same for bounds: worked out once or twice, so a finer one is no burden.
FINE = 20_000_000


@dataclass(frozen=True, slots=True)
class Stick:
    """Equal stock: ``room`` in steps of the grid, ``there`` None without limit.

    ``fine`` is the room on the finer grid of the bounds.
    ``stock`` are the places in the job. ``board`` is what counts as a whole board.
    """

    room: int
    fine: int
    there: int | None
    money: int
    board: bool
    stock: tuple[int, ...]
    suited: frozenset[int]


@dataclass(frozen=True)
class Kinds:
    """What is wanted and what there is, equal things together.

    ``sizes`` are rounded up to the grid. ``fine`` are rounded down on a finer one,
    for bounds. ``exact``: nothing had to be rounded up.
    ``blanks`` are the places in the job of each kind's blanks. What fits no
    stick is left out.
    """

    sizes: tuple[int, ...]
    fine: tuple[int, ...]
    exact: bool
    wanted: tuple[int, ...]
    blanks: tuple[tuple[int, ...], ...]
    sticks: tuple[Stick, ...]

    @cached_property
    def pieces(self) -> int:
        """How many pieces are wanted."""
        return sum(self.wanted)

    @cached_property
    def families(self) -> tuple[tuple[frozenset[int], tuple[int, ...]], ...]:
        """Sticks that suit the same kinds, so that one table serves them."""
        found: dict[frozenset[int], list[int]] = {}
        for number, stick in enumerate(self.sticks):
            found.setdefault(stick.suited, []).append(number)
        return tuple((suited, tuple(these)) for suited, these in found.items())

    @property
    def alike(self) -> bool:
        """Whether all comes from one kind of stick, as many as wanted."""
        return len(self.sticks) == 1 and self.limit(0) is None

    def limit(self, stick: int) -> int | None:
        """How many of a stick there are; None where that limits nothing."""
        there = self.sticks[stick].there
        return None if there is None or there >= self.pieces else there


def kinds(job: Job) -> Kinds:
    """The job in the planner's terms. It must be one of lengths only."""
    kerf = job.saw.kerf.nm
    groups = _sticks(job)
    whole = _blanks(job, groups)
    sizes = [length + kerf for length, _ in whole]
    rooms = [key[0] + kerf for key in groups]
    step, fine = (_step(sizes, rooms, cells) for cells in (CELLS, FINE))
    sticks = []
    for place, (key, stock) in enumerate(groups.items()):
        suited = frozenset(
            n for n, (_, fitting) in enumerate(whole) if place in fitting
        )
        if suited:
            there = _there(job, stock)
            room, money, board, *_ = key
            on_grid = ((room + kerf) // step, (room + kerf) // fine)
            sticks.append(Stick(*on_grid, there, money, board, tuple(stock), suited))
    return Kinds(
        tuple(-(-size // step) for size in sizes),
        tuple(size // fine for size in sizes),
        not any(size % step for size in sizes),
        tuple(sum(job.blanks[n].quantity for n in these) for these in whole.values()),
        tuple(tuple(these) for these in whole.values()),
        tuple(sticks),
    )


# Room, money, whether a board, species, thickness, id where blanks are bound to it.
Key = tuple[int, int, bool, str, int | None, str]


def _sticks(job: Job) -> dict[Key, list[int]]:
    found: dict[Key, list[int]] = {}
    bound = {name for blank in job.blanks for name in blank.only}
    for number, one in enumerate(job.stock):
        room, _ = clear(one, job)
        if not room or one.quantity == 0:
            continue
        thick = one.thickness.nm if one.thickness else None
        own = one.id if one.id in bound else ""
        key = (room, one.cost or 0, not one.offcut, one.species, thick, own)
        found.setdefault(key, []).append(number)
    return found


def _blanks(
    job: Job, sticks: dict[Key, list[int]]
) -> dict[tuple[int, frozenset[int]], list[int]]:
    """Blanks of one length that the same sticks hold, longest first."""
    found: dict[tuple[int, frozenset[int]], list[int]] = {}
    for number, blank in enumerate(job.blanks):
        fitting = frozenset(
            place
            for place, (key, stock) in enumerate(sticks.items())
            if blank.length.nm <= key[0]
            and suits(job.stock[stock[0]], blank, job.plane)
        )
        if fitting and blank.quantity:
            found.setdefault((blank.length.nm, fitting), []).append(number)
    order = sorted(found, key=lambda key: (-key[0], found[key]))
    return {key: found[key] for key in order}


def _step(sizes: list[int], rooms: list[int], cells: int) -> int:
    """The common step of all lengths; a coarser one where that makes a table long."""
    if not sizes:
        return 1
    # What is left over in a stick may be no multiple: only the sizes must be.
    step = gcd(*sizes)
    return max(step, -(-max(rooms) * len(sizes) // cells))


def _there(job: Job, stock: list[int]) -> int | None:
    there = 0
    for number in stock:
        quantity = job.stock[number].quantity
        if quantity is None:
            return None
        there += quantity
    return there
