"""Boards with defects: planned as the sound rectangles that straight cuts leave.

A job with defects becomes one without: each board that has some is replaced by
its sound rectangles as stock of their own, and what was laid out on those is put
back on the boards, with the cuts that part them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from app.core.cutting.fit import suits, ways, within_limits
from app.core.cutting.job import Job, Stock
from app.core.cutting.parting import (
    Leaf,
    Parter,
    Tree,
    leaves,
    overlap,
)
from app.core.cutting.pattern import Box, Pattern
from app.core.cutting.plan import Direction
from app.core.cutting.rejoin import (
    defects_of,
    large_enough,
    together,
    trimmed,
    whole_board,
)
from app.core.length import Length
from app.core.volume import share

Made = tuple[int, Pattern, int]  # the stock's place in the job, how, copies
# Partings found already, by the stock's id and the directions cuts may take.
Known = dict[tuple[str, tuple[Direction, ...]], Parter]
FIRSTS = {"crosscut": Direction.CROSSCUT, "rip": Direction.RIP}


@dataclass(frozen=True, slots=True)
class Board:
    """One stock of the job as given: itself, or parted into regions.

    ``tree`` None: it has no defects that matter. ``planned`` are the places of
    what stands for it in the job without defects, in the order of the tree's
    sound leaves.
    """

    stock: Stock
    tree: Tree | None
    planned: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Regioned:
    """A job without defects, and the way back to the boards that have them.

    Plan ``job`` as any other, then give what was laid out to ``rejoin``;
    ``layouts.layout`` makes layouts of what that gives, in ``given``. A region
    bears a part of its board's money, by area: a plan's cost is to be counted
    after ``rejoin``. A bound that holds for ``job`` is none for the job as given,
    whose boards could be parted otherwise; one for its boards taken as sound is.
    """

    given: Job
    job: Job
    boards: tuple[Board, ...]

    def rejoin(self, made: Sequence[Made]) -> list[Made]:
        """Patterns on regions as patterns on whole boards of the job as given.

        Regions of one board are used together as far as their copies go, so
        that no more boards are opened than the most used region asks for.
        Waste may hold defects: it is an offcut only where ``rejoin.is_sound``.
        """
        by_place: dict[int, list[tuple[Pattern, int]]] = defaultdict(list)
        for place, pattern, copies in made:
            by_place[place].append((pattern, copies))
        found: list[Made] = []
        for number, board in enumerate(self.boards):
            rows = [by_place[place] for place in board.planned]
            if board.tree is None:
                found += [(number, *one) for row in rows for one in row]
                continue
            for patterns, copies in together(rows):
                whole = whole_board(board.stock, board.tree, patterns, self.given)
                found.append((number, whole, copies))
        return found


def regions(job: Job, first: Direction | None = None) -> Regioned:
    """The job with the sound rectangles of its boards as stock of their own.

    ``first`` is the direction of the first cut around defects, if that matters;
    see ``variants``. Regions keep ``job.stages`` and ``job.first``: with bounded
    rounds all cuts around defects run in the first direction, so they and the
    first cuts in a region are one round. Pins stay with the board's id: resolve
    them before (``pins.loose``), then ``Blank.only`` names the regions here.
    """
    return _regions(job, first, {})


def _regions(job: Job, first: Direction | None, known: Known) -> Regioned:
    bounded = job
    if any(one.defects for one in job.stock):
        bounded = _one_direction(job, first)
    boards: list[Board] = []
    planned: list[Stock] = []
    for stock in job.stock:
        tree, parts = _parted(stock, bounded, first, known)
        places = tuple(range(len(planned), len(planned) + len(parts)))
        boards.append(Board(stock, tree, places))
        planned += parts
    renamed = _only(bounded, boards, planned)
    return Regioned(job, replace(renamed, stock=tuple(planned)), tuple(boards))


def _one_direction(job: Job, first: Direction | None) -> Job:
    """With bounded rounds one direction comes first, on every board."""
    if job.stages is None or job.one_dimensional or job.first in FIRSTS:
        return job
    name = "rip" if first is Direction.RIP else "crosscut"
    return replace(job, first=name)


def variants(job: Job) -> tuple[Regioned, ...]:
    """Every parting worth planning, the most promising first; the same ones once.

    Without defects that is the job alone. A planner makes a plan for each, with
    a share of the work, and keeps the best. Where rounds are bounded and either
    direction may come first, each variant fixes ``job.first``.
    """
    firsts: list[Direction | None] = [None, Direction.CROSSCUT, Direction.RIP]
    if job.one_dimensional or not any(one.defects for one in job.stock):
        firsts = [None]
    elif job.stages is not None:
        firsts = [FIRSTS[job.first]] if job.first in FIRSTS else firsts[1:]
    found: list[Regioned] = []
    known: Known = {}
    for first in firsts:
        one = _regions(job, first, known)
        if all(one.job != other.job for other in found):
            found.append(one)
    return tuple(sorted(found, key=lambda one: -_promise(one)))


def _promise(found: Regioned) -> int:
    regioned = (one for board in found.boards if board.tree for one in board.planned)
    return sum(_area(found.job.stock[place]) ** 2 for place in regioned)


def _area(stock: Stock) -> int:
    return stock.length.nm * (stock.width.nm if stock.width else 1)


def _parted(
    stock: Stock, job: Job, first: Direction | None, known: Known
) -> tuple[Tree | None, list[Stock]]:
    """How a board is parted, and the stock that stands for it."""
    made, box, _ = trimmed(stock, job)
    if not any(overlap(box, one) for one in defects_of(stock)):
        return None, [replace(stock, defects=())]
    if not all(within_limits(cut.direction, cut.box, job.machine) for cut in made.cuts):
        return Leaf(box, sound=False), []
    key = (stock.id, _ways(job))
    if key not in known:
        known[key] = Parter(
            job.saw.kerf.nm, defects_of(stock), job.machine, key[1], _useful(stock, job)
        )
    _, _, tree = known[key].best(box, first)
    return tree, _stock_of(tree, stock, {one.id for one in job.stock})


def _ways(job: Job) -> tuple[Direction, ...]:
    if job.one_dimensional:
        return (Direction.CROSSCUT,)
    if job.stages is None:
        return tuple(Direction)
    return (FIRSTS.get(job.first, Direction.CROSSCUT),)


def _useful(stock: Stock, job: Job) -> Callable[[Box], bool]:
    """Whether a region holds a blank, and in a series could wait for its period."""
    least = _least_sizes(stock, job)
    series = len(job.periods) > 1

    def useful(box: Box) -> bool:
        _, _, length, width = box
        holds = any(long <= length and wide <= width for long, wide in least)
        return holds and (not series or large_enough(box, job))

    return useful


def _least_sizes(stock: Stock, job: Job) -> list[tuple[int, int]]:
    """What a region must measure at least to hold a blank; none needs be larger."""
    sizes = sorted(
        {
            (along, across)
            for blank in job.blanks
            if suits(stock, blank, job.plane)
            for along, across, _ in ways(blank)
        }
    )
    found: list[tuple[int, int]] = []
    for long, wide in sizes:
        if not found or wide < found[-1][1]:
            found.append((long, wide))
    return found


def _region(box: Box, stock: Stock) -> Stock:
    """A sound rectangle as stock, sawn all round or at an edge trimmed before."""
    width = None if stock.width is None else Length(box[3])
    return replace(stock, length=Length(box[2]), width=width, trimmed=True, defects=())


def _stock_of(tree: Tree, stock: Stock, taken: set[str]) -> list[Stock]:
    boxes = [leaf.box for leaf in leaves(tree) if leaf.sound]
    shares = share(stock.cost or 0, [box[2] * box[3] for box in boxes])
    mark = "/"
    while any(f"{stock.id}{mark}{n}" in taken for n in range(len(boxes))):
        mark += "/"
    return [
        replace(
            _region(box, stock),
            id=f"{stock.id}{mark}{number}",
            cost=None if stock.cost is None else cost,
        )
        for number, (box, cost) in enumerate(zip(boxes, shares, strict=True))
    ]


def _only(job: Job, boards: Sequence[Board], planned: Sequence[Stock]) -> Job:
    """Blanks that may come from a board alone may come from its regions alone."""
    ids = {
        board.stock.id: tuple(planned[place].id for place in board.planned)
        # Of a board that has no sound region nothing may come, not anything.
        or (board.stock.id,)
        for board in boards
    }
    blanks = tuple(
        replace(
            one, only=tuple(new for old in one.only for new in ids.get(old, (old,)))
        )
        for one in job.blanks
    )
    return replace(job, blanks=blanks)
