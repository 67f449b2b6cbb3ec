"""The segmented ring as numbers: each ring, its segments, the strips they come from."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from app.core import geometry
from app.core.allowance import Allowances
from app.core.angle import Angle
from app.core.forms import _turned as turned
from app.core.forms._turned import Bottom, Profile
from app.core.length import Length, mm
from app.core.pattern import Pattern, letter

# A longer strip swings about on the mitre gauge: common practice, no source.
LONGEST_STRIP = mm(1200)


@dataclass(frozen=True)
class Ring:
    """One glued ring: ``segments`` equal pieces, from ``low`` to ``high``.

    ``outside`` is across its outer flats, ``inside`` through its inner corners; both
    hold the turned circles and the allowance. ``woods`` are the species of the
    segments going round.
    """

    number: int
    low: Length
    high: Length
    segments: int
    outside: Length
    inside: Length
    woods: tuple[str, ...]

    @cached_property
    def outer_edge(self) -> Length:
        """The longer edge of a segment."""
        return geometry.side_of_inscribed(self.outside, self.segments)

    @cached_property
    def inner_edge(self) -> Length:
        """The shorter edge."""
        return turned.inner_edge(self.inside, self.segments)

    @cached_property
    def width(self) -> Length:
        """From edge to edge: the width of the strip."""
        return turned.least_depth(self.outside, self.inside, self.segments)

    @property
    def thickness(self) -> Length:
        return self.high - self.low

    @property
    def face(self) -> Fraction:
        """One segment seen from above, nm²."""
        return Fraction((self.outer_edge + self.inner_edge).nm * self.width.nm, 2)

    @property
    def volume(self) -> int:
        """One segment as sawn, whole nm³."""
        return round(self.face * self.thickness.nm)

    def strip(self, pieces: int, kerf: Length) -> Length:
        """A strip for so many segments, each turned end for end from the last.

        Each takes the mean of its edges and a slanting kerf; the slant of both ends
        comes once to half the difference of the edges.
        """
        mean = Fraction((self.outer_edge + self.inner_edge).nm, 2)
        slant = Fraction((self.outer_edge - self.inner_edge).nm, 2)
        kerfs = (pieces - 1) * slanting(kerf, self.segments)
        return Length.nearest(pieces * mean + kerfs + slant)

    def like(self, other: Ring) -> bool:
        """Whether the segments are the same."""
        return (self.outside, self.inside) == (other.outside, other.inside)


def slanting(kerf: Length, segments: int) -> Fraction:
    """What a cut takes along the strip, nm."""
    return kerf.nm / geometry.cos(segments)


@dataclass(frozen=True)
class Kind:
    """Rings whose segments are the same, cut with one set-up."""

    rings: tuple[Ring, ...]

    @property
    def first(self) -> Ring:
        """The lowest of them."""
        return self.rings[0]

    @property
    def key(self) -> str:
        return f"ring-{self.first.number}"

    @property
    def name(self) -> str:
        """``ring 1``, ``rings 1, 3 and 4``."""
        numbers = [str(ring.number) for ring in self.rings]
        if len(numbers) == 1:
            return f"ring {numbers[0]}"
        return f"rings {', '.join(numbers[:-1])} and {numbers[-1]}"

    @cached_property
    def woods(self) -> dict[str, int]:
        """Segments by species, in the order met."""
        found: dict[str, int] = {}
        for wood in (wood for ring in self.rings for wood in ring.woods):
            found[wood] = found.get(wood, 0) + 1
        return found


@dataclass(frozen=True, slots=True)
class Strips:
    """Equal strips of one species for the segments of one kind of ring.

    ``segments`` go into the build, ``spares`` are for test cuts; ``each`` come from
    one strip.
    """

    key: str
    part: str
    kind: Kind
    species: str
    segments: int
    spares: int
    quantity: int
    each: int
    length: Length


@dataclass(frozen=True)
class Stack:
    """Rings that can be built, and what is turned out of them."""

    segments: int
    profile: Profile
    shaped: bool
    turning: Length
    thickness: Length
    kerf: Length
    pattern: Pattern
    rings: tuple[Ring, ...]
    bottom: Bottom | None
    spares: int
    allowances: Allowances

    @property
    def gauge(self) -> Angle:
        """The mitre gauge from a square crosscut."""
        return geometry.edge_bevel(self.segments)

    @property
    def halves(self) -> bool:
        """Whether a ring can be glued in two equal halves."""
        return self.segments % 2 == 0

    @property
    def widest(self) -> Ring:
        """The ring with the longest segments; of equal ones the lowest."""
        return max(self.rings, key=lambda ring: (ring.outside, -ring.number))

    @cached_property
    def kinds(self) -> tuple[Kind, ...]:
        """Rings by their segments, in the order of the lowest of each."""
        found: list[list[Ring]] = []
        for ring in self.rings:
            same = next((one for one in found if one[0].like(ring)), None)
            if same is None:
                found.append([ring])
            else:
                same.append(ring)
        return tuple(Kind(tuple(rings)) for rings in found)

    @cached_property
    def strips(self) -> tuple[Strips, ...]:
        """Every strip to rip; spares come from a kind's first species."""
        return tuple(
            self._strips(kind, place, wood, count)
            for kind in self.kinds
            for place, (wood, count) in enumerate(kind.woods.items())
        )

    def _strips(self, kind: Kind, place: int, wood: str, count: int) -> Strips:
        ring, spares = kind.first, 0 if place else self.spares
        pieces = count + spares
        most = max(pieces * LONGEST_STRIP.nm // ring.strip(pieces, self.kerf).nm, 1)
        most = min(most, pieces)
        quantity = -(-pieces // most)
        each = -(-pieces // quantity)
        part = f"ring_{ring.number}_segment_{letter(place).lower()}"
        return Strips(
            key=f"ring_{ring.number}_strip_{letter(place).lower()}",
            part=part,
            kind=kind,
            species=wood,
            segments=count,
            spares=spares,
            quantity=quantity,
            each=each,
            length=ring.strip(each, self.kerf),
        )

    @cached_property
    def strips_of(self) -> dict[int, list[Strips]]:
        """Strips by the number of the lowest ring of their kind."""
        found: dict[int, list[Strips]] = {}
        for one in self.strips:
            found.setdefault(one.kind.first.number, []).append(one)
        return found

    @cached_property
    def sawn_volume(self) -> int:
        """The glued blank before it is turned, whole nm³."""
        wood = sum(ring.volume * ring.segments for ring in self.rings)
        if self.bottom is not None:
            wood += round(self.bottom.area * self.bottom.thickness.nm)
        return wood

    @property
    def across_corners(self) -> Length:
        """What the lathe must swing: the circle through the outermost corners."""
        return turned.through_corners(self.outermost)

    @property
    def outermost(self) -> turned.Flats:
        """The flats whose corners lie furthest out."""
        flats = ((ring.outside, ring.segments) for ring in self.rings)
        return turned.outermost(flats, self.bottom)

    def turn(self, ring: Ring) -> float:
        """How far a ring is turned against the first, degrees: like bricks."""
        return 180 / self.segments * ((ring.number - 1) % 2)

    @property
    def joint_slant(self) -> Fraction:
        """How much longer a mitred end is than the strip is wide."""
        return 1 / geometry.cos(self.segments)
