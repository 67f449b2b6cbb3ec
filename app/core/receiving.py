"""Wood that comes onto the rack from outside: bought, counted in, found."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from app.core.errors import WorkshopError
from app.core.measure import cubic_metres, nominal_board_feet
from app.core.money import Money
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.core.volume import share

MOST_PIECES = 9999


class Per(StrEnum):
    """What a price is for."""

    PIECE = "piece"
    BOARD_FOOT = "board foot"
    CUBIC_METRE = "cubic metre"
    SQUARE_METRE = "square metre"
    ALL = "all of it"


@dataclass(frozen=True, slots=True)
class Price:
    """What was paid, minor units, with its working."""

    paid: int
    working: str


SQUARE_METRE_NM2 = 10**18


def tally(per: Per, piece: Piece, quantity: int) -> Fraction:
    """How much ``quantity`` pieces count in the unit that a price is for.

    A board foot is reckoned as a yard does: a thickness under 1 in counts as
    1 in (see ``core.measure.nominal_board_feet``). A square metre is of the face.
    All of it counts as one.
    """
    size = piece.size
    if per is Per.BOARD_FOOT:
        feet = nominal_board_feet(size.thickness, size.width, size.length)
        return feet * quantity
    if per is Per.CUBIC_METRE:
        return cubic_metres(piece.volume) * quantity
    if per is Per.SQUARE_METRE:
        return Fraction(size.length.nm * size.width.nm * quantity, SQUARE_METRE_NM2)
    return Fraction(1 if per is Per.ALL else quantity)


def amount(units: Fraction, per: Per) -> str:
    """So much of it for reading: ``14.25 board feet``, ``0.062 cubic metres``."""
    if per is Per.BOARD_FOOT:
        return f"{float(units):.2f} board {'foot' if units == 1 else 'feet'}"
    places = 3 if per is Per.CUBIC_METRE else 2
    return f"{float(units):.{places}f} {per}{'' if units == 1 else 's'}"


def price(each: Money, per: Per, piece: Piece, quantity: int) -> Price:
    """What ``quantity`` pieces cost; rounded once, to the minor unit."""
    if per is Per.ALL:
        return Price(each.minor, "")
    if per is Per.PIECE:
        return Price(each.minor * quantity, f"{quantity} at {each} each")
    units = tally(per, piece, quantity)
    return Price(round(each.minor * units), f"{amount(units, per)} at {each} a {per}")


def bought(made: Sequence[Made], paid: int, note: str = "") -> Movement:
    """A purchase: ``paid`` minor units for all of it, carried by volume."""
    return _received(MovementKind.BOUGHT, made, paid, note)


def opening_count(made: Sequence[Made], worth: int = 0, note: str = "") -> Movement:
    """What was in the shop before the record began, with what it is worth."""
    return _received(MovementKind.OPENING, made, worth, note)


def found(made: Sequence[Made], note: str = "") -> Movement:
    """Wood that was there unrecorded, or cost nothing."""
    return _received(MovementKind.FOUND, made, 0, note)


def rough(kind: PieceKind, species: str, size: Dimensions) -> Piece:
    """One piece as it comes in. Refuses a size that is nothing."""
    for name in ("length", "width", "thickness"):
        if getattr(size, name).nm <= 0:
            raise WorkshopError(
                f"The {name} is nothing. Type what the tape says, more than 0.",
                input=name,
            )
    if not species.strip():
        raise WorkshopError("Name the species, like walnut or maple.", input="species")
    return Piece(kind, species.strip(), size)


def _received(
    kind: MovementKind, made: Sequence[Made], paid: int, note: str
) -> Movement:
    for line in made:
        if not 1 <= line.quantity <= MOST_PIECES:
            raise WorkshopError(
                f"{line.quantity} pieces cannot come in. Type a count from 1 to "
                f"{MOST_PIECES}.",
                input="quantity",
            )
    costs = share(paid, [line.volume for line in made])
    carried = (replace(line, cost=cost) for line, cost in zip(made, costs, strict=True))
    return Movement(
        kind,
        made=tuple(carried),
        from_outside=sum(line.volume for line in made),
        paid=paid,
        note=note,
    )
