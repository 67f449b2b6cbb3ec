"""The tapered vessel stood together: every piece where it belongs."""

from __future__ import annotations

import math
from itertools import accumulate

from app.core import solid
from app.core.forms._strip_panels import part_key
from app.core.forms._tapered import Tapered
from app.core.solid import XYZ, Cell, Piece


def assembly(vessel: Tapered) -> tuple[Piece, ...]:
    """Walls and base, a wall's flat towards the viewer, standing on z = 0."""
    lift = float(vessel.base_thickness.nm) if vessel.base == "under" else 0.0
    slabs: dict[tuple[str, ...], tuple[Cell, ...]] = {}
    pieces: list[Piece] = []
    for side in range(vessel.sides):
        column = vessel.pattern.column(side)
        if column not in slabs:
            slabs[column] = tuple(_wall(vessel, column))
        turn = solid.turn(360 * side / vessel.sides)
        key = part_key(vessel.panels, side)
        piece = Piece(key, slabs[column], f"Wall {side + 1}")
        pieces.append(piece.mapped(turn).moved(z=lift))
    if vessel.has_base:
        pieces.append(Piece("base", (_base(vessel),), "Base"))
    return tuple(pieces)


def _wall(vessel: Tapered, column: tuple[str, ...]) -> list[Cell]:
    """The wall in front, a cell a strip; x along it, the axis at the origin."""
    corners = [(float(up), float(deep)) for up, deep in vessel.section]
    lowest = min(up for up, _ in corners)
    edges = list(accumulate((w.nm for w in vessel.row_widths), initial=lowest))
    half = vessel.face_long.nm / 2 + 1e6
    found: list[Cell] = []
    for name, low, high in zip(column, edges, edges[1:], strict=False):
        # In the board: x along, y deep, z up the face.
        strip: Cell | None = solid.block(
            (-half, 0.0, low), (half, float(vessel.wall.nm), high), name
        )
        for normal, at in _ends(corners):
            strip = strip and strip.cut(normal, at)
        stood = strip and strip.mapped(lambda p: _stood(vessel, p))
        for normal in _mitres(vessel):
            stood = stood and stood.cut(normal, (0.0, 0.0, 0.0))
        if stood:
            found.append(stood)
    return found


def _ends(corners: list[tuple[float, float]]) -> list[tuple[XYZ, XYZ]]:
    """The planes of the wall's upper and lower edge in its board."""
    (out_low, _), (out_top, _), (_, wall), (in_low, _) = corners
    fall = in_low - out_low
    return [
        ((0.0, -fall, wall), (0.0, 0.0, out_top)),
        ((0.0, fall, -wall), (0.0, 0.0, out_low)),
    ]


def _stood(vessel: Tapered, at: XYZ) -> XYZ:
    """From the board to where the wall leans, its outer face towards -y."""
    x, deep, up = at
    out, high = vessel.place(up, deep)
    return (x, -out, high)


def _mitres(vessel: Tapered) -> list[XYZ]:
    """Both corner planes, through the axis: what lies beyond them falls away."""
    turn = math.pi / vessel.sides
    cos, sin = math.cos(turn), math.sin(turn)
    return [(cos, sin, 0.0), (-cos, sin, 0.0)]


def _base(vessel: Tapered) -> Cell:
    """A frustum between its lower and its upper face."""
    low = 0.0 if vessel.base == "under" else float(vessel.base_up.nm)
    high = low + vessel.base_thickness.nm
    rings = []
    for inscribed, z in zip(vessel.base_faces, (low, high), strict=True):
        turn = math.pi / vessel.sides
        radius = inscribed.nm / 2 / math.cos(turn)
        rings.append(
            [
                (radius * math.sin(a), -radius * math.cos(a), z)
                for a in (turn * (2 * i - 1) for i in range(vessel.sides))
            ]
        )
    below, above = rings
    count = vessel.sides
    faces = [
        (below[i], below[(i + 1) % count], above[(i + 1) % count], above[i])
        for i in range(count)
    ]
    return Cell((tuple(reversed(below)), tuple(above), *faces), vessel.base_species)
