"""The tray's finished pieces where they stand, the long side towards the viewer."""

from __future__ import annotations

import math
from collections.abc import Iterable

from app.core.corner_splines import Corner
from app.core.forms._spline_work import spline_key
from app.core.forms._tray import Tray
from app.core.forms._tray_parts import panel_blank, rail_key
from app.core.length import Length
from app.core.solid import Cell, Piece, prism
from app.core.spline_solids import spline_pieces, without_slots


def assembly(tray: Tray) -> tuple[Piece, ...]:
    """The rails round the panel, and the splines in their corners."""
    found = [*_rails(tray)]
    if tray.has_panel:
        found.append(Piece("panel", _panel(tray), "panel"))
    if tray.splines:
        splines = tray.splines
        found += spline_pieces(
            splines, tray.corners, lambda row: spline_key(splines, row)
        )
    return tuple(found)


def _rails(tray: Tray) -> Iterable[Piece]:
    sides = tray.sides_round
    made: dict[int, tuple[Cell, ...]] = {}
    for i, side in enumerate(sides):
        # A rail stands back from the middle by half of what lies across from it.
        across = tray.short if not tray.four or i % 2 == 0 else tray.long
        if side.nm not in made:
            made[side.nm] = _rail(tray, side, across)
        piece = Piece(rail_key(tray, side), made[side.nm], f"rail {i + 1}")
        yield piece.turned(360 * i / tray.sides)


def _rail(tray: Tray, side: Length, across: Length) -> tuple[Cell, ...]:
    """One rail lying at the front, with its groove and the slots at its ends."""
    out, half, slant = across.nm / 2, side.nm / 2, tray.mitre_back.nm
    wide, high = tray.rail_width.nm, tray.rail_height.nm

    def level(deep: int, low: int, top: int) -> Cell:
        back = slant * deep / wide
        return prism(
            [
                (-half, -out),
                (half, -out),
                (half - back, deep - out),
                (back - half, deep - out),
            ],
            low,
            top,
            tray.species,
        )

    cells = [level(wide, 0, high)]
    if tray.has_panel:
        low = tray.groove_up.nm
        top = low + tray.panel_thickness.nm
        left = wide - tray.groove_depth.nm
        cells = [level(left, low, top), level(wide, top, high)]
        if low:
            cells.insert(0, level(wide, 0, low))
    if tray.splines is None:
        return tuple(cells)
    ends = tuple(_end(tray, x * half, -out, x) for x in (1, -1))
    return without_slots(cells, tray.splines, ends)


def _end(tray: Tray, x: float, y: float, right: int) -> Corner:
    """The outer corner at one end of a rail at the front."""
    turn = tray.gauge.radians
    return Corner(x, y, (-right * math.sin(turn), math.cos(turn)))


def _panel(tray: Tray) -> tuple[Cell, ...]:
    """The panel, a cell a strip, its grain from left to right."""
    points = tray.outline(tray.panel_across(tray.long), tray.panel_across(tray.short))
    # The drawing's y runs down the page, the bench's to the back.
    outline = [(x, -y) for x, y in reversed(points)]
    low = tray.groove_up.nm
    whole = prism(outline, low, low + tray.panel_thickness.nm, tray.panel_species)
    if tray.strips < 2:
        return (whole,)
    wide = panel_blank(tray).width.nm
    found: list[Cell] = []
    left: Cell | None = whole
    for i in range(1, tray.strips):
        at = wide * i / tray.strips - wide / 2
        if left is None:
            break
        below = left.cut((0, 1, 0), (0, at, 0))
        left = left.cut((0, -1, 0), (0, at, 0))
        found += [below] if below else []
    return tuple([*found, left] if left else found)
