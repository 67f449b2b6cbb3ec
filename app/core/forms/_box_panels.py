"""What is glued up from strips for a box: walls, base and lid."""

from __future__ import annotations

from itertools import groupby

from app.core.allowance import Allowances
from app.core.forms._box import Box
from app.core.forms._box_parts import BASE_PANEL, LID_PANEL
from app.core.forms._box_wall_panels import wall_cut, wall_panels
from app.core.forms._strip_panels import glue_ups as wall_glue_ups
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.volume import share


def panels(box: Box, over: Allowances, parts: tuple[Part, ...]) -> tuple[GlueUp, ...]:
    """Everything that is glued up from strips before it is cut."""
    own = over.of("wall_panel")
    found = list(wall_glue_ups(wall_panels(box, own), wall_cut(box, own), box.rows))
    known = {part.key: part for part in parts}
    if box.base_strips > 1:
        found.append(
            _board_panel(BASE_PANEL, "Base panel", known["base"], box.base_strips, over)
        )
    if box.lid and box.lid.strips > 1:
        found.append(
            _board_panel(LID_PANEL, "Lid panel", known["lid"], box.lid.strips, over)
        )
    return tuple(found)


def _board_panel(
    key: str, name: str, part: Part, count: int, over: Allowances
) -> GlueUp:
    """Strips of one wood side by side, as large as the blank."""
    blank, own = part.blank, over.of(key)
    widths = share(blank.width.nm, [1] * count)
    rough = Dimensions(
        blank.length + own.length, Length(max(widths)) + own.width, blank.thickness
    )
    strips = tuple(
        Strip(part.species, len(list(same)), rough, Length(width))
        for width, same in groupby(widths)
    )
    panel = Dimensions(rough.length, blank.width, blank.thickness)
    return GlueUp(key, name, 1, strips, panel)
