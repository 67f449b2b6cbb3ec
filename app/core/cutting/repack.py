"""Equal sticks emptied a few at a time and filled again, fuller.

Each stick begins with the longest piece there is and takes those that fill it up
best, the longer ones first, so that the short ones are there when it gets tight.
Source: the minimum slack heuristic of Gupta & Ho (1999), Production Planning &
Control 10, 598-603, from memory; emptying and filling again is common practice.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from app.core.cutting.effort import Work
from app.core.cutting.kinds import Kinds
from app.core.cutting.master import Column
from app.core.cutting.sequence import Rest

# Looks that filling a stick costs at least; each piece to choose from costs one more
# for every so many steps of room.
LOOK, WIDE = 8, 8_192
# How many sticks are emptied at once, and how often a piece is passed over.
FEW, MANY = 4, 24
PASSED = 0.15

Stick = tuple[int, ...]


@dataclass(slots=True)
class Repack:
    """Sticks of one room as rows of kinds. ``sizes`` by kind, longest first."""

    sizes: Sequence[int]
    room: int
    dice: Random
    meter: Work

    def fill(self, pieces: Sequence[int]) -> list[Stick]:
        """Kinds in sticks, one stick after another. ``pieces`` longest first."""
        left, found = list(pieces), []
        while left:
            held = self._stick(left)
            for kind in held:
                left.remove(kind)
            found.append(tuple(held))
        return found

    def _stick(self, left: list[int]) -> list[int]:
        """The longest piece and what fills the stick up best beside it."""
        sizes, room = self.sizes, self.room - self.sizes[left[0]]
        all_of_it = (1 << (room + 1)) - 1
        reach, steps = 1, list[tuple[int, int]]()
        shortest = sizes[left[-1]]
        self.meter.tick(LOOK + len(left) * (1 + self.room // WIDE))
        if shortest > room:
            return left[:1]
        # Short ones first, so that reading back prefers the long ones.
        for kind in reversed(left[1:]):
            if sizes[kind] > room:
                break
            if self.dice.random() < PASSED:
                continue
            steps.append((kind, reach))
            reach |= (reach << sizes[kind]) & all_of_it
        at, held = reach.bit_length() - 1, left[:1]
        for kind, before in reversed(steps):
            if at >= sizes[kind] and before >> (at - sizes[kind]) & 1:
                held.append(kind)
                at -= sizes[kind]
        return held

    def again(self, sticks: list[Stick]) -> list[Stick] | None:
        """Empty some of them, the emptiest among them; None if nothing is better."""
        number = min(len(sticks), self.dice.randint(FEW, MANY))
        # The emptiest is at the end.
        out = [len(sticks) - 1, *self.dice.sample(range(len(sticks) - 1), number - 1)]
        chosen = set(out)
        before = [sticks[n] for n in out]
        pieces = sorted(kind for stick in before for kind in stick)
        after = self.fill(pieces)
        if (len(after), -self.full(after)) > (len(before), -self.full(before)):
            return None
        rest = [stick for n, stick in enumerate(sticks) if n not in chosen]
        return sorted(rest + after, key=self.filled, reverse=True)

    def filled(self, stick: Stick) -> int:
        """How much of a stick is used."""
        return sum(self.sizes[kind] for kind in stick)

    def full(self, sticks: Sequence[Stick]) -> int:
        """Higher where full sticks are fuller and the emptier ones emptier."""
        return sum(self.filled(stick) ** 2 for stick in sticks)


def repacked(kinds: Kinds, most: int, dice: Random, meter: Work) -> Rest:
    """The best plan of equal sticks found, at once if it needs no more than ``most``.

    The job must have one kind of stick, as many as wanted, that suits everything.
    """
    pieces = [kind for kind, n in enumerate(kinds.wanted) for _ in range(n)]
    made = Repack(kinds.sizes, kinds.sticks[0].room, dice, meter)
    sticks = sorted(made.fill(pieces), key=made.filled, reverse=True)
    while len(sticks) > most and not meter.over:
        sticks = made.again(sticks) or sticks
    rest = Rest.of(kinds)
    for stick in sticks:
        rest.take(Column(0, dict(Counter(stick))))
    return rest
