"""How sure the last joint is: what small errors do to a ring that closes on itself.

The sides are followed round as a chain. With every bevel off by the same small
angle, and the other joints tight, each corner turns a little too little and the
last joint stands open at the outer corner. From one corner to the next the chain
turns about one fixed line; half of that turn is the bevel where the sides stand
upright. Where they lean, the edges meet in a point, and the turn from edge to
edge is made up of the corner of the face, 2ψ, about the face's normal, and of the
dihedral turn, 2ε, about the edge. The two axes are at right angles, so half the
turn, Ω/2, follows from cos(Ω/2) = cos ψ · cos ε; the ring closes where that is
cos(180°/sides), and the chord between two corners is the side. With the bevel
off by δ therefore cos(Ω/2) = cos(180°/sides) · cos(ε - δ) / cos ε, and the gap is
side · sin(sides · Ω/2) / sin(Ω/2) in both cases.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from app.core.angle import Angle
from app.core.fine import fine
from app.core.geometry import edge_bevel
from app.core.length import Display, Length
from app.core.shop import Shop
from app.core.size import Group, Kind, Size
from app.core.table import Table

__all__ = [
    "ERRORS",
    "Ring",
    "fine",
    "gap",
    "sizes",
    "spread_gap",
    "table",
    "tolerance",
]

# The errors a table shows, in degrees: a good, a usual and a careless setting.
ERRORS = {
    "closing_gap_at_0_05_degree": Fraction(1, 20),
    "closing_gap_at_0_1_degree": Fraction(1, 10),
    "closing_gap_at_0_2_degree": Fraction(1, 5),
}
# Halvings of the search for an angle: past the last digit of a float.
HALVINGS = 80


@dataclass(frozen=True, slots=True)
class Ring:
    """A chain of sides that ought to close.

    ``bevel`` is the joint's bevel, square to the edge, where the sides lean; 180°
    over ``sides`` where None. ``lengths`` are the sides in their order where they
    differ (a rectangle's), ``side`` elsewhere: of a leaning side the longer edge.
    """

    side: Length
    sides: int
    bevel: Angle | None = None
    lengths: tuple[Length, ...] = ()

    def half_turn(self, off: float) -> float:
        """Half of what the chain turns from corner to corner, radians."""
        closed = math.pi / self.sides
        if self.bevel is None:
            return closed - off
        edge = self.bevel.radians
        return math.acos(
            min(1.0, math.cos(closed) * math.cos(edge - off) / math.cos(edge))
        )

    def opens(self, off: float) -> float:
        """How far its end stands from its start, nm; ``off`` in radians."""
        half = self.half_turn(off)
        if not self.unequal:
            # What is short of closing is kept apart, so that nothing cancels.
            short = off if self.bevel is None else math.pi / self.sides - half
            return abs(self.side.nm * math.sin(self.sides * short) / math.sin(half))
        turns = [(one.nm, 2 * half * i) for i, one in enumerate(self.lengths)]
        return math.hypot(
            math.fsum(long * math.cos(turn) for long, turn in turns),
            math.fsum(long * math.sin(turn) for long, turn in turns),
        )

    @property
    def unequal(self) -> bool:
        """Whether the sides are of more than one length."""
        return len(set(self.lengths)) > 1


def gap(
    side: Length,
    sides: int,
    off: Angle,
    bevel: Angle | None = None,
    lengths: Sequence[Length] = (),
) -> Length:
    """The last joint's gap at the outer corner, with every bevel off by ``off``.

    All are off the same way and the other joints are tight. ``bevel`` and
    ``lengths`` as of a `Ring`.
    """
    ring = Ring(side, sides, bevel, tuple(lengths))
    return Length.nearest(ring.opens(off.radians))


def spread_gap(sides: int, spread: Length) -> Length:
    """The widest the ring can stand open with true angles and unequal lengths.

    The lengths differ by at most ``spread``. It is widest where the sides that
    face one way are all long and the others all short.
    """
    if sides % 2:
        return Length.nearest(spread.nm / (2 * math.sin(math.pi / (2 * sides))))
    return Length.nearest(spread.nm / math.sin(math.pi / sides))


def tolerance(
    side: Length,
    sides: int,
    widest: Length,
    bevel: Angle | None = None,
    lengths: Sequence[Length] = (),
) -> Angle:
    """The error of every bevel that opens the last joint by just ``widest``.

    Where even a grossly wrong bevel would not: half the bevel, or 90° over
    ``sides``, whichever is less.
    """
    ring = Ring(side, sides, bevel, tuple(lengths))
    low, high = 0.0, min((bevel or edge_bevel(sides)).radians, math.pi / sides) / 2
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if ring.opens(middle) < widest.nm:
            low = middle
        else:
            high = middle
    return Angle.from_radians(high)


def sizes(
    side: Length,
    sides: int,
    widest_gap: Length,
    width_spread: Length,
    shop: Shop,
    *,
    bevel: Angle | None = None,
    lengths: Sequence[Length] = (),
) -> tuple[Size, ...]:
    """What a build whose mitres close on themselves says of its last joint."""
    told = _Told(Ring(side, sides, bevel, tuple(lengths)), shop.display)
    return (
        *(told.gap(key, Angle(error)) for key, error in ERRORS.items()),
        told.spread(width_spread),
        told.tolerance(widest_gap),
    )


def table(
    side: Length,
    sides: int,
    shop: Shop,
    *,
    bevel: Angle | None = None,
    lengths: Sequence[Length] = (),
    widest_gap: Length | None = None,
) -> Table:
    """The gap for three errors, and for the one that ``widest_gap`` allows."""
    told = _Told(Ring(side, sides, bevel, tuple(lengths)), shop.display)
    errors = [Angle(error) for error in ERRORS.values()]
    if widest_gap is not None:
        errors.append(tolerance(side, sides, widest_gap, bevel, lengths))
    rule, values = told.working("error")
    return Table(
        key="last_joint",
        title="How sure is the last joint",
        headings=("Each edge is off by", "All edges together", "The last joint opens"),
        rows=tuple(told.row(off) for off in sorted(errors)),
        working=f"{rule} = {values}; {2 * sides} edges",
        group=Group.SURE,
    )


class _Told:
    """Writes down with its working what one ring does."""

    def __init__(self, ring: Ring, display: Display) -> None:
        self.ring = ring
        self.show: Callable[[Length], str] = lambda length: fine(length, display)
        lengths = dict.fromkeys(ring.lengths or (ring.side,))
        self.around = " and ".join(self.show(one) for one in lengths)

    def working(self, error: str) -> tuple[str, str]:
        """The formula of the gap in words, and with its numbers."""
        start = "all bevels off the same way, the other joints tight, "
        sides, bevel = self.ring.sides, self.ring.bevel
        if self.ring.unequal:
            return (
                (
                    f"{start}the sides followed round as a chain that turns "
                    "by 2 × (180° / sides - error) at each corner: from its end to its "
                    "start"
                ),
                f"sides of {self.around}, turning by 2 × (180°/{sides} - {error})",
            )
        if bevel is None:
            return (
                (
                    f"{start}at the outer corner: outside side × sin(sides × error) / "
                    "sin(bevel - error)"
                ),
                f"{self.around} × sin({sides} × {error}) / sin(180°/{sides} - {error})",
            )
        return (
            (
                f"{start}at the outer corner: longer side × sin(sides × half turn) / "
                "sin(half turn), where cos(half turn) = cos(180° / sides) × "
                "cos(bevel - error) / cos(bevel)"
            ),
            (
                f"{self.around}, cos(half turn) = cos(180°/{sides}) × "
                f"cos({bevel} - {error}) / cos({bevel})"
            ),
        )

    def opens(self, off: Angle) -> Length:
        return Length.nearest(self.ring.opens(off.radians))

    def row(self, off: Angle) -> tuple[str, str, str]:
        together = Angle(off.degrees * 2 * self.ring.sides)
        return str(off), str(together), self.show(self.opens(off))

    def gap(self, key: str, off: Angle) -> Size:
        return Size(
            key,
            f"Gap at the last joint, were every bevel off by {off}",
            Kind.LENGTH,
            self.opens(off),
            *self.working(str(off)),
            group=Group.SURE,
        )

    def spread(self, spread: Length) -> Size:
        sides = self.ring.sides
        rule, value = "sin(180° / sides)", f"sin(180°/{sides})"
        if sides % 2:
            rule, value = "(2 × sin(90° / sides))", f"(2 × sin(90°/{sides}))"
        return Size(
            "closing_gap_from_spread",
            f"Gap at the last joint, were the lengths {self.show(spread)} apart",
            Kind.LENGTH,
            spread_gap(sides, spread),
            "angles true, the sides that face one way all long and the others all "
            f"short: spread / {rule}",
            f"{self.show(spread)} / {value}",
            group=Group.SURE,
        )

    def tolerance(self, widest: Length) -> Size:
        ring = self.ring
        rule, _ = self.working("error")
        return Size(
            "angle_tolerance",
            f"How true every bevel must be for a gap of {self.show(widest)}",
            Kind.ANGLE,
            tolerance(ring.side, ring.sides, widest, ring.bevel, ring.lengths),
            f"the error at which the gap comes to that: {rule}",
            f"gap {self.show(widest)}, {ring.sides} sides of {self.around}",
            group=Group.SURE,
        )
