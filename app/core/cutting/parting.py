"""Straight cuts that part a board with defects into sound rectangles.

Whole nanometres in plain integers, like the patterns. A box is (x, y, length,
width). A kerf goes into the defect wherever that is wide enough to take it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeGuard

from app.core.cutting.fit import within_limits
from app.core.cutting.job import Machine
from app.core.cutting.pattern import Box
from app.core.cutting.plan import Direction

# Defects in one box whose cuts are all tried against each other; with more, the
# cut that looks best is made until few are left.
FEW = 3


@dataclass(frozen=True, slots=True)
class Leaf:
    """A rectangle that is parted no further: sound, or given up with its defects."""

    box: Box
    sound: bool


@dataclass(frozen=True, slots=True)
class Sawn:
    """One cut through ``box``, with what lies on either side of it, if anything."""

    box: Box
    direction: Direction
    at: int
    kerf: int
    near: Tree | None
    far: Tree | None


Tree = Leaf | Sawn
Found = tuple[int, int, Tree]  # worth, cuts (negative: fewer are better), how


def overlap(one: Box, other: Box) -> Box | None:
    """What two rectangles have in common."""
    x, y = max(one[0], other[0]), max(one[1], other[1])
    length = min(one[0] + one[2], other[0] + other[2]) - x
    width = min(one[1] + one[3], other[1] + other[3]) - y
    return (x, y, length, width) if length > 0 and width > 0 else None


def leaves(tree: Tree | None) -> Iterator[Leaf]:
    """Every rectangle that is left at the end, near ones first."""
    if isinstance(tree, Leaf):
        yield tree
    elif tree:
        yield from leaves(tree.near)
        yield from leaves(tree.far)


def pruned(tree: Tree, wanted: Callable[[Leaf], bool], kerf: int) -> Tree:
    """The tree without the cuts that free nothing wanted."""
    if not any(map(wanted, leaves(tree))):
        return Leaf(tree.box, sound=False)
    if isinstance(tree, Leaf):
        return tree
    near, far = (
        None if side is None else pruned(side, wanted, kerf)
        for side in (tree.near, tree.far)
    )
    axis = 0 if tree.direction is Direction.CROSSCUT else 1
    start, end = tree.box[axis], tree.box[axis] + tree.box[axis + 2]
    if _lost(near) and _goes_on(far, tree.direction) and _lost(far.near):
        blade_end = far.at + far.kerf
        at = max(blade_end - kerf, start)
        return replace(_cut(tree.box, tree.direction, at, blade_end), far=far.far)
    if _lost(far) and _goes_on(near, tree.direction) and _lost(near.far):
        blade_end = min(near.at + kerf, end)
        one = _cut(tree.box, tree.direction, near.at, blade_end)
        return replace(one, near=near.near)
    return replace(tree, near=near, far=far)


def _lost(side: Tree | None) -> bool:
    return side is None or (isinstance(side, Leaf) and not side.sound)


def _goes_on(side: Tree | None, direction: Direction) -> TypeGuard[Sawn]:
    """Whether the next cut runs beside this one."""
    return isinstance(side, Sawn) and side.direction is direction


@dataclass
class Parter:
    """Finds the cuts around defects that leave the most worth, with few cuts.

    A box is worth its area by its squared share of the board, so one large box is
    worth more than many small ones; nothing where it is not ``useful``, and then no
    part of it is. ``ways`` are the directions that cuts may take.
    """

    kerf: int
    defects: Sequence[Box]
    machine: Machine
    ways: Sequence[Direction]
    useful: Callable[[Box], bool]
    _known: dict[Box, Found] = field(default_factory=dict)
    _ceilings: dict[Box, int] = field(default_factory=dict)

    def best(self, box: Box, first: Direction | None = None) -> Found:
        """The best parting of a box; its first cut runs in direction ``first``."""
        inside, found = self._inside(box), (0, 0, Leaf(box, sound=False))
        if not self.useful(box):
            return found
        if not inside:
            return _worth(box), 0, Leaf(box, sound=True)
        cuts = [
            (self._most(cut), cut)
            for cut in self._cuts(box, inside)
            if first is None or cut.direction is first
        ]
        if len(inside) > FEW and cuts:
            cuts = [max(cuts, key=lambda one: one[0])]
        cuts.sort(key=lambda one: -one[0])
        best: Found = found
        for most, cut in cuts:
            if most < best[0]:
                break
            best = max(best, self._through(cut), key=lambda one: one[:2])
        return best

    def _most(self, cut: Sawn) -> int:
        """More than this both sides of a cut cannot be worth."""
        return sum(self._ceiling(side.box) for side in (cut.near, cut.far) if side)

    def _ceiling(self, box: Box) -> int:
        if box not in self._ceilings:
            area = largest = box[2] * box[3] if self.useful(box) else 0
            for defect in self._inside(box) if area else ():
                largest = min(largest, _beside(defect, box))
            # No part is larger than the largest, and all are no more than the box.
            self._ceilings[box] = area * largest * largest
        return self._ceilings[box]

    def _inside(self, box: Box) -> list[Box]:
        return [common for one in self.defects if (common := overlap(one, box))]

    def _once(self, box: Box) -> Found:
        if box not in self._known:
            self._known[box] = self.best(box)
        return self._known[box]

    def _through(self, cut: Sawn) -> Found:
        worth, cuts, sides = 0, -1, []
        for side in (cut.near, cut.far):
            found = self._once(side.box) if side else None
            if found:
                worth, cuts = worth + found[0], cuts + found[1]
            sides.append(found[2] if found else None)
        tree = Sawn(cut.box, cut.direction, cut.at, cut.kerf, *sides)
        # Cuts that free nothing of use are not made.
        return (worth, cuts, tree) if worth else (0, 0, Leaf(cut.box, sound=False))

    def _cuts(self, box: Box, inside: Sequence[Box]) -> list[Sawn]:
        """Each cut along an edge of a defect, the same ones once."""
        found: dict[tuple[Direction, int], Sawn] = {}
        for direction in self.ways:
            if not within_limits(direction, box, self.machine):
                continue
            axis = 0 if direction is Direction.CROSSCUT else 1
            start, end = box[axis], box[axis] + box[axis + 2]
            for one in inside:
                near, far = one[axis], one[axis] + one[axis + 2]
                if near > start:
                    cut = _cut(box, direction, near, min(near + self.kerf, end))
                    found.setdefault((direction, near), cut)
                if far < end:
                    at = max(far - self.kerf, start)
                    found.setdefault((direction, at), _cut(box, direction, at, far))
        return list(found.values())


def _worth(box: Box) -> int:
    return (box[2] * box[3]) ** 3


def _beside(defect: Box, box: Box) -> int:
    """The area of the largest rectangle in a box on one side of a defect."""
    x, y, length, width = box
    return max(
        (defect[0] - x) * width,
        (x + length - defect[0] - defect[2]) * width,
        length * (defect[1] - y),
        length * (y + width - defect[1] - defect[3]),
    )


def _cut(box: Box, direction: Direction, at: int, blade_end: int) -> Sawn:
    """The cut with its two sides, whose own parting is still to be found."""
    x, y, length, width = box
    if direction is Direction.CROSSCUT:
        near: Box = (x, y, at - x, width)
        far: Box = (blade_end, y, x + length - blade_end, width)
    else:
        near = (x, y, length, at - y)
        far = (x, blade_end, length, y + width - blade_end)
    sides = [
        Leaf(side, sound=False) if side[2] and side[3] else None for side in (near, far)
    ]
    return Sawn(box, direction, at, blade_end - at, *sides)
