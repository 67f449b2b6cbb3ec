"""Which edge goes to the fence and which end to the stop, in words.

Left, right, upper and lower are those of the cutting diagram. An edge is straight
that the saw has made, or that came sawn; another is to be jointed first.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.core.cutting.job import Stock
from app.core.cutting.plan import Direction
from app.core.cutting.sawn import NARROW, SHORT, THIN, Sawn, extent, halves

# What neither the saw nor an earlier job made straight is made so before all cuts.
RAW, RAW_END = ", jointed first", ", squared first"
SIDES = {
    Direction.RIP: ("upper edge", "lower edge"),
    Direction.CROSSCUT: ("left end", "right end"),
}


def against(stock: Stock, tree: Sequence[Sawn], numbers: Sequence[int], at: int) -> str:
    """What to put where for the cut ``at`` of a tree whose cuts are so numbered."""
    one = tree[at]
    across = one.raw.direction is Direction.CROSSCUT
    if one.raw.trim and across:
        return _to_the_gauge(stock, tree, numbers, at)
    told = _origin(stock, tree, numbers, at, one.raw.direction, far=one.far)
    if one.raw.trim and told.endswith(RAW):
        return "no edge is straight yet: joint it, or guide it along a batten"
    return told + _held(one)


def _to_the_gauge(
    stock: Stock, tree: Sequence[Sawn], numbers: Sequence[int], at: int
) -> str:
    """An end is trimmed by eye; what matters is the edge that squares it."""
    if stock.width is None:
        return ""
    both = [
        _origin(stock, tree, numbers, at, Direction.RIP, far=far)
        for far in (False, True)
    ]
    return next((told for told in both if not told.endswith(RAW)), both[0])


def _origin(
    stock: Stock,
    tree: Sequence[Sawn],
    numbers: Sequence[int],
    at: int,
    direction: Direction,
    *,
    far: bool,
) -> str:
    """A side of the piece that a cut goes through, and what made it straight."""
    name = SIDES[direction][far]
    box = tree[at].raw.box
    start = box[0] if direction is Direction.CROSSCUT else box[1]
    edge = start + extent(direction, box) if far else start
    parent = tree[at].after
    while parent >= 0:
        raw = tree[parent].raw
        made = raw.at if far else raw.at + raw.kerf
        if raw.direction is direction and made == edge:
            how = "trimmed" if raw.trim else "sawn"
            return f"{name}, {how} in cut {numbers[parent]}"
        parent = tree[parent].after
    if stock.trimmed:
        return f"{name}, sawn before"
    return name + RAW_END if direction is Direction.CROSSCUT else name + RAW


def _held(one: Sawn) -> str:
    """How a piece is held that is small between fence or stop and blade."""
    if one.raw.trim:
        return ""
    if one.raw.direction is Direction.CROSSCUT:
        return ", to a block that stands clear of the blade" * (one.setting < SHORT)
    near, _ = halves(one.raw)
    if one.far and near[3] < THIN:
        return "; the thin strip falls free"
    return ", with a push block" * (one.setting < NARROW)
