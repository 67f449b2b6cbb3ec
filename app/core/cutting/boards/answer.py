"""From layouts counted by kind to the job's own stock and blanks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import repeat

from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.lay import laid_out
from app.core.cutting.boards.tree import Column
from app.core.cutting.job import Job
from app.core.cutting.pattern import Pattern
from app.core.cutting.supply import Laid


def to_laid(job: Job, kinds: Kinds, columns: Sequence[Column]) -> list[Laid]:
    """Layouts given to the job's own stock and blanks, equal ones together."""
    blanks = [
        [number for number in these for _ in range(job.blanks[number].quantity)][::-1]
        for these in kinds.blanks
    ]
    stock = [_each(job, board.stock) for board in kinds.boards]
    patterns: dict[tuple[int, int], Pattern] = {}
    counted: Counter[tuple[int, int, tuple[int, ...]]] = Counter()
    trees = {_mark(column): column for column in columns}
    order = sorted(columns, key=lambda one: (one.board, _mark(one)))
    for column in order:
        number, mark = next(stock[column.board]), _mark(column)
        if (number, mark) not in patterns:
            made = laid_out(job, kinds, number, trees[mark].tree)
            assert made is not None
            patterns[number, mark] = made
        held = tuple(
            blanks[shape.blank].pop() for shape, _ in patterns[number, mark].pieces
        )
        counted[number, mark, held] += 1
    return [
        Laid(number, _named(patterns[number, mark], held), copies)
        for (number, mark, held), copies in counted.items()
    ]


def _mark(column: Column) -> int:
    """A number for equal trees; trees hold nothing but numbers."""
    return hash((column.board, column.tree))


def _named(pattern: Pattern, blanks: Sequence[int]) -> Pattern:
    """The pattern with the job's blanks in place of kinds."""
    pieces = [
        (replace(shape, blank=blank), box)
        for (shape, box), blank in zip(pattern.pieces, blanks, strict=True)
    ]
    return Pattern(pieces, list(pattern.waste), list(pattern.cuts))


def _each(job: Job, stock: Sequence[int]) -> Iterator[int]:
    """One after another, each as often as it is there."""
    for number in stock:
        quantity = job.stock[number].quantity
        if quantity is None:
            yield from repeat(number)
        else:
            yield from repeat(number, quantity)
