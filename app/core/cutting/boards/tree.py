"""How a block is parted: a tree of cuts, kept apart from the arrays it grew in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from app.core.cutting.boards.grow import SINGLE, Blocks
from app.core.cutting.boards.kinds import Kinds


@dataclass(frozen=True, slots=True)
class Node:
    """Parts side by side, parted by cuts in one direction: ``way`` of grow.py."""

    way: int
    parts: tuple[Tree, ...]


# A single blank is the number of the way it lies.
Tree = Node | int


@dataclass(frozen=True, eq=False, slots=True)
class Column:
    """One way to cut one board: how many of each kind come out of it."""

    board: int
    counts: Any
    tree: Tree

    @property
    def key(self) -> tuple[int, bytes]:
        """Equal columns have equal keys."""
        return self.board, self.counts.tobytes()


def grown(blocks: Blocks, number: int) -> Tree:
    """The tree of one block; cuts of one direction are one node."""
    way = int(blocks.way[number])
    if way == SINGLE:
        return int(blocks.far[number])
    parts: list[Tree] = []
    for half in (int(blocks.near[number]), int(blocks.far[number])):
        tree = grown(blocks, half)
        if isinstance(tree, Node) and tree.way == way:
            parts += tree.parts
        else:
            parts.append(tree)
    return Node(way, tuple(parts))


def lies_in(tree: Tree) -> Iterator[int]:
    """The ways its blanks lie."""
    if isinstance(tree, Node):
        for part in tree.parts:
            yield from lies_in(part)
    else:
        yield tree


def counted(kinds: Kinds, tree: Tree) -> Any:
    """How many of each kind it holds."""
    found = np.zeros(len(kinds.wanted), np.int64)
    for lie in lies_in(tree):
        found[kinds.lies[lie].kind] += 1
    return found


def without(kinds: Kinds, tree: Tree, surplus: Sequence[int]) -> Tree | None:
    """The tree without so many blanks of each kind; None where nothing is left.

    What stood beside a blank that goes takes its room.
    """
    left = list(surplus)

    def pruned(one: Tree) -> Tree | None:
        if not isinstance(one, Node):
            kind = kinds.lies[one].kind
            if left[kind]:
                left[kind] -= 1
                return None
            return one
        parts = [part for each in one.parts if (part := pruned(each)) is not None]
        return beside(one.way, parts)

    return pruned(tree)


def beside(way: int, parts: list[Tree]) -> Tree | None:
    """Parts side by side; parts that are cut the same way become one row."""
    if len(parts) < 2:
        return parts[0] if parts else None
    found: list[Tree] = []
    for part in parts:
        if isinstance(part, Node) and part.way == way:
            found += part.parts
        else:
            found.append(part)
    return Node(way, tuple(found))


def size(kinds: Kinds, tree: Tree, crosscut: int) -> tuple[int, int]:
    """Length and width of a block, nm with kerf; ``crosscut`` is that way's name."""
    if not isinstance(tree, Node):
        return kinds.lies[tree].length, kinds.lies[tree].width
    sizes = [size(kinds, part, crosscut) for part in tree.parts]
    lengths, widths = [one[0] for one in sizes], [one[1] for one in sizes]
    if tree.way == crosscut:
        return sum(lengths), max(widths)
    return max(lengths), sum(widths)


def period(kinds: Kinds, tree: Tree) -> int:
    """The earliest period among its blanks."""
    return min(kinds.periods[kinds.lies[lie].kind] for lie in lies_in(tree))
