"""Values of pieces at which no board brings in more than one.

A scale makes lengths longer or shorter so that what fits side by side still does.
Where lengths go by one and widths by another, the products of what lies on one
board add up to no more than one, however it is sawn. Two large pieces that never
share a board then count as one board each, which their areas do not say.
Source: Fekete & Schepers (2001), Mathematical Programming 91, 11-31, from memory;
the laws of each scale are held by a test.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import product
from typing import Any

import numpy as np

from app.core.cutting.boards.kinds import Kinds

# A size and the whole, to the part of the whole that it counts for.
Scale = Callable[[int, int], float]
# How many limits of each sort are tried a direction, and rows that are kept.
LIMITS, ROWS = 12, 6
WHOLE_PARTS = (1, 2, 3, 4, 5)


def plain(size: int, whole: int) -> float:
    """As it is."""
    return size / whole


def in_parts(parts: int) -> Scale:
    """Down to whole parts, of which the whole then has one less."""

    def scale(size: int, whole: int) -> float:
        parted = (parts + 1) * size
        if parted % whole == 0:
            return size / whole
        return (parted // whole) / parts

    return scale


def all_or_none(limit: int) -> Scale:
    """What leaves less than the limit counts as the whole, less than it as nothing."""

    def scale(size: int, whole: int) -> float:
        if size > whole - limit:
            return 1.0
        return size / whole if size >= limit else 0.0

    return scale


def by_number(limit: int) -> Scale:
    """Short ones all count alike, long ones for what they leave of those."""

    def scale(size: int, whole: int) -> float:
        if size < limit:
            return 0.0
        number = whole // limit
        if 2 * size <= whole:
            return 1 / number
        return 1 - ((whole - size) // limit) / number

    return scale


def scales(sizes: Sequence[int], whole: int) -> list[Scale]:
    """The scales worth trying for sizes in a whole."""
    half = max(1, whole // 2)  # a board of one nanometre has no half
    limits = sorted({one for one in sizes if 2 * one <= whole} | {half})
    if len(limits) > LIMITS:
        places = np.linspace(0, len(limits) - 1, LIMITS).astype(int)
        limits = [limits[place] for place in places]
    found = [plain, *map(in_parts, WHOLE_PARTS)]
    return found + [make(one) for make in (all_or_none, by_number) for one in limits]


def rows(kinds: Kinds) -> list[Any]:
    """The sets of values that ask for most, of which any board brings in one."""
    long = max(board.length for board in kinds.boards)
    wide = max(board.width for board in kinds.boards)
    lengths = [lie.length for lie in kinds.lies]
    widths = [lie.width for lie in kinds.lies]
    along = _scaled(lengths, long)
    across = _scaled(widths, wide)
    wanted = np.array(kinds.wanted, float)
    found = []
    for one, other in product(along, across):
        values = _by_kind(kinds, one * other)
        found.append((float(values @ wanted), values))
    found.sort(key=lambda row: -row[0])
    return [values for _, values in found[:ROWS]]


def _scaled(sizes: Sequence[int], whole: int) -> list[Any]:
    inside = [min(size, whole) for size in sizes]
    return [
        np.array([scale(size, whole) for size in inside])
        for scale in scales(sizes, whole)
    ]


def _by_kind(kinds: Kinds, of_lies: Any) -> Any:
    """A kind that may lie two ways counts for the lesser of them."""
    values = np.full(len(kinds.wanted), np.inf)
    np.minimum.at(values, [lie.kind for lie in kinds.lies], of_lies)
    return values
