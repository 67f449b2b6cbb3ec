"""First fit and best fit decreasing: what a person does by hand, or a simple program.

A new stick or board is the cheapest for its size that holds the piece. What costs
nothing is used up first, the smallest that holds it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.core.cutting.published import Instance


@dataclass
class Opened:
    """Stock that may still be opened: length and width with a kerf, number, cost."""

    stock: list[list[int | None]]
    paid: int = 0

    @classmethod
    def of(cls, instance: Instance) -> Opened:
        """Everything that an instance offers."""
        kerf = instance["kerf"]
        return cls(
            [
                [
                    one["length"] + kerf,
                    one.get("width", 1) + (kerf if "width" in one else 0),
                    one["quantity"],
                    one["cost"],
                ]
                for one in instance["stock"]
            ]
        )

    def new(self, length: int, width: int = 1) -> tuple[int, int] | None:
        """Open what is cheapest for its size and holds the piece."""
        usable = [
            one
            for one in self.stock
            if _least(one[0]) >= length and _least(one[1]) >= width and one[2] != 0
        ]
        if not usable:
            return None
        taken = min(usable, key=_rate)
        if taken[2] is not None:
            taken[2] -= 1
        self.paid += taken[3] or 0
        return _least(taken[0]), _least(taken[1])


def _least(size: int | None) -> int:
    return size or 0


def _rate(one: list[int | None]) -> tuple[float, int]:
    size = _least(one[0]) * _least(one[1])
    return (_least(one[3]) / size, size)


def sizes(instance: Instance) -> Iterator[tuple[int, int]]:
    """Every piece with its kerf; the width is 1 where only lengths are cut."""
    kerf = instance["kerf"]
    for one in instance["items"]:
        wide = one["width"] + kerf if "width" in one else 1
        yield from [(one["length"] + kerf, wide)] * one["quantity"]


def sticks(instance: Instance, best_fit: bool) -> int | None:
    """What first fit or best fit decreasing pays for a job of lengths."""
    offer, opened = Opened.of(instance), list[int]()
    for size, _ in sorted(sizes(instance), reverse=True):
        fitting = [n for n, room in enumerate(opened) if room >= size]
        if fitting:
            fullest = min(fitting, key=opened.__getitem__)
            opened[fullest if best_fit else fitting[0]] -= size
            continue
        new = offer.new(size)
        if new is None:
            return None
        opened.append(new[0] - size)
    return offer.paid


@dataclass
class Boards:
    """Rectangles left over on opened boards, in the order they came to be."""

    offer: Opened
    best_fit: bool
    free: list[tuple[int, int]] = field(default_factory=list)

    def place(self, length: int, width: int) -> bool:
        """Saw a piece out of a corner; the longer of the two rests stays whole."""
        fitting = [
            n
            for n, (long, wide) in enumerate(self.free)
            if long >= length and wide >= width
        ]
        if fitting:
            tightest = min(fitting, key=lambda n: self.free[n][0] * self.free[n][1])
            room = self.free.pop(tightest if self.best_fit else fitting[0])
        else:
            new = self.offer.new(length, width)
            if new is None:
                return False
            room = new
        self.free += _rests(room, length, width)
        return True


def _rests(room: tuple[int, int], length: int, width: int) -> list[tuple[int, int]]:
    """What two cuts through a corner leave, cut so that the larger rest is largest."""
    end, side = room[0] - length, room[1] - width
    rip_first = [(room[0], side), (end, width)]
    cross_first = [(end, room[1]), (length, side)]
    larger = max((cross_first, rip_first), key=lambda two: max(a * b for a, b in two))
    return [one for one in larger if one[0] and one[1]]


def boards(instance: Instance, best_fit: bool) -> int | None:
    """What guillotine first fit or best fit pays, the cheaper of two orders.

    By area and by width, decreasing: what a person would try one after the other.
    """
    found = []
    for order in (lambda one: one[0] * one[1], lambda one: (one[1], one[0])):
        made = Boards(Opened.of(instance), best_fit)
        pieces = sorted(sizes(instance), key=order, reverse=True)
        if all(made.place(*one) for one in pieces):
            found.append(made.offer.paid)
    return min(found, default=None)
