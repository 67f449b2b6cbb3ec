"""How much of a dealer's random-width boards to buy for certain blanks.

The blanks are laid out on several piles of boards as they come, one board after
the other, with the saw's kerf and trims, as at the saw: what that takes on average
and at worst is what to buy. No flat percentage is added.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import product

from app.core.cutting.fit import clear, trims, ways
from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.pattern import Filler, Pattern, Shape
from app.core.cutting.plan import Direction
from app.core.cutting.random_widths import Board, Must, RandomWidths, chosen, musts
from app.core.cutting.strategy import ORDERS, ordered
from app.core.length import Length
from app.core.receiving import Per

PILES = 8  # so many make the average; the worst of them is the bad day
ROUNDS = 3  # of cuts: as plans of episodes are made
MOST_BOARDS = 400  # no purchase is larger; and a pile must end
NOTHING = Keep(Length(0), Length(0))


@dataclass(frozen=True, slots=True)
class Amount:
    """How much to buy, in the unit the boards are sold by.

    ``average`` and ``most`` are over the piles; ``blanks`` is what of it ends up in
    the blanks, at the thickness that is charged. ``boards`` are the counts, on
    average and at most.
    """

    average: Fraction
    most: Fraction
    blanks: Fraction
    boards: tuple[int, int]
    musts: tuple[Must, ...]

    def waste(self, bought: Fraction) -> int:
        """What of an amount is no blank in the end but kerf, trim, scrap or left over.

        In whole percent.
        """
        return round(100 * (1 - self.blanks / bought)) if bought else 0


@lru_cache(maxsize=64)
def how_much(line: RandomWidths, blanks: tuple[Blank, ...], saw: Saw) -> Amount | None:
    """What these blanks take of the line; None where one finds no board at all."""
    needed = musts(line, blanks, saw)
    found = []
    for seed in range(PILES):
        boards = _taken(line, needed, seed, blanks, saw)
        if boards is None:
            return None
        found.append(boards)
    sums = [sum(line.amount(b.width, b.length) for b in boards) for boards in found]
    counts = [len(boards) for boards in found]
    wood = [
        line.amount(blank.width or Length(0), blank.length) * blank.quantity
        for blank in blanks
    ]
    return Amount(
        sold(Fraction(sum(sums), PILES), line.per),
        sold(Fraction(max(sums)), line.per),
        sum(wood, Fraction(0)),
        (-(-sum(counts) // PILES), max(counts)),
        needed,
    )


def sold(amount: Fraction, per: Per) -> Fraction:
    """Up to what a dealer writes on the bill: whole board feet.

    Cubic metres go to the thousandth, square metres to the hundredth. Common
    practice, no source.
    """
    parts = {Per.CUBIC_METRE: 1000, Per.SQUARE_METRE: 100}.get(per, 1)
    return Fraction(-(-amount * parts // 1), parts)


def _taken(
    line: RandomWidths,
    needed: tuple[Must, ...],
    seed: int,
    blanks: tuple[Blank, ...],
    saw: Saw,
) -> list[Board] | None:
    """The boards of one pile that it takes, one after the other."""
    left = [blank.quantity for blank in blanks]
    taken: list[Board] = []
    for board in chosen(line, needed, seed, MOST_BOARDS):
        if not any(left):
            return taken
        pattern = _filled(line, board, blanks, left, saw)
        for shape, _ in pattern.pieces:
            left[shape.blank] -= 1
        if pattern.pieces:
            taken.append(board)
    return taken if not any(left) else None


def _filled(
    line: RandomWidths,
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
