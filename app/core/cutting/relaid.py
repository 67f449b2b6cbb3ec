"""The same pieces on the same board, so that what is left over is worth most.

A pattern is read as a nest of rows: slabs side by side, each a blank or a row across
it. What is waste in it falls together and comes off as large as it can, small slabs
come off before large ones so that the work stays large, and equal ones one after
another.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from app.core.cutting.job import Job, Machine, Stock
from app.core.cutting.order import set_ups_of
from app.core.cutting.parting import within_limits
from app.core.cutting.pattern import Box, Pattern, RawCut, Shape, other
from app.core.cutting.plan import Direction
from app.core.cutting.sawn import halves
from app.core.cutting.worth import Policy
from app.core.length import mm

# Too short to rip on most machines: the rule of thumb of the caution
# powered-machine.short-stock.
SHORT = mm(300).nm
CROSSCUT, RIP = Direction.CROSSCUT, Direction.RIP


@dataclass(frozen=True, slots=True)
class Row:
    """Slabs parted off one after another in one direction."""

    direction: Direction
    slabs: tuple[Nest, ...]


Nest = Shape | Row


def best_leftover(pattern: Pattern, job: Job, stock: Stock) -> Pattern:
    """The pattern, or the same pieces laid out so that its offcuts are worth more.

    Where they are worth the same, the one with fewer rips of short pieces, then
    fewer set-ups, then fewer cuts. Rounds of cuts, limits of the machine and the
    way of the first round stay kept. A board with defects stays as it is, and so
    does a pattern whose wood a later period cuts up.
    """
    root = _root(pattern)
    if stock.defects or root is None:
        return pattern
    nest = _nest(root, _Read.of(pattern))
    if nest is None:
        return pattern
    saw = _Saw(Policy.of(job), job.saw.kerf.nm, job.stages is not None, job.machine)
    nests = [nest] if saw.staged else [*_other_ways(nest, saw.kerf), nest]
    made = [saw.again(pattern, root, one) for one in nests]
    found = [one for one in made if one and _allowed(one, job)]
    return min([*found, pattern], key=saw.rank)


def _allowed(pattern: Pattern, job: Job) -> bool:
    return all(
        within_limits(cut.direction, cut.box, job.machine) for cut in pattern.cuts
    )


def _root(pattern: Pattern) -> Box | None:
    """What is there once the stock is trimmed; None where nothing is known of it."""
    trims = [cut for cut in pattern.cuts if cut.trim]
    if not trims:
        return pattern.cuts[0].box if pattern.cuts else None
    near, far = halves(trims[-1])
    return far if near[2] * near[3] < far[2] * far[3] else near


@dataclass(frozen=True, slots=True)
class _Read:
    """A pattern by its boxes."""

    pieces: dict[Box, Shape]
    cuts: dict[Box, RawCut]

    @classmethod
    def of(cls, pattern: Pattern) -> _Read:
        pieces = {box: shape for shape, box in pattern.pieces}
        return cls(pieces, {cut.box: cut for cut in pattern.cuts})


def _nest(box: Box, read: _Read) -> Nest | None:
    """The rows in a box; None where it is waste. A row of one is no row."""
    if box in read.pieces:
        return read.pieces[box]
    cut = read.cuts.get(box)
    if cut is None:
        return None
    slabs: list[Nest] = []
    for half in halves(cut):
        found = _nest(half, read) if half[2] > 0 and half[3] > 0 else None
        if isinstance(found, Row) and found.direction is cut.direction:
            slabs.extend(found.slabs)
        elif found:
            slabs.append(found)
    return _row(cut.direction, slabs)


def _row(direction: Direction, slabs: list[Nest]) -> Nest | None:
    if len(slabs) < 2:
        return slabs[0] if slabs else None
    return Row(direction, tuple(slabs))


def needs(nest: Nest, kerf: int) -> tuple[int, int]:
    """The least length and width that a nest can be sawn from, nm."""
    if isinstance(nest, Shape):
        return nest.length, nest.width
    sizes = [needs(slab, kerf) for slab in nest.slabs]
    gaps = kerf * (len(sizes) - 1)
    lengths, widths = zip(*sizes, strict=True)
    if nest.direction is CROSSCUT:
        return sum(lengths) + gaps, max(widths)
    return max(lengths), sum(widths) + gaps


def _other_ways(nest: Nest, kerf: int) -> list[Nest]:
    """The nest with its slabs of one width gathered, and turned where that goes."""
    gathered = _gathered(nest, kerf)
    turned = _turned(gathered)
    return [one for one in (gathered, turned) if one != nest]


def _gathered(nest: Nest, kerf: int) -> Nest:
    """Slabs that leave the same strip beside them as one block with one strip."""
    if isinstance(nest, Shape):
        return nest
    axis = 1 if nest.direction is CROSSCUT else 0
    inner = [_gathered(slab, kerf) for slab in nest.slabs]
    inner.sort(key=lambda slab: -needs(slab, kerf)[axis])
    widest = needs(inner[0], kerf)[axis]
    slabs: list[Nest] = []
    for size, these in groupby(inner, key=lambda slab: needs(slab, kerf)[axis]):
        block = list(these)
        if size == widest or len(block) < 2:
            slabs.extend(block)
        else:
            slabs.append(Row(nest.direction, tuple(block)))
    return Row(nest.direction, tuple(slabs))


def _turned(nest: Nest) -> Nest:
    """Rows of blanks that are all alike, sawn the other way round first."""
    if isinstance(nest, Shape):
        return nest
    slabs = tuple(_turned(slab) for slab in nest.slabs)
    rows = [_blanks(slab, other(nest.direction)) for slab in slabs]
    alike = {tuple(one.along(other(nest.direction)) for one in row) for row in rows}
    if len(alike) > 1 or () in alike:
        return Row(nest.direction, slabs)
    columns = (Row(nest.direction, column) for column in zip(*rows, strict=True))
    return Row(other(nest.direction), tuple(columns))


def _blanks(nest: Nest, direction: Direction) -> tuple[Shape, ...]:
    """The blanks of a row in a direction, small first; none where it is another."""
    if isinstance(nest, Shape) or nest.direction is not direction:
        return ()
    blanks = [slab for slab in nest.slabs if isinstance(slab, Shape)]
    if len(blanks) < len(nest.slabs):
        return ()
    return tuple(sorted(blanks, key=lambda one: (one.along(direction), one.blank)))


@dataclass(frozen=True, slots=True)
class _Saw:
    """Lays nests out again; ``staged``: no strip is taken off across a row first."""

    policy: Policy
    kerf: int
    staged: bool
    machine: Machine

    def rank(self, pattern: Pattern) -> tuple[int, ...]:
        """Less is better."""
        worth = sum(self.policy.worth(box[2], box[3]) for box in pattern.waste)
        short = sum(c.direction is RIP and c.box[2] < SHORT for c in pattern.cuts)
        return (-worth, short, set_ups_of([pattern]), len(pattern.cuts))

    def again(self, pattern: Pattern, root: Box, nest: Nest) -> Pattern | None:
        """A nest laid out on the same trimmed stock; None where it does not fit."""
        length, width = needs(nest, self.kerf)
        trims = [cut for cut in pattern.cuts if cut.trim]
        if length > root[2] or width > root[3] or pattern.cuts[: len(trims)] != trims:
            return None
        off = [box for box in pattern.waste if not _inside(box, root)]
        made = Pattern(waste=off, cuts=trims)
        self.lay(made, nest, root, len(trims) - 1)
        return made

    def lay(self, made: Pattern, nest: Nest, box: Box, after: int) -> None:
        """Saw a nest from a box: what is over comes off first where that is best."""
        room = needs(nest, self.kerf)
        if isinstance(nest, Shape):
            for direction in self._first_off(box, room):
                size = nest.along(direction)
                box, after = self._off(made, box, direction, size, after)
            made.pieces.append((nest, box))
            return
        if not self.staged:
            box, after = self._strip(made, nest, box, room, after)
        self._slabs(made, nest, box, after)

    def _strip(
        self, made: Pattern, row: Row, box: Box, room: tuple[int, int], after: int
    ) -> tuple[Box, int]:
        """What lies beside a row taken off in one piece, past its end or not."""
        across = other(row.direction)
        for direction in self._first_off(box, room, across):
            size = room[0] if direction is CROSSCUT else room[1]
            box, after = self._off(made, box, direction, size, after)
            if direction is across:
                break
        return box, after

    def _slabs(self, made: Pattern, row: Row, box: Box, after: int) -> None:
        axis = 0 if row.direction is CROSSCUT else 1
        rest: Box | None = box
        for slab in sorted(row.slabs, key=lambda one: self._order(one, axis)):
            assert rest, "a row that does not fit its box"
            size = needs(slab, self.kerf)[axis]
            here, rest, after = made.part_off(
                rest, row.direction, size, self.kerf, after
            )
            self.lay(made, slab, here, after)
        if rest:
            made.waste.append(rest)

    def _order(self, nest: Nest, axis: int) -> tuple[int, ...]:
        size = needs(nest, self.kerf)
        blank = nest.blank if isinstance(nest, Shape) else -1
        return (size[axis], size[1 - axis], blank)

    def _off(
        self, made: Pattern, box: Box, direction: Direction, size: int, after: int
    ) -> tuple[Box, int]:
        kept, gone, after = made.part_off(box, direction, size, self.kerf, after)
        if gone:
            made.waste.append(gone)
        return kept, after

    def _first_off(
        self, box: Box, room: tuple[int, int], rather: Direction = RIP
    ) -> tuple[Direction, Direction]:
        """Which spare comes off first, so that what comes off is worth most."""
        _, _, length, width = box
        worth, kerf = self.policy.worth, self.kerf
        end = max(length - room[0] - kerf, 0)
        side = max(width - room[1] - kerf, 0)
        across = worth(end, width) + worth(room[0], side)
        along = worth(length, side) + worth(end, room[1])
        best = rather if across == along else CROSSCUT if across > along else RIP
        if not within_limits(best, box, self.machine):
            best = other(best)
        return (best, other(best))


def _inside(box: Box, outer: Box) -> bool:
    return all(
        outer[axis] <= box[axis]
        and box[axis] + box[axis + 2] <= outer[axis] + outer[axis + 2]
        for axis in (0, 1)
    )
