"""What becomes of spares once a build is done: kept as offcuts, or scrap.

A spare is cut like the parts beside it and never becomes one of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.core.length import Length
from app.core.movement import Made, PanelStrip, Piece, PieceKind, Taken
from app.core.part import Dimensions, Part
from app.core.volume import share


@dataclass(frozen=True, slots=True)
class Spare:
    """Spares of one kind, and the blanks or panels they are cut from."""

    part: Part
    taken: tuple[Taken, ...]

    @property
    def volume(self) -> int:
        """Their wood as they are cut, cubic nanometres."""
        return self.part.volume * self.part.quantity


def kept(spares: Sequence[Spare]) -> tuple[Made, ...]:
    """Each as an offcut: as wide and thick as it is, as long as its wood fills.

    A rack knows only square-ended pieces, so bevelled or mitred ends are reckoned
    by half: no more wood lies there than there is.
    """
    return tuple(
        Made(_piece(one), one.part.quantity, name=one.part.name) for one in spares
    )


def _piece(spare: Spare) -> Piece:
    size, source = spare.part.finished, spare.taken[0].piece
    long = spare.part.volume // (size.width.nm * size.thickness.nm)
    widths = share(size.width.nm, [strip.width.nm for strip in source.strips] or [1])
    strips = tuple(
        PanelStrip(strip.species, Length(width))
        for strip, width in zip(source.strips, widths, strict=False)
    )
    done = Dimensions(Length(long), size.width, size.thickness)
    return Piece(PieceKind.OFFCUT, source.species, done, strips)
