"""The walls of a box, cell by cell: exactly, for volumes and for solids.

A wall lies with u along it from its left end as seen from outside, t from its outer
face inwards and z up, in whole nanometres. Every cell is a prism between two heights
and two depths whose ends may lean, as mitres do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

from app.core.forms._box import Box, Groove

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Cell:
    """Wood between heights ``z`` and depths ``t``.

    ``near`` and ``far`` give where it begins and ends along the wall at the first
    depth and at the second.
    """

    z: Span
    t: Span
    near: Span
    far: Span
    species: str

    @property
    def twice(self) -> int:
        """Twice its volume, nm³: whole also where an end leans."""
        lengths = self.near[1] - self.near[0] + self.far[1] - self.far[0]
        return lengths * (self.z[1] - self.z[0]) * (self.t[1] - self.t[0])

    @property
    def outline(self) -> list[tuple[float, float]]:
        """Seen from above, anticlockwise."""
        (a, b), (c, d) = self.near, self.far
        low, high = self.t
        return [(a, low), (b, low), (d, high), (c, high)]


@dataclass(frozen=True, slots=True)
class Wall:
    """One wall of the box, or a part of its height: a lowered end, a lid's strip."""

    box: Box
    number: int
    low: int
    high: int

    def cells(self) -> tuple[Cell, ...]:
        """Every cell of it, lowest first."""
        return tuple(self._cells())

    @property
    def volume(self) -> Fraction:
        """The finished wall with joints, grooves and dados cut; splines apart."""
        return Fraction(sum(self.by_species.values()), 2)

    @property
    def by_species(self) -> dict[str, int]:
        """Each wood in it, from the bottom up, with twice its volume."""
        found: dict[str, int] = {}
        for cell in self.cells():
            found[cell.species] = found.get(cell.species, 0) + cell.twice
        return found

    def _cells(self) -> Iterator[Cell]:
        rows = self._rows()
        # Layers with the same grooves and the same kind of finger are cut alike.
        known: dict[tuple[object, ...], list[tuple[Span, Span, Span]]] = {}
        for z in pairwise(_within(self._levels(), self.low, self.high)):
            name = next(name for top, name in rows if z[1] <= top)
            like = (*self._grooves(z), self.start(z, 0, 0))
            if like not in known:
                known[like] = list(self._layer(z))
            for t, near, far in known[like]:
                yield Cell(z, t, near, far, name)

    def _rows(self) -> list[tuple[int, str]]:
        """The top of every strip with its wood, from the bottom up."""
        tops = accumulate(width.nm for width in self.box.rows)
        column = self.box.pattern.column(self.number)
        return list(zip(tops, column, strict=True))

    def _layer(self, z: Span) -> Iterator[tuple[Span, Span, Span]]:
        """Wood at one height: between which depths, and along the wall at each."""
        for t in pairwise(_within(self._depths(z), 0, self.box.wall.nm)):
            for near, far in self._lengths(z, t):
                yield t, near, far

    def _levels(self) -> Iterator[int]:
        """Heights at which something changes."""
        box = self.box
        yield from accumulate(width.nm for width in box.rows)
        if box.fingers:
            yield from box.fingers.marks
        for groove in (box.base_groove, box.lid_groove):
            if groove:
                yield from (groove.low.nm, groove.high.nm)

    def _depths(self, z: Span) -> Iterator[int]:
        box = self.box
        if any(self._grooves(z)):
            yield box.wall.nm - box.groove_depth.nm
        if box.joint == "rebate" and box.carries(self.number):
            yield box.wall.nm - box.rebate_depth.nm
        if self.dados():
            assert box.dividers
            yield box.wall.nm - box.dividers.dado.nm

    def _grooves(self, z: Span) -> Iterator[Groove]:
        for groove in (self.box.base_groove, self.box.lid_groove):
            if groove and groove.low.nm <= z[0] and z[1] <= groove.high.nm:
                yield groove

    def start(self, z: Span, t: int, middle: float) -> int:
        """Where wood begins at a depth ``t`` of the layer round ``middle``."""
        box = self.box
        if box.joint == "mitre":
            return t
        if box.fingers:
            own = box.fingers.of_sides(*z) == (self.number % 2 == 0)
            return 0 if own else box.wall.nm
        lip = box.wall.nm - box.rebate_depth.nm
        if not box.carries(self.number):
            return lip
        return 0 if middle < lip else box.wall.nm

    def _lengths(self, z: Span, t: Span) -> Iterator[tuple[Span, Span]]:
        """Where wood runs along the wall: at the near depth, at the far depth."""
        box, middle = self.box, sum(t) / 2
        near, far = (self.start(z, depth, middle) for depth in t)
        outer = box.outer(self.number).nm
        spans = [((near, outer - near), (far, outer - far))]
        if middle > box.wall.nm - box.groove_depth.nm:
            for groove in self._grooves(z):
                spans = list(_less(spans, self.grooved(groove)))
        if box.dividers and middle > box.wall.nm - box.dividers.dado.nm:
            for dado in self.dados():
                spans = list(_less(spans, dado))
        return iter(spans)

    def grooved(self, groove: Groove) -> Span:
        """From where to where a groove is cut along the wall."""
        outer = self.box.outer(self.number).nm
        if not self.box.shows(self.number, groove):
            return -1, outer + 1
        end = self.box.groove_end.nm
        near, far = end, outer - end
        if groove == self.box.lid_groove:
            # The lid leaves over the right end, by the front's far end.
            near = -1 if self.number == 2 else near
            far = outer + 1 if self.number == 0 else far
        return near, far

    def dados(self) -> tuple[Span, ...]:
        """The dados across it, along the wall."""
        box = self.box
        # A lid's strip stands above them all.
        if not box.dividers or not box.dividers.dado or self.low:
            return ()
        held = box.dividers.along if self.number % 2 else box.dividers.across
        thick, wall = box.dividers.thickness.nm, box.wall.nm
        found = [(wall + one.nm, wall + one.nm + thick) for one in held.starts]
        if self.number < 2:
            return tuple(found)
        outer = box.outer(self.number).nm
        return tuple((outer - high, outer - low) for low, high in found)


def _within(places: Iterable[int], low: int, high: int) -> list[int]:
    return sorted({low, high, *(place for place in places if low < place < high)})


def _less(
    spans: Iterable[tuple[Span, Span]], gone: Span
) -> Iterator[tuple[Span, Span]]:
    """What is left of spans when a stretch of both depths is cut away."""
    low, high = gone
    for (a, b), (c, d) in spans:
        if high <= min(a, c) or low >= max(b, d):
            yield (a, b), (c, d)
            continue
        if low > max(a, c):
            yield (a, low), (c, low)
        if high < min(b, d):
            yield (high, b), (high, d)
