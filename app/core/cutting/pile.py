"""A pile of random-width boards to plan on, before the real ones are bought."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from app.core.cutting.fit import suits
from app.core.cutting.job import Blank, Saw, Stock
from app.core.cutting.one_by_one import MOST_BOARDS, one_by_one
from app.core.cutting.random_widths import Board, RandomWidths, chosen, holds, musts
from app.core.length import Length

# A pile to choose from holds so much more than is needed; common practice, no source.
CHOICE = Fraction(8, 5)
DIFFERENT = 24  # boards in a pile; more are the same again


def representative(
    line: RandomWidths, blanks: Sequence[Blank], saw: Saw, plane: Length
) -> tuple[Stock, ...]:
    """Boards such as the dealer may have, to plan on: a pile to choose from.

    None where nothing wanted could come out of them.
    """
    suited = [
        one
        for one in blanks
        if suits(_any_of(line), one, plane) and holds(line, one, saw)
    ]
    if not suited:
        return ()
    pile = chosen(line, musts(line, suited, saw), 0, MOST_BOARDS)
    taken = one_by_one(pile, suited, saw)
    count = int(-(-len(taken) * CHOICE // 1))
    again = -(-count // DIFFERENT)
    boards = _with(taken, pile, min(count, DIFFERENT))
    return tuple(
        _stock(line, board, number, again) for number, board in enumerate(boards, 1)
    )


def _with(taken: Sequence[Board], pile: Sequence[Board], most: int) -> list[Board]:
    """The boards that were taken and the first others, in the order of the pile."""
    spare, still, found = max(0, most - len(taken)), list(taken), []
    for board in pile:
        if still and board == still[0]:
            found.append(still.pop(0))
        elif spare:
            spare -= 1
            found.append(board)
    return found[:most]


def _any_of(line: RandomWidths) -> Stock:
    """Any board of the line, for its species and thickness."""
    return Stock(
        line.id, line.lengths[1], line.widths[1], line.thickness, species=line.species
    )


def _stock(line: RandomWidths, board: Board, number: int, quantity: int) -> Stock:
    return replace(
        _any_of(line),
        id=f"{line.id}-{number}",
        length=board.length,
        width=board.width,
        quantity=quantity,
        cost=line.cost(board.width, board.length),
        name=f"{line.name}, board {number}",
    )
