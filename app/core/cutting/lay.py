"""From counted fillings to sticks with their pieces in a row, and back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import repeat

from app.core.cutting.fit import trims
from app.core.cutting.job import Job
from app.core.cutting.kinds import Kinds
from app.core.cutting.master import Column
from app.core.cutting.pattern import Pattern, Shape
from app.core.cutting.plan import Direction
from app.core.cutting.sequence import Rest
from app.core.cutting.supply import Laid, Run


def row(job: Job, stock: int, blanks: Sequence[int]) -> Pattern:
    """One stick sawn into blanks, in this order; they must fit it."""
    one, kerf = job.stock[stock], job.saw.kerf.nm
    made = Pattern()
    box, after = made.trim((0, 0, one.length.nm, 1), (kerf, *trims(one, job.saw)))
    for number in blanks:
        length = job.blanks[number].length.nm
        shape = Shape(number, length, 1, False)
        slab, rest, after = made.part_off(box, Direction.CROSSCUT, length, kerf, after)
        made.pieces.append((shape, slab))
        if rest is None:
            return made
        box = rest
    made.waste.append(box)
    return made


def to_laid(job: Job, found: Kinds, columns: Sequence[Column]) -> tuple[Laid, ...]:
    """Fillings given to the job's own stock and blanks, equal ones together."""
    blanks = [
        [number for number in these for _ in range(job.blanks[number].quantity)][::-1]
        for these in found.blanks
    ]
    stock = [_each(job, stick.stock) for stick in found.sticks]
    counted: Counter[tuple[int, tuple[int, ...]]] = Counter()
    order = sorted(columns, key=lambda one: one.key)
    for column in order:
        held = [
            blanks[kind].pop()
            for kind, n in sorted(column.filling.items())
            for _ in range(n)
        ]
        held.sort(key=lambda n: (-job.blanks[n].length.nm, n))
        counted[next(stock[column.stick]), tuple(held)] += 1
    return tuple(
        Laid(number, row(job, number, held), copies)
        for (number, held), copies in sorted(counted.items())
    )


def _each(job: Job, stock: Sequence[int]) -> Iterator[int]:
    """One after another, each as often as it is there."""
    for number in stock:
        quantity = job.stock[number].quantity
        if quantity is None:
            yield from repeat(number)
        else:
            yield from repeat(number, quantity)


def from_laid(run: Run, found: Kinds) -> Rest:
    """A plan that was made elsewhere, in counted fillings."""
    kind_of = {n: kind for kind, these in enumerate(found.blanks) for n in these}
    stick_of = {n: place for place, one in enumerate(found.sticks) for n in one.stock}
    rest = Rest.of(found)
    for laid in run.laid:
        filling = Counter(kind_of[shape.blank] for shape, _ in laid.pattern.pieces)
        rest.take(Column(stick_of[laid.stock], dict(filling)), laid.copies)
    return rest
