"""Boards sawn up one after the other as they come, each as full as it gets.

So a person works through a pile of boards: nobody plans them all at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product

from app.core.cutting.fit import clear, trims, ways
from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.pattern import Filler, Pattern, Shape
from app.core.cutting.plan import Direction
from app.core.cutting.random_widths import Board
from app.core.cutting.strategy import ORDERS, ordered
from app.core.length import Length

ROUNDS = 3  # of cuts: as plans of episodes are made
MOST_BOARDS = 400  # no purchase is larger; and a pile must end
NOTHING = Keep(Length(0), Length(0))


def one_by_one(pile: Iterable[Board], blanks: Sequence[Blank], saw: Saw) -> list[Board]:
    """The boards of a pile that the blanks take, one after the other as they lie."""
    left = [blank.quantity for blank in blanks]
    taken: list[Board] = []
    for board in pile:
        if not any(left):
            break
        pattern = _filled(board, blanks, left, saw)
        for shape, _ in pattern.pieces:
            left[shape.blank] -= 1
        if pattern.pieces:
            taken.append(board)
    return taken


def _filled(
    board: Board,
    blanks: Sequence[Blank],
    left: Sequence[int],
    saw: Saw,
) -> Pattern:
    """One board with as much on it as any simple way of sawing gets there."""
    tries = (
        _way(board, blanks, left, saw, order, first)
        for order, first in product(ORDERS, Direction)
    )
    return max(tries, key=lambda one: one.area)


def _way(
    board: Board,
    blanks: Sequence[Blank],
    left: Sequence[int],
    saw: Saw,
    order: str,
    first: Direction,
) -> Pattern:
    shapes = [
        Shape(number, along, across, turned)
        for number, blank in enumerate(blanks)
        for along, across, turned in ways(blank)
    ]
    one = Stock("", board.length, board.width)
    filler = Filler(
        ordered(shapes, order), list(left), saw.kerf.nm, 0, lambda _: None, ROUNDS
    )
    whole = (0, 0, board.length.nm, board.width.nm)
    if min(clear(one, Job(saw, NOTHING, (), ()))) <= 0:
        return Pattern()
    box, after = filler.made.trim(whole, (saw.kerf.nm, *trims(one, saw)))
    filler.fill(box, first, ROUNDS, after)
    return filler.made
