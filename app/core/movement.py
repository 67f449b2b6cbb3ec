"""One record of stock changing, and the law it keeps.

Stock in + from outside = stock out + parts + kerf + chips + scrap + to outside,
to the last cubic nanometre, and no pile below zero. Money keeps the same kind
of law: what came in with the wood and what was paid is carried by what went out.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.core.errors import WorkshopError
from app.core.length import Length
from app.core.part import Dimensions


class PieceKind(StrEnum):
    """What kind of thing lies on the rack."""

    BOARD = "board"
    SHEET = "sheet"
    STRIP = "strip"
    PANEL = "panel"
    BLANK = "blank"
    OFFCUT = "offcut"


def offcut_of(stock: str) -> str:
    """What a leftover is called on the rack: it names what it was cut from."""
    return f"Offcut of {stock}"


class MovementKind(StrEnum):
    """What happened to the wood."""

    BOUGHT = "bought"
    OPENING = "opening count"
    FOUND = "found"
    CUT = "cut"
    SURFACED = "surfaced"
    GLUED = "glued up"
    BUILT = "built"
    DISCARDED = "discarded"
    RECOUNTED = "counted again"
    GIVEN_AWAY = "given away"
    LOST = "lost"
    REVERSED = "reversed"


@dataclass(frozen=True, slots=True)
class PanelStrip:
    """One strip in a panel, in the order it lies."""

    species: str
    width: Length


@dataclass(frozen=True, slots=True)
class Piece:
    """What one piece of stock is. ``strips`` only where it is a panel.

    A panel cut down keeps its strips' order; ``species`` of a mixed panel
    names them joined with ' + '.
    """

    kind: PieceKind
    species: str
    size: Dimensions
    strips: tuple[PanelStrip, ...] = ()

    @property
    def volume(self) -> int:
        """One piece, cubic nanometres."""
        return self.size.volume


@dataclass(frozen=True, slots=True)
class Taken:
    """Pieces that leave the rack, with the money they carry."""

    stock_id: int
    piece: Piece
    quantity: int
    cost: int = 0

    @property
    def volume(self) -> int:
        """All of them, cubic nanometres."""
        return self.piece.volume * self.quantity


@dataclass(frozen=True, slots=True)
class Made:
    """Pieces that come onto the rack, with the money they carry.

    ``part_key`` names the blank's part or strip of the episode's design.
    ``stock_id`` names the pile they join; None starts a pile of their own, with
    ``label`` if it is still free.
    """

    piece: Piece
    quantity: int
    cost: int = 0
    name: str = ""
    place: str = ""
    part_key: str = ""
    stock_id: int | None = None
    label: str = ""

    @property
    def volume(self) -> int:
        """All of them, cubic nanometres."""
        return self.piece.volume * self.quantity


@dataclass(frozen=True, slots=True)
class PartMade:
    """Finished parts: wood that has left the rack for a build.

    ``volume`` is all of them together, cubic nanometres.
    """

    key: str
    name: str
    quantity: int
    volume: int
    cost: int = 0


Line = Taken | Made | PartMade


class Unbalanced(WorkshopError):
    """A movement in which wood or money would appear or vanish."""


@dataclass(frozen=True, slots=True)
class Movement:
    """One balanced change. Volumes in cubic nanometres, money in minor units."""

    kind: MovementKind
    taken: tuple[Taken, ...] = ()
    made: tuple[Made, ...] = ()
    parts: tuple[PartMade, ...] = ()
    from_outside: int = 0
    to_outside: int = 0
    kerf: int = 0
    chips: int = 0
    scrap: int = 0
    paid: int = 0
    written_off: int = 0
    note: str = ""

    def __post_init__(self) -> None:
        piles = (self.from_outside, self.to_outside, self.kerf, self.chips, self.scrap)
        lines: tuple[Line, ...] = (*self.taken, *self.made, *self.parts)
        if min(*piles, *(line.volume for line in lines), 0) < 0:
            raise Unbalanced("More wood would come out than went in.")
        if any(line.quantity < 1 or line.cost < 0 for line in lines):
            raise Unbalanced(
                "A line of this movement moves nothing, or less than nothing."
            )
        if self.volume_in != self.volume_out:
            raise Unbalanced(
                f"{self.volume_in} nm³ go in and {self.volume_out} nm³ come out; "
                "every movement must balance."
            )
        if self.cost_in != self.cost_out:
            raise Unbalanced(
                f"{self.cost_in} goes in and {self.cost_out} comes out in money; "
                "every movement must balance."
            )

    @property
    def volume_in(self) -> int:
        """Stock in and from outside."""
        return sum(line.volume for line in self.taken) + self.from_outside

    @property
    def volume_out(self) -> int:
        """Stock out, parts, kerf, chips, scrap and to outside."""
        lines: tuple[Line, ...] = (*self.made, *self.parts)
        out = sum(line.volume for line in lines)
        return out + self.kerf + self.chips + self.scrap + self.to_outside

    @property
    def cost_in(self) -> int:
        """What the wood carried and what was paid."""
        return sum(line.cost for line in self.taken) + self.paid

    @property
    def cost_out(self) -> int:
        """What stock and parts carry on, and what was written off."""
        lines: tuple[Line, ...] = (*self.made, *self.parts)
        return sum(line.cost for line in lines) + self.written_off


def reversal(movement: Movement, note: str = "") -> Movement:
    """The movement that takes another back, pile for pile.

    Every ``made`` line must name its pile. What had become parts, kerf, chips or
    scrap, or had gone outside, comes back from outside; money likewise.
    """
    back = (_taken_back(line) for line in movement.made)
    return Movement(
        MovementKind.REVERSED,
        taken=tuple(back),
        made=tuple(_put_back(line) for line in movement.taken),
        from_outside=movement.volume_out - sum(line.volume for line in movement.made),
        to_outside=movement.from_outside,
        paid=movement.cost_out - sum(line.cost for line in movement.made),
        written_off=movement.paid,
        note=note,
    )


def _taken_back(line: Made) -> Taken:
    if line.stock_id is None:
        raise ValueError("only recorded movements can be reversed")
    return Taken(line.stock_id, line.piece, line.quantity, line.cost)


def _put_back(line: Taken) -> Made:
    return Made(line.piece, line.quantity, line.cost, stock_id=line.stock_id)
