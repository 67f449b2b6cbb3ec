"""Which solids to draw first, so that what is in front covers what is behind.

Two convex solids that do not overlap have a plane between them; the one on the
viewer's side is drawn later. Whole pieces are compared first, then the cells of
those that reach into each other: a base in its groove, a spline in its slot.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, pairwise, product

from app.core.seen import EDGE_ON, TOUCH, Axes, Body, Side, Solid, View, reach
from app.core.solid import Piece, dot

Order = tuple[int, int]
TRIED = 16  # solids whose planes may cut where a cut cannot be helped


def back_to_front(pieces: Sequence[Piece], view: View) -> list[Solid]:
    """Every cell, what is behind before what is in front of it.

    Cells that hide each other all round are cut by the plane of a face, so that
    there always is an order.
    """
    axes = Axes(view)
    return _ordered(
        [
            Solid(number, cell, axes)
            for number, piece in enumerate(pieces)
            for cell in piece.cells
        ]
    )


def _ordered(solids: list[Solid]) -> list[Solid]:
    if len(solids) < 2:
        return solids
    scene = _Scene(solids)
    if slices := scene.sliced():
        return [solid for slice_ in slices for solid in _ordered(slice_)]
    before, ring, after = (
        [solids[one] for one in some if one < len(solids)]
        for some in _peeled(len(solids) + 2 * len(scene.members), scene.orders())
    )
    return [*before, *_cut_apart(ring), *after]


class _Scene:
    """Solids by number, then two numbers a piece: before and after all of it."""

    def __init__(self, solids: list[Solid]) -> None:
        self.solids = solids
        self.axes = solids[0].axes
        by_piece: dict[int, list[int]] = defaultdict(list)
        for number, solid in enumerate(solids):
            by_piece[solid.piece].append(number)
        self.members = list(by_piece.values())
        self.wholes = [self._whole(members) for members in self.members]
        # How pieces lie to each other: as `_in_front`, None where they reach in.
        self.signs = {
            (i, j): _in_front(self.wholes[i], self.wholes[j])
            for i, j in combinations(range(len(self.wholes)), 2)
            if _may_meet(self.wholes[i], self.wholes[j])
        }

    def _whole(self, members: list[int]) -> Body:
        if len(members) == 1:
            return self.solids[members[0]]
        solids = [self.solids[one] for one in members]
        points = (point for solid in solids for point in solid.points)
        numbers = (number for solid in solids for number in solid.numbers)
        return Body(points, numbers, self.axes)

    def sliced(self) -> list[list[Solid]]:
        """Slices in order, where planes that cut nothing part what reaches in.

        A base in its grooves: what is below it, with it, and above it. Empty where
        no pieces reach into each other, or no plane parts them.
        """
        inside = {
            one for pair, sign in self.signs.items() if sign is None for one in pair
        }
        for piece in sorted(inside, key=lambda one: len(self.members[one])):
            for number in self.wholes[piece].numbers:
                groups = self._parted(list(range(len(self.solids))), number)
                if len(groups) > 1:
                    slices = _joined(groups, set(self.members[piece]))
                    if self.axes.towards[number] < 0:
                        slices.reverse()
                    return [[self.solids[one] for one in some] for some in slices]
        return []

    def orders(self) -> set[Order]:
        """What has to come before what."""
        found: set[Order] = set()
        for piece, members in enumerate(self.members):
            layers = self._layers(members, self.wholes[piece].numbers)
            start, end = self._ends(piece)
            for one, other in pairwise([[start], *layers, [end]]):
                found.update(product(one, other))
            for layer in layers:
                found.update(self._between(combinations(layer, 2)))
        for (i, j), sign in self.signs.items():
            if sign is None:
                found.update(self._between(product(self.members[i], self.members[j])))
            elif sign:
                behind, before = (i, j) if sign > 0 else (j, i)
                found.add((self._ends(behind)[1], self._ends(before)[0]))
        return found

    def _ends(self, piece: int) -> tuple[int, int]:
        start = len(self.solids) + 2 * piece
        return start, start + 1

    def _between(self, pairs: Iterable[Order]) -> Iterator[Order]:
        for i, j in pairs:
            one, other = self.solids[i], self.solids[j]
            if _may_meet(one, other):
                sign = _in_front(one, other)
                if sign is None:
                    sign = _deeper(one, other)
                if sign:
                    yield (i, j) if sign > 0 else (j, i)

    def _layers(self, members: list[int], numbers: Sequence[int]) -> list[list[int]]:
        """Members in layers along some axis, and those in layers along another."""
        if len(members) == 1:
            return [members]
        for number in numbers:
            groups = self._parted(members, number)
            if len(groups) > 1:
                if self.axes.towards[number] < 0:
                    groups.reverse()
                return [one for group in groups for one in self._layers(group, numbers)]
        return [members]

    def _parted(self, members: list[int], number: int) -> list[list[int]]:
        """Groups of members with planes across the axis between them."""
        spans = sorted((self.solids[one].span(number), one) for one in members)
        groups: list[list[int]] = []
        far = -math.inf
        for (low, high), one in spans:
            if low >= far - TOUCH:
                groups.append([])
            groups[-1].append(one)
            far = max(far, high)
        return groups


def _joined(groups: list[list[int]], apart: set[int]) -> list[list[int]]:
    """Neighbouring groups as one where neither holds any of ``apart``."""
    found: list[list[int]] = []
    holds = True
    for group in groups:
        now = not apart.isdisjoint(group)
        if found and not now and not holds:
            found[-1] += group
        else:
            found.append(list(group))
        holds = now
    return found


def _may_meet(one: Body, other: Body) -> bool:
    """Whether the two can cover each other on the page at all."""
    left, low, right, high = one.page
    a, b, c, d = other.page
    return left < c and a < right and low < d and b < high


def _in_front(one: Body, other: Body) -> int | None:
    """1 where ``other`` is in front, -1 where ``one`` is, 0 where neither can be.

    None: no plane of a face parts them.
    """
    for number in (*one.numbers, *other.numbers):
        (low, high), (other_low, other_high) = one.span(number), other.span(number)
        if high <= other_low + TOUCH:
            sign = 1
        elif other_high <= low + TOUCH:
            sign = -1
        else:
            continue
        towards = one.axes.towards[number]
        if abs(towards) < EDGE_ON:
            return 0
        return sign if towards > 0 else -sign
    return None


def _deeper(one: Solid, other: Solid) -> int:
    """A guess where only a plane through two edges could tell: middles by depth."""
    towards = one.axes.view.towards
    depths = [
        sum(dot(point, towards) for point in body.points) / len(body.points)
        for body in (one, other)
    ]
    return 1 if depths[1] > depths[0] else -1


def _peeled(count: int, orders: set[Order]) -> tuple[list[int], list[int], list[int]]:
    """Numbers in order: those before every ring, in or between rings, after all."""
    before = _freed(range(count), orders)
    kept = set(range(count)).difference(before)
    if not kept:
        return before, [], []
    rest = sorted(kept)
    turned = {(b, a) for a, b in orders if a in kept and b in kept}
    after = _freed(rest, turned)
    return before, sorted(kept.difference(after)), after[::-1]


def _freed(numbers: Iterable[int], orders: set[Order]) -> list[int]:
    """Numbers each after all that has to come before it, as far as that goes."""
    waits = dict.fromkeys(numbers, 0)
    after: dict[int, list[int]] = defaultdict(list)
    for one, other in sorted(orders):
        waits[other] += 1
        after[one].append(other)
    free = [one for one, count in waits.items() if not count]
    for one in free:  # grows as others are freed
        for other in after[one]:
            waits[other] -= 1
            if not waits[other]:
                free.append(other)
    return free


def _cut_apart(solids: list[Solid]) -> list[Solid]:
    """Solids in order, halved by the plane of a side of one where none can be first."""
    if len(solids) < 2:
        return solids
    for side in _fewest_cuts(solids):
        inside, outside = _halves(solids, side)
        if inside and outside:
            halves = _ordered(inside), _ordered(outside)
            first, last = halves if _turned(side, solids) else halves[::-1]
            return [*first, *last]
    return solids


def _turned(side: Side, solids: list[Solid]) -> bool:
    return dot(side.normal, solids[0].axes.view.towards) > 0


def _fewest_cuts(solids: list[Solid]) -> list[Side]:
    """Sides whose planes cut few solids and halve the rest first, one a plane."""
    ways = solids[0].axes.ways
    planes = {
        (side.axis, round(dot(ways[side.axis], side.face[0]))): side
        for solid in solids[:: max(1, len(solids) // TRIED)]
        for side in solid.sides
    }

    def cost(plane: tuple[int, int]) -> float:
        axis, at = plane
        spans = [solid.span(axis) for solid in solids]
        below = sum(high <= at + TOUCH for _, high in spans)
        above = sum(low >= at - TOUCH for low, _ in spans)
        return len(solids) - below - above + abs(below - above) / 8

    return [planes[one] for one in sorted(planes, key=cost)]


def _halves(solids: list[Solid], side: Side) -> tuple[list[Solid], list[Solid]]:
    """What is behind the side's plane, and what is before it."""
    at = side.face[0]
    x, y, z = side.normal
    way = solids[0].axes.ways[side.axis]
    plane = (side.axis, way, dot(way, at))
    inside, outside = [], []
    for solid in solids:
        low, high = reach(solid.points, side.normal)
        level = dot(side.normal, at)
        if high <= level + TOUCH:
            inside.append(solid)
        elif low >= level - TOUCH:
            outside.append(solid)
        else:
            halves = solid.cell.cut(side.normal, at), solid.cell.cut((-x, -y, -z), at)
            for half, there in zip(halves, (inside, outside), strict=True):
                if half is not None:
                    cuts = (*solid.cuts, plane)
                    there.append(Solid(solid.piece, half, solid.axes, cuts))
    return inside, outside
