"""A pattern read as a nest of rows, and other ways to nest the same pieces.

A row is slabs side by side, each a blank or a row across it. Waste has no place in
a nest: it is what is left of the box that a nest is sawn from.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from app.core.cutting.pattern import Box, Pattern, RawCut, Shape, other
from app.core.cutting.plan import Direction
from app.core.cutting.sawn import halves

CROSSCUT, RIP = Direction.CROSSCUT, Direction.RIP


@dataclass(frozen=True, slots=True)
class Row:
    """Slabs parted off one after another in one direction."""

    direction: Direction
    slabs: tuple[Nest, ...]


Nest = Shape | Row


def read(pattern: Pattern, box: Box) -> Nest | None:
    """The nest that a pattern saws from a box; None where nothing comes of it."""
    return _nest(box, _Read.of(pattern))


def other_ways(nest: Nest, longest: int, kerf: int) -> list[Nest]:
    """The same pieces nested otherwise, where rounds of cuts are free.

    Slabs of one width gathered, rows turned, and strips of one width ripped first,
    none longer than ``longest``.
    """
    gathered = _gathered(nest, kerf)
    found = [gathered, _turned(gathered), _strips(nest, longest, kerf)]
    return [one for one in found if one != nest]


@dataclass(frozen=True, slots=True)
class _Read:
    """A pattern by its boxes."""

    pieces: dict[Box, Shape]
    cuts: dict[Box, RawCut]

    @classmethod
    def of(cls, pattern: Pattern) -> _Read:
        pieces = {box: shape for shape, box in pattern.pieces}
        return cls(pieces, {cut.box: cut for cut in pattern.cuts})


def _nest(box: Box, read: _Read) -> Nest | None:
    """The rows in a box; None where it is waste. A row of one is no row."""
    if box in read.pieces:
        return read.pieces[box]
    cut = read.cuts.get(box)
    if cut is None:
        return None
    slabs: list[Nest] = []
    for half in halves(cut):
        found = _nest(half, read) if half[2] > 0 and half[3] > 0 else None
        if isinstance(found, Row) and found.direction is cut.direction:
            slabs.extend(found.slabs)
        elif found:
            slabs.append(found)
    return _row(cut.direction, slabs)


def _row(direction: Direction, slabs: list[Nest]) -> Nest | None:
    if len(slabs) < 2:
        return slabs[0] if slabs else None
    return Row(direction, tuple(slabs))


def needs(nest: Nest, kerf: int) -> tuple[int, int]:
    """The least length and width that a nest can be sawn from, nm."""
    if isinstance(nest, Shape):
        return nest.length, nest.width
    sizes = [needs(slab, kerf) for slab in nest.slabs]
    gaps = kerf * (len(sizes) - 1)
    lengths, widths = zip(*sizes, strict=True)
    if nest.direction is CROSSCUT:
        return sum(lengths) + gaps, max(widths)
    return max(lengths), sum(widths) + gaps


def _strips(nest: Nest, longest: int, kerf: int) -> Nest:
    """The blanks of one width in a strip, or in several, ripped before all else."""
    blanks = sorted(_all(nest), key=lambda one: (-one.width, -one.length, one.blank))
    strips: list[Nest] = []
    for _, these in groupby(blanks, key=lambda one: one.width):
        strip: list[Nest] = []
        left = longest + kerf
        for one in these:
            if one.length + kerf > left:
                strips.append(_in_a_row(CROSSCUT, strip))
                strip, left = [], longest + kerf
            strip.append(one)
            left -= one.length + kerf
        strips.append(_in_a_row(CROSSCUT, strip))
    return _in_a_row(RIP, strips)


def _all(nest: Nest) -> Iterator[Shape]:
    if isinstance(nest, Shape):
        yield nest
    else:
        for slab in nest.slabs:
            yield from _all(slab)


def _in_a_row(direction: Direction, slabs: list[Nest]) -> Nest:
    return slabs[0] if len(slabs) == 1 else Row(direction, tuple(slabs))


def _gathered(nest: Nest, kerf: int) -> Nest:
    """Slabs that leave the same strip beside them as one block with one strip."""
    if isinstance(nest, Shape):
        return nest
    axis = 1 if nest.direction is CROSSCUT else 0
    inner = [_gathered(slab, kerf) for slab in nest.slabs]
    inner.sort(key=lambda slab: -needs(slab, kerf)[axis])
    widest = needs(inner[0], kerf)[axis]
    slabs: list[Nest] = []
    for size, these in groupby(inner, key=lambda slab: needs(slab, kerf)[axis]):
        block = list(these)
        if size == widest or len(block) < 2:
            slabs.extend(block)
        else:
            slabs.append(Row(nest.direction, tuple(block)))
    return Row(nest.direction, tuple(slabs))


def _turned(nest: Nest) -> Nest:
    """Rows of blanks that are all alike, sawn the other way round first."""
    if isinstance(nest, Shape):
        return nest
    slabs = tuple(_turned(slab) for slab in nest.slabs)
    rows = [_blanks(slab, other(nest.direction)) for slab in slabs]
    alike = {tuple(one.along(other(nest.direction)) for one in row) for row in rows}
    if len(alike) > 1 or () in alike:
        return Row(nest.direction, slabs)
    columns = (Row(nest.direction, column) for column in zip(*rows, strict=True))
    return Row(other(nest.direction), tuple(columns))


def _blanks(nest: Nest, direction: Direction) -> tuple[Shape, ...]:
    """The blanks of a row in a direction, small first; none where it is another."""
    if isinstance(nest, Shape) or nest.direction is not direction:
        return ()
    blanks = [slab for slab in nest.slabs if isinstance(slab, Shape)]
    if len(blanks) < len(nest.slabs):
        return ()
    return tuple(sorted(blanks, key=lambda one: (one.along(direction), one.blank)))
