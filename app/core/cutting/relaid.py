"""The same pieces on the same board, so that what is left over is worth most.

What is waste in a pattern falls together and comes off as large as it can. Large
slabs come off before small ones, on every board, so that one setting serves them all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from app.core.cutting.fit import within_limits
from app.core.cutting.job import Job, Machine, Stock
from app.core.cutting.nests import Nest, Row, needs, other_ways, read
from app.core.cutting.order import set_ups_of
from app.core.cutting.pattern import Box, Pattern, Shape, inside, other
from app.core.cutting.plan import Direction
from app.core.cutting.sawn import NARROW, halves
from app.core.cutting.worth import Policy
from app.core.length import mm

# Too short to rip on most machines: the rule of thumb of the caution
# powered-machine.short-stock.
SHORT = mm(300).nm
MOST_TRIES = 100  # plans weighed for fewer set-ups
CROSSCUT, RIP = Direction.CROSSCUT, Direction.RIP


def best_leftover(pattern: Pattern, job: Job, stock: Stock) -> Pattern:
    """The pattern, or the same pieces laid out so that its offcuts are worth more.

    Only that pieces which no hand can hold are ripped counts more: they are ripped
    in one length where that goes. Where they are worth the same, the one with fewer
    rips of short pieces, then fewer set-ups, then fewer cuts. Rounds of cuts, limits
    of the machine and the way of the first round stay kept. A board with defects
    stays as it is, and so does a pattern whose wood a later period cuts up.
    """
    return min(as_good(pattern, job, stock), key=_changes)


def as_good(pattern: Pattern, job: Job, stock: Stock) -> list[Pattern]:
    """Every way found to saw the same pieces whose offcuts are worth most.

    Before that counts that few pieces are ripped which no hand can hold, whatever
    the machine; all of them have as few rips of short pieces as any. The pattern
    itself is last among them where it is one.
    """
    found = [*_again(pattern, job, stock), pattern]
    policy = Policy.of(job)

    def rank(one: Pattern) -> tuple[int, int, int]:
        worth = sum(policy.worth(box[2], box[3]) for box in one.waste)
        ripped = [cut.box[2] for cut in one.cuts if cut.direction is RIP]
        unheld = sum(length < NARROW for length in ripped)
        return (unheld, -worth, sum(length < SHORT for length in ripped))

    ranks = [rank(one) for one in found]
    best = min(ranks)
    return [one for one, its in zip(found, ranks, strict=True) if its == best]


def _changes(pattern: Pattern) -> tuple[int, int]:
    return (set_ups_of([pattern]), len(pattern.cuts))


def fewest_changes(
    job: Job, boards: Sequence[tuple[Pattern, Stock]], most: int = MOST_TRIES
) -> list[Pattern]:
    """A pattern for each board, so that all are sawn with few changes of setting.

    Each board takes in turn that of its patterns that are ``as_good`` which suits
    the others best: fewest set-ups of the whole plan, then fewest cuts. At most
    ``most`` plans are weighed, each in some twenty microseconds a cut.
    """
    ways = [as_good(pattern, job, stock) for pattern, stock in boards]
    chosen = [min(these, key=_changes) for these in ways]
    tried = 0
    for at, these in enumerate(ways):
        if len(these) < 2 or tried + len(these) > most:
            continue
        tried += len(these)
        plans = [[*chosen[:at], one, *chosen[at + 1 :]] for one in these]
        best = min(plans, key=lambda plan: (set_ups_of(plan), len(plan[at].cuts)))
        chosen = best
    return chosen


def _again(pattern: Pattern, job: Job, stock: Stock) -> list[Pattern]:
    root = _root(pattern)
    if stock.defects or root is None:
        return []
    nest = read(pattern, root)
    if nest is None:
        return []
    kerf = job.saw.kerf.nm
    saw = _Saw(Policy.of(job), kerf, True, job.machine)
    freely = replace(saw, staged=False)
    ended = replace(freely, to_the_end=True)
    freed = replace(ended, together=True)
    nests = [*other_ways(nest, root[2], kerf), nest]
    saws = [freed, ended, freely]
    if job.first == CROSSCUT.value:
        saws.append(replace(freed, end_first=True))
    ways = [*product(saws, nests), (saw, nest)]
    # Where a machine holds nothing so short, small slabs come off a long board.
    for small_first in (False, True):
        made = [
            replace(how, small_first=small_first).again(pattern, root, one)
            for how, one in ways
        ]
        # What is laid out by its own rows takes the rounds it took.
        rounds = [one for one in made[:-1] if one and _in_rounds(one, job)]
        begun = [
            one
            for one in [*rounds, made[-1]]
            if one and _begins_like(pattern, one, job)
        ]
        if allowed := [one for one in begun if _allowed(one, job)]:
            return allowed
    return []


def _in_rounds(pattern: Pattern, job: Job) -> bool:
    """Whether it takes no more rounds of cuts than there may be."""
    if job.stages is None:
        return True
    # It computes with arrays, which are loaded where they are needed.
    from app.core.cutting.boards.lay import allowed  # noqa: PLC0415

    return allowed(pattern, job)


def _allowed(pattern: Pattern, job: Job) -> bool:
    return all(
        within_limits(cut.direction, cut.box, job.machine) for cut in pattern.cuts
    )


def _begins_like(pattern: Pattern, other: Pattern, job: Job) -> bool:
    """Whether the first round runs the way it did, where the maker asked for one."""
    if job.first == "either":
        return True
    first = [
        next((cut.direction for cut in one.cuts if not cut.trim), None)
        for one in (pattern, other)
    ]
    return first[0] is first[1]


def _root(pattern: Pattern) -> Box | None:
    """What is there once the stock is trimmed; None where nothing is known of it."""
    trims = [cut for cut in pattern.cuts if cut.trim]
    if not trims:
        return pattern.cuts[0].box if pattern.cuts else None
    near, far = halves(trims[-1])
    return far if near[2] * near[3] < far[2] * far[3] else near


@dataclass(frozen=True, slots=True)
class _Saw:
    """Lays nests out again; ``staged``: no strip is taken off across a row first.

    ``to_the_end``: a row's last slab keeps what lies past it, so that this comes off
    in one piece with what lies beside the slab where that is worth more.
    ``together``: what lies beside a row of lengths is ripped off in one length.
    ``end_first``: the end of a board comes off before what lies beside its pieces.
    Large slabs first: small sizes are those of later rounds too. Measured on the
    workshop jobs, small ones first take a fifth more set-ups.
    """

    policy: Policy
    kerf: int
    staged: bool
    machine: Machine
    small_first: bool = False
    to_the_end: bool = False
    together: bool = False
    end_first: bool = False

    def again(self, pattern: Pattern, root: Box, nest: Nest) -> Pattern | None:
        """A nest laid out on the same trimmed stock; None where it does not fit."""
        length, width = needs(nest, self.kerf)
        trims = [cut for cut in pattern.cuts if cut.trim]
        if length > root[2] or width > root[3] or pattern.cuts[: len(trims)] != trims:
            return None
        off = [box for box in pattern.waste if not inside(box, root)]
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
        order = self._first_off(box, room, across)
        ripped = self.together and row.direction is CROSSCUT
        if not (ripped or self._worth_a_cut(row, box, room, order)):
            return box, after
        for direction in order:
            size = room[0] if direction is CROSSCUT else room[1]
            box, after = self._off(made, box, direction, size, after)
            if direction is across:
                break
        return box, after

    def _worth_a_cut(
        self,
        row: Row,
        box: Box,
        room: tuple[int, int],
        order: tuple[Direction, Direction],
    ) -> bool:
        """Whether a strip is kept, or else frees a blank that is as wide as the row.

        Else each slab is cut free at the setting of its last blank, not at one
        that no other board shares.
        """
        along, across = (0, 1) if row.direction is CROSSCUT else (1, 0)
        sizes = [0, 0]
        sizes[across] = box[2 + across] - room[across] - self.kerf
        sizes[along] = room[along] if order[0] is row.direction else box[2 + along]
        if sizes[across] > 0 and self.policy.worth(sizes[0], sizes[1]):
            return True
        widest = max(row.slabs, key=lambda slab: needs(slab, self.kerf)[across])
        return isinstance(widest, Shape) and order[0] is not row.direction

    def _slabs(self, made: Pattern, row: Row, box: Box, after: int) -> None:
        axis = 0 if row.direction is CROSSCUT else 1
        rest: Box | None = box
        slabs = self._in_turn(row, axis)
        for left, slab in zip(range(len(slabs) - 1, -1, -1), slabs, strict=True):
            assert rest, "a row that does not fit its box"
            if self.to_the_end and not left:
                self.lay(made, slab, rest, after)
                return
            size = needs(slab, self.kerf)[axis]
            here, rest, after = made.part_off(
                rest, row.direction, size, self.kerf, after
            )
            self.lay(made, slab, here, after)
        if rest:
            made.waste.append(rest)

    def _in_turn(self, row: Row, axis: int) -> list[Nest]:
        """A row's slabs as they come off; what is over at the end suits the last."""
        slabs = sorted(row.slabs, key=lambda one: self._order(one, axis))
        if self.to_the_end:
            # The one with most beside it, or the last of them.
            beside = [-needs(one, self.kerf)[1 - axis] for one in slabs]
            last = max(range(len(slabs)), key=lambda at: (beside[at], at))
            slabs.append(slabs.pop(last))
        return slabs

    def _order(self, nest: Nest, axis: int) -> tuple[int, ...]:
        size = needs(nest, self.kerf)
        blank = nest.blank if isinstance(nest, Shape) else -1
        sign = 1 if self.small_first else -1
        return (sign * size[axis], sign * size[1 - axis], blank)

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
        if self.end_first:
            best = CROSSCUT
        if not within_limits(best, box, self.machine):
            best = other(best)
        return (best, other(best))
