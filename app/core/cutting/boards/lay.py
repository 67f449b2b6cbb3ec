"""A block laid on a board: the cuts that part it, and what they leave over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from app.core.cutting.boards.grow import CROSSCUT, RIP
from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.tree import Node, Tree, period, size
from app.core.cutting.fit import trims, within_limits
from app.core.cutting.job import Job
from app.core.cutting.pattern import Box, Pattern, RawCut, Shape, inside
from app.core.cutting.plan import Direction
from app.core.cutting.worth import worth

WAYS = {CROSSCUT: Direction.CROSSCUT, RIP: Direction.RIP}


@dataclass(slots=True)
class _Layer:
    """Lays one tree out into a pattern that is begun."""

    job: Job
    kinds: Kinds
    made: Pattern

    def lay(self, tree: Tree, box: Box, after: int) -> None:
        """Part a box into the blanks of a tree; what is beyond them is waste."""
        if isinstance(tree, Node):
            self._parts(tree, box, after)
        else:
            self._single(tree, box, after)

    def _parts(self, node: Node, box: Box, after: int) -> None:
        direction = WAYS[node.way]
        rest: Box | None = box
        for part in self._in_turn(node):
            assert rest is not None
            length, width = size(self.kinds, part, CROSSCUT)
            along = length if node.way == CROSSCUT else width
            slab, rest, after = self.made.part_off(
                rest, direction, along - self.kinds.limits.kerf, self._kerf, after
            )
            self.lay(part, slab, after)
        if rest:
            self.made.waste.append(rest)

    def _in_turn(self, node: Node) -> list[Tree]:
        """What is cut first stands first, then large before small, equal together."""

        def rank(part: Tree) -> tuple[int, ...]:
            length, width = size(self.kinds, part, CROSSCUT)
            along, across = (length, width) if node.way == CROSSCUT else (width, length)
            return period(self.kinds, part), -along, -across

        return sorted(node.parts, key=rank)

    @property
    def _kerf(self) -> int:
        return self.kinds.limits.kerf

    def _single(self, lie: int, box: Box, after: int) -> None:
        one = self.kinds.lies[lie]
        shape = Shape(
            one.kind, one.length - self._kerf, one.width - self._kerf, one.turned
        )
        # Along the grain first, as long as the piece is still long.
        for direction in (Direction.RIP, Direction.CROSSCUT):
            wide = shape.along(direction)
            box, rest, after = self.made.part_off(
                box, direction, wide, self._kerf, after
            )
            if rest:
                self.made.waste.append(rest)
        self.made.pieces.append((shape, box))


def laid_out(job: Job, kinds: Kinds, stock: int, tree: Tree) -> Pattern | None:
    """The best way to lay a block on a piece of stock; None where none is allowed.

    Shapes hold the kind in place of the blank.
    """
    found = [
        pattern for pattern in _tries(job, kinds, stock, tree) if allowed(pattern, job)
    ]
    if not found:
        return None
    return max(found, key=lambda one: _merit(job, one))


def _tries(job: Job, kinds: Kinds, stock: int, tree: Tree) -> Iterator[Pattern]:
    """Waste beyond the block cut off along first, across first, or with the parts."""
    one, kerf = job.stock[stock], kinds.limits.kerf
    whole = (0, 0, one.length.nm, one.width.nm if one.width else 1)
    length, width = (extent - kerf for extent in size(kinds, tree, CROSSCUT))
    across = (Direction.CROSSCUT, length), (Direction.RIP, width)
    for order in ((), across[:1], across[1:], across, across[::-1]):
        made = Pattern()
        box, after = made.trim(whole, (kerf, *trims(one, job.saw)))
        if box[2] < length or box[3] < width:
            return
        for direction, extent in order:
            box, rest, after = made.part_off(box, direction, extent, kerf, after)
            if rest:
                made.waste.append(rest)
        _Layer(job, kinds, made).lay(tree, box, after)
        yield made


def _merit(job: Job, pattern: Pattern) -> tuple[int, ...]:
    kept = sum(worth(box[2], box[3], job) for box in pattern.waste)
    return kept, -len(pattern.cuts)


def allowed(pattern: Pattern, job: Job) -> bool:
    """Whether the saw can make every cut, in the rounds there may be."""
    cuts = [cut for cut in pattern.cuts if not cut.trim]
    if not all(
        within_limits(cut.direction, cut.box, job.machine) for cut in pattern.cuts
    ):
        return False
    if not _as_asked(cuts, job):
        return False
    return job.stages is None or _rounds_kept(pattern, cuts, job)


def _as_asked(cuts: list[RawCut], job: Job) -> bool:
    """Whether the first cut is the one asked for, where there is any of its kind."""
    if job.first == "either" or not cuts:
        return True
    ways = {cut.direction.value for cut in cuts}
    return job.first not in ways or cuts[0].direction.value == job.first


def _rounds_kept(pattern: Pattern, cuts: list[RawCut], job: Job) -> bool:
    """Whether each piece comes free in time; a last trimming of one is free.

    Where ripping comes second, a board that is only ripped had an empty round.
    """
    assert job.stages is not None
    for _, piece in pattern.pieces:
        way = [cut for cut in cuts if inside(piece, cut.box)]
        turns = [list(run) for _, run in groupby(way, key=lambda cut: cut.direction)]
        if not turns:
            continue
        first = turns[0][0].direction.value
        rounds = len(turns) + (job.first not in ("either", first))
        if rounds <= job.stages:
            continue
        if rounds > job.stages + 1 or not _only_trims(turns[-1], pattern):
            return False
    return True


def _only_trims(last: list[RawCut], pattern: Pattern) -> bool:
    """Whether a last round cuts one piece free of its waste, no more."""
    return sum(inside(piece, last[0].box) for _, piece in pattern.pieces) == 1
