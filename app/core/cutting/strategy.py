"""Ways to go about a job: what is laid out first, on what, sawn which way first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from app.core.cutting.job import Job
from app.core.cutting.pattern import ANY_NUMBER, Shape
from app.core.cutting.plan import Direction

Key = Callable[[Shape, Direction], tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Strategy:
    """One way through a job. Every choice is fixed, so a plan can be made again.

    ``big_first``: the largest piece on the rack before the smallest.
    """

    order: str
    first: Direction
    look: int
    big_first: bool


def _slab(shape: Shape, direction: Direction) -> tuple[int, ...]:
    along = shape.along(direction)
    return (along, shape.length * shape.width // max(along, 1))


def _filling(shape: Shape, direction: Direction) -> tuple[int, ...]:
    along = shape.along(direction)
    return (shape.length * shape.width // max(along, 1), along)


def _area(shape: Shape, direction: Direction) -> tuple[int, ...]:
    return (shape.length * shape.width, shape.length)


def _longest(shape: Shape, direction: Direction) -> tuple[int, ...]:
    return (max(shape.length, shape.width), min(shape.length, shape.width))


ORDERS: dict[str, Key] = {
    "largest slab": _slab,
    "fills the slab": _filling,
    "largest area": _area,
    "longest side": _longest,
}


def ordered(shapes: list[Shape], order: str) -> dict[Direction, list[Shape]]:
    """The shapes in order of preference, for slabs across and along the grain."""
    key = ORDERS[order]
    return {
        direction: sorted(shapes, key=lambda shape: key(shape, direction), reverse=True)
        for direction in Direction
    }


def strategies(job: Job) -> list[Strategy]:
    """Everything worth trying, the most promising first."""
    if job.one_dimensional:
        return [
            Strategy("largest slab", Direction.CROSSCUT, look, big)
            for look, big in product((0, 6, 30), (False, True))
        ]
    # Crosscuts first where it makes no difference: short boards are easier to rip.
    firsts = {
        "crosscut": [Direction.CROSSCUT],
        "rip": [Direction.RIP],
    }.get(job.first, [Direction.CROSSCUT, Direction.RIP])
    tries = product((0, 6), (False, True), ORDERS, firsts)
    return [Strategy(order, first, look, big) for look, big, order, first in tries]


def rounds(job: Job) -> int:
    """How many rounds of parallel cuts there may be, the trimming round apart."""
    if job.one_dimensional:
        return 1
    return job.stages or ANY_NUMBER
