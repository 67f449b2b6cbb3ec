"""Wood that leaves the rack without becoming anything, and counting again."""

from __future__ import annotations

from app.core.errors import WorkshopError
from app.core.movement import Made, Movement, MovementKind, Taken

MOST_COUNTED = 9999


def discarded(taken: Taken, reason: str) -> Movement:
    """Thrown out: all of it is scrap, and its cost is written off."""
    if not reason.strip():
        raise WorkshopError(
            "Say why it is thrown out, like “checked at both ends”: the record keeps "
            "it.",
            input="reason",
        )
    return Movement(
        MovementKind.DISCARDED,
        taken=(taken,),
        scrap=taken.volume,
        written_off=taken.cost,
        note=reason.strip(),
    )


def given_away(taken: Taken, note: str = "") -> Movement:
    """Given to somebody, outside."""
    return _gone(MovementKind.GIVEN_AWAY, taken, note)


def lost(taken: Taken, note: str = "") -> Movement:
    """Not to be found any more."""
    return _gone(MovementKind.LOST, taken, note)


def recounted(pile: Taken | Made, counted: int, note: str = "") -> Movement:
    """A pile counted again, when the count differs from the record.

    ``pile`` is the difference: Taken where there is less than recorded, Made
    (joining its pile, at no cost) where there is more.
    """
    if not 0 <= counted <= MOST_COUNTED:
        raise WorkshopError(
            f"A pile of {counted} cannot be. Type a count from 0 to {MOST_COUNTED}.",
            input="counted",
        )
    if isinstance(pile, Taken):
        return _gone(MovementKind.RECOUNTED, pile, note)
    return Movement(
        MovementKind.RECOUNTED,
        made=(pile,),
        from_outside=pile.volume,
        paid=pile.cost,
        note=note,
    )


def _gone(kind: MovementKind, taken: Taken, note: str) -> Movement:
    return Movement(
        kind,
        taken=(taken,),
        to_outside=taken.volume,
        written_off=taken.cost,
        note=note,
    )
