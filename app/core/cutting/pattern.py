"""One piece of stock laid out by straight cuts, edge to edge.

Everything here is whole nanometres in plain integers: this is the loop that
the planner spends its time in. A box is (x, y, length, width).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from app.core.cutting.fit import within_limits
from app.core.cutting.job import Machine
from app.core.cutting.plan import Direction

Box = tuple[int, int, int, int]
ANY_NUMBER = 12  # rounds of parallel cuts; nobody saws deeper


def inside(inner: Box, outer: Box) -> bool:
    """Whether a box lies within another, or is the same."""
    return all(
        outer[axis] <= inner[axis]
        and inner[axis] + inner[axis + 2] <= outer[axis] + outer[axis + 2]
        for axis in (0, 1)
    )


@dataclass(frozen=True, slots=True)
class Shape:
    """One way a blank may lie."""

    blank: int
    length: int
    width: int
    turned: bool

    def along(self, direction: Direction) -> int:
        """How much room a slab parted off in this direction gives it."""
        return self.length if direction is Direction.CROSSCUT else self.width


@dataclass(frozen=True, slots=True)
class RawCut:
    """A cut as laid out. ``after`` is the cut that must come first, or -1.

    ``setting`` is what stays between fence or stop and blade; ``trim`` marks
    a cut that only squares an end or an edge of the stock.
    """

    direction: Direction
    at: int
    kerf: int
    box: Box
    setting: int
    after: int
    trim: bool = False


@dataclass(slots=True)
class Pattern:
    """How one piece of stock is cut up."""

    pieces: list[tuple[Shape, Box]] = field(default_factory=list)
    waste: list[Box] = field(default_factory=list)
    cuts: list[RawCut] = field(default_factory=list)

    @property
    def area(self) -> int:
        """What the pieces cover, nm²."""
        return sum(shape.length * shape.width for shape, _ in self.pieces)

    def part_off(
        self, box: Box, direction: Direction, size: int, kerf: int, after: int
    ) -> tuple[Box, Box | None, int]:
        """Saw a slab of ``size`` off a box: slab, rest if any, the cut's number.

        A slab that ends at the box's edge needs no cut. Where no more than a
        kerf is left beyond it, the saw turns all of that to dust.
        """
        x, y, length, width = box
        across = direction is Direction.CROSSCUT
        beyond = (length if across else width) - size
        if beyond == 0:
            return box, None, after
        dust = min(kerf, beyond)
        at = (x if across else y) + size
        self.cuts.append(RawCut(direction, at, dust, box, size, after))
        slab = (x, y, size, width) if across else (x, y, length, size)
        left = beyond - dust
        if not left:
            return slab, None, len(self.cuts) - 1
        far = at + dust
        rest = (far, y, left, width) if across else (x, far, length, left)
        return slab, rest, len(self.cuts) - 1

    def trim(self, box: Box, saw: tuple[int, int, int]) -> tuple[Box, int]:
        """Take edges and ends off; ``saw`` is kerf, end trim, edge trim."""
        kerf, end, edge = saw
        after = -1
        # Edges first: a crosscut is squared by an edge that is straight.
        for direction, off in ((Direction.RIP, edge), (Direction.CROSSCUT, end)):
            if off:
                box, after = self._trim_near(box, direction, off, kerf, after)
                box, after = self._trim_far(box, direction, off, kerf, after)
        return box, after

    def _trim_near(
        self, box: Box, direction: Direction, off: int, kerf: int, after: int
    ) -> tuple[Box, int]:
        x, y, length, width = box
        dust = min(kerf, off)
        away = off - dust
        if direction is Direction.CROSSCUT:
            cut_at, rest = x + away, (x + off, y, length - off, width)
            gone = (x, y, away, width)
        else:
            cut_at, rest = y + away, (x, y + off, length, width - off)
            gone = (x, y, length, away)
        self.cuts.append(RawCut(direction, cut_at, dust, box, off, after, trim=True))
        if away:
            self.waste.append(gone)
        return rest, len(self.cuts) - 1

    def _trim_far(
        self, box: Box, direction: Direction, off: int, kerf: int, after: int
    ) -> tuple[Box, int]:
        size = (box[2] if direction is Direction.CROSSCUT else box[3]) - off
        kept, gone, number = self.part_off(box, direction, size, kerf, after)
        raw = self.cuts[-1]
        self.cuts[-1] = RawCut(
            raw.direction, raw.at, raw.kerf, raw.box, off, raw.after, trim=True
        )
        if gone:
            self.waste.append(gone)
        return kept, number


def other(direction: Direction) -> Direction:
    """The way the next round of cuts runs."""
    return Direction.RIP if direction is Direction.CROSSCUT else Direction.CROSSCUT


@dataclass(slots=True)
class Filler:
    """Lays blanks out on one piece of stock, first choice first.

    ``orders`` are the shapes in order of preference for slabs parted off
    across and along the grain; ``left`` is how many of each blank are wanted
    and is counted down. ``look`` is how many candidate slabs are tried at the
    first round, the one with ``top`` rounds to go. ``tick`` is told of work done.
    ``machine`` is what the saw can do.
    """

    orders: Mapping[Direction, Sequence[Shape]]
    left: list[int]
    kerf: int
    look: int
    tick: Callable[[int], None]
    top: int = 0
    machine: Machine = Machine()
    made: Pattern = field(default_factory=Pattern)

    def fill(
        self,
        box: Box,
        direction: Direction,
        rounds: int,
        after: int,
        lead: Shape | None = None,
    ) -> None:
        """Part slabs off a box until nothing more fits; what remains is waste."""
        rest: Box | None = box
        while rest:
            shape = lead or self._pick(rest, direction, rounds, after)
            lead = None
            if shape is None:
                self.made.waste.append(rest)
                return
            if (shape.length, shape.width) == rest[2:]:
                self._place(shape, rest)
                return
            rest, after = self._slab(rest, direction, rounds, after, shape)

    def _slab(
        self, box: Box, direction: Direction, rounds: int, after: int, shape: Shape
    ) -> tuple[Box | None, int]:
        size = shape.along(direction)
        slab, rest, cut = self.made.part_off(box, direction, size, self.kerf, after)
        if rounds > 1:
            self.fill(slab, other(direction), rounds - 1, cut, shape)
        else:
            self._trimmed(slab, other(direction), cut, shape)
        return rest, cut

    def _trimmed(
        self, slab: Box, direction: Direction, after: int, shape: Shape
    ) -> None:
        # The last round may only cut one piece free of its waste.
        size = shape.along(direction)
        piece, waste, _ = self.made.part_off(slab, direction, size, self.kerf, after)
        self._place(shape, piece)
        if waste:
            self.made.waste.append(waste)

    def _place(self, shape: Shape, box: Box) -> None:
        self.left[shape.blank] -= 1
        self.made.pieces.append((shape, box))

    def _pick(
        self, box: Box, direction: Direction, rounds: int, after: int
    ) -> Shape | None:
        fitting = self._fitting(box, direction, rounds)
        if len(fitting) < 2:
            return fitting[0] if fitting else None
        return max(
            fitting, key=lambda shape: self._share(box, direction, rounds, after, shape)
        )

    def _fitting(self, box: Box, direction: Direction, rounds: int) -> list[Shape]:
        """The first shapes that fit, with slabs of different sizes."""
        _, _, length, width = box
        most = max(self.look, 1) if rounds == self.top else 1
        found: list[Shape] = []
        sizes: set[int] = set()
        for shape in self.orders[direction]:
            self.tick(1)
            if not self.left[shape.blank] or shape.along(direction) in sizes:
                continue
            fits = shape.length <= length and shape.width <= width
            if fits and self._sawable(box, direction, shape):
                sizes.add(shape.along(direction))
                found.append(shape)
                if len(found) == most:
                    break
        return found

    def _sawable(self, box: Box, direction: Direction, shape: Shape) -> bool:
        """Whether the saw can part the shape's slab off, and the shape off that."""
        x, y, length, width = box
        across = direction is Direction.CROSSCUT
        size = shape.along(direction)
        if size != (length if across else width) and not within_limits(
            direction, box, self.machine
        ):
            return False
        slab = (x, y, size, width) if across else (x, y, length, size)
        if (shape.length, shape.width) == slab[2:]:
            return True
        return within_limits(other(direction), slab, self.machine)

    def _share(
        self, box: Box, direction: Direction, rounds: int, after: int, shape: Shape
    ) -> float:
        """How full the slab would be that this shape leads."""
        # Looking ahead inside a look ahead would cost more than it finds.
        trial = Filler(
            self.orders,
            self.left.copy(),
            self.kerf,
            0,
            self.tick,
            machine=self.machine,
        )
        rest, _ = trial._slab(box, direction, rounds, after, shape)
        whole = box[2] * box[3] - (rest[2] * rest[3] if rest else 0)
        return trial.made.area / whole
