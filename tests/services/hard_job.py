"""An episode whose cuts are hard to plan: many parts, every board one of its kind."""

from __future__ import annotations

from random import Random

from app.core.length import Length, inches
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.store import movements
from app.store.schema import DesignRow, Episode, PartRow, Series
from app.store.workspace import Workspace
from tests.conftest import NOON

SLUG = "barn"
SELLS = "walnut, 1, 8, 96, 60\nwalnut, 1, 6, 72, 33"
KINDS, BOARDS = 60, 8
SIXTEENTH = inches("1/16").nm


def hard(workspace: Workspace) -> None:
    """A series of one part with its design, and the rack it is cut from."""
    random = Random(7)
    with workspace.write() as work:
        series = Series(slug=SLUG, title="Barn")
        series.episodes.append(Episode(number=1, slug="part-1", title="Part 1"))
        work.add(series)
        work.flush()
        design = DesignRow(
            episode_id=series.episodes[0].id, form="parts_list", inputs={}
        )
        design.parts.extend(_part(random, at) for at in range(KINDS))
        work.add(design)
        pieces = [_board(random) for _ in range(BOARDS)]
        bought = Movement(
            MovementKind.BOUGHT,
            made=tuple(Made(piece, 1, 1000) for piece in pieces),
            from_outside=sum(piece.volume for piece in pieces),
            paid=1000 * BOARDS,
        )
        movements.record(
            work, bought, on=NOON.date(), now=NOON, zone="UTC", currency="USD"
        )


def _board(random: Random) -> Piece:
    size = Dimensions(
        Length(random.randrange(480, 1500) * SIXTEENTH),
        Length(random.randrange(64, 150) * SIXTEENTH),
        inches("1"),
    )
    return Piece(PieceKind.BOARD, "walnut", size)


def _part(random: Random, at: int) -> PartRow:
    return PartRow(
        position=at,
        key=f"part-{at}",
        name=f"Part {at}",
        quantity=random.randrange(1, 9),
        species="walnut",
        grain="length",
        glue_up="",
        length_nm=1,
        width_nm=1,
        thickness_nm=1,
        blank_length_nm=random.randrange(100, 500) * SIXTEENTH,
        blank_width_nm=random.randrange(20, 60) * SIXTEENTH,
        blank_thickness_nm=inches("1").nm,
        volume=1,
    )
