"""Back from the sound rectangles of a board to the board they were sawn from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from app.core.cutting.fit import trims
from app.core.cutting.job import Job, Stock
from app.core.cutting.parting import Leaf, Sawn, Tree, leaves, overlap, pruned
from app.core.cutting.pattern import Box, Pattern, RawCut
from app.core.cutting.plan import Direction

T = TypeVar("T")


def is_sound(box: Box, stock: Stock) -> bool:
    """Whether no defect of the stock lies in this box of it."""
    return not any(overlap(box, one) for one in defects_of(stock))


def defects_of(stock: Stock) -> list[Box]:
    """The defects of a piece of stock as boxes."""
    flat = stock.width is None
    return [
        (one.x.nm, 0, one.length.nm, 1)
        if flat
        else (one.x.nm, one.y.nm, one.length.nm, one.width.nm)
        for one in stock.defects
    ]


def _face(stock: Stock) -> Box:
    return (0, 0, stock.length.nm, stock.width.nm if stock.width else 1)


def trimmed(stock: Stock, job: Job) -> tuple[Pattern, Box, int]:
    """The board with its trims off: how, what is left, the last cut's number."""
    made = Pattern()
    end, edge = trims(stock, job.saw)
    _, _, length, width = _face(stock)
    if 2 * end >= length or 2 * edge >= width:
        return made, (0, 0, 0, 0), -1
    box, after = made.trim(_face(stock), (job.saw.kerf.nm, end, edge))
    return made, box, after


def large_enough(box: Box, job: Job) -> bool:
    """Whether a leftover of this size is worth keeping."""
    long_enough = box[2] >= job.keep.length.nm
    return long_enough and (job.one_dimensional or box[3] >= job.keep.width.nm)


def together(
    rows: Sequence[Sequence[tuple[T, int]]],
) -> list[tuple[list[T | None], int]]:
    """Equal boards made of what lies on their regions, run by run."""
    rest = [list(row) for row in rows]
    found: list[tuple[list[T | None], int]] = []
    while any(rest):
        copies = min(row[0][1] for row in rest if row)
        found.append(([row[0][0] if row else None for row in rest], copies))
        for row in rest:
            if row:
                one, left = row.pop(0)
                if left > copies:
                    row.insert(0, (one, left - copies))
    return found


def whole_board(
    stock: Stock, tree: Tree, patterns: Sequence[Pattern | None], job: Job
) -> Pattern:
    """One pattern of a whole board from those on its regions."""
    made, _, after = trimmed(stock, job)
    sound = [leaf for leaf in leaves(tree) if leaf.sound]
    laid = {leaf.box: one for leaf, one in zip(sound, patterns, strict=True)}
    tree = pruned(tree, lambda leaf: _wanted(leaf, laid, job), job.saw.kerf.nm)
    _build(made, tree, after, laid)
    return made


def _build(
    made: Pattern, tree: Tree, after: int, laid: dict[Box, Pattern | None]
) -> None:
    """Add the cuts of a tree and what was laid out on its leaves."""
    if isinstance(tree, Sawn):
        made.cuts.append(_raw(tree, after))
        number = len(made.cuts) - 1
        for side in (tree.near, tree.far):
            if side:
                _build(made, side, number, laid)
    elif pattern := laid.get(tree.box):
        _shift(made, pattern, tree.box, after)
    else:
        made.waste.append(tree.box)


def _wanted(leaf: Leaf, laid: dict[Box, Pattern | None], job: Job) -> bool:
    """Whether a rectangle is worth the cuts that free it."""
    return leaf.sound and (
        laid.get(leaf.box) is not None or large_enough(leaf.box, job)
    )


def _raw(tree: Sawn, after: int) -> RawCut:
    start = tree.box[0] if tree.direction is Direction.CROSSCUT else tree.box[1]
    size = tree.at - start
    # A blade that hangs over the edge only trims.
    return RawCut(
        tree.direction,
        tree.at,
        tree.kerf,
        tree.box,
        size or tree.kerf,
        after,
        trim=not size,
    )


def _shift(made: Pattern, pattern: Pattern, box: Box, after: int) -> None:
    """Add a pattern of a region in the coordinates of its board."""
    x, y, _, _ = box
    base = len(made.cuts)

    def there(one: Box) -> Box:
        return (one[0] + x, one[1] + y, one[2], one[3])

    for cut in pattern.cuts:
        off = x if cut.direction is Direction.CROSSCUT else y
        made.cuts.append(
            replace(
                cut,
                at=cut.at + off,
                box=there(cut.box),
                after=after if cut.after < 0 else cut.after + base,
            )
        )
    made.pieces += [(shape, there(one)) for shape, one in pattern.pieces]
    made.waste += [there(one) for one in pattern.waste]
