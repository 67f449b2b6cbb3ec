"""A thick board sawn on edge into thinner ones, and their faces made flat."""

from __future__ import annotations

from dataclasses import replace

from app.core.errors import WorkshopError
from app.core.length import Length
from app.core.movement import Made, Movement, MovementKind, Taken
from app.core.volume import share


def resawn(taken: Taken, boards: int, flat: Length, kerf: Length) -> Movement:
    """Each piece taken becomes ``boards`` boards, ``flat`` thick, each a pile.

    Between them the saw takes ``kerf``; what else is gone are the chips of making
    both faces flat. Raises WorkshopError where the wood does not hold so many.
    """
    size = taken.piece.size
    dust = kerf.nm * (boards - 1)
    chips = size.thickness.nm - dust - flat.nm * boards
    if boards < 2 or flat.nm <= 0 or chips < 0:
        raise WorkshopError(
            f"A board {float(size.thickness.inches):g} in thick does not give {boards} "
            f"boards {float(flat.inches):g} in thick. Plan the cuts again."
        )
    face = size.length.nm * size.width.nm * taken.quantity
    piece = replace(taken.piece, size=replace(size, thickness=flat))
    return Movement(
        MovementKind.CUT,
        taken=(taken,),
        made=tuple(
            Made(piece, taken.quantity, cost)
            for cost in share(taken.cost, [1] * boards)
        ),
        kerf=dust * face,
        chips=chips * face,
    )
