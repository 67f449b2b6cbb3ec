"""A design of strips and a base, and walnut for it, put straight into the store."""

from __future__ import annotations

from app.core.length import inches
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.store import movements
from app.store.schema import DesignRow, GlueUpRow, PartRow
from app.store.workspace import Workspace
from tests.conftest import NOON


def design(episode_id: int, strip: object) -> DesignRow:
    size = {"width_nm": inches("2").nm, "thickness_nm": inches("7/8").nm}
    long = {"length_nm": getattr(strip, "nm", 0)}
    strips = [{"species": "walnut", "quantity": 3} | size | long]
    made = DesignRow(episode_id=episode_id, form="straight_vessel", inputs={})
    made.glue_ups.append(
        GlueUpRow(
            position=0,
            key="wall",
            name="Wall",
            quantity=1,
            strips=strips,
            length_nm=1,
            width_nm=1,
            thickness_nm=1,
        )
    )
    for key, glue_up in (("base", ""), ("stave", "wall")):
        made.parts.append(
            PartRow(
                position=0,
                key=key,
                name=key.title(),
                quantity=1,
                species="walnut",
                grain="length",
                glue_up=glue_up,
                length_nm=1,
                width_nm=1,
                thickness_nm=1,
                blank_length_nm=inches("7").nm,
                blank_width_nm=inches("6").nm,
                blank_thickness_nm=inches("3/4").nm,
                volume=1,
            )
        )
    return made


def put(workspace: Workspace, *pieces: Piece, cost: int = 1000) -> None:
    with workspace.write() as work:
        for piece in pieces:
            movement = Movement(
                MovementKind.BOUGHT,
                made=(Made(piece, 1, cost),),
                from_outside=piece.volume,
                paid=cost,
            )
            movements.record(
                work, movement, on=NOON.date(), now=NOON, zone="UTC", currency="USD"
            )


def walnut(length: str, width: str, kind: PieceKind = PieceKind.BOARD) -> Piece:
    return Piece(kind, "walnut", Dimensions(inches(length), inches(width), inches("1")))
