"""What the saw takes and what falls off when panels are cut into parts."""

from __future__ import annotations

from collections.abc import Sequence

from app.core.length import Length
from app.core.movement import Taken
from app.core.part import Part


def kerf_and_scrap(
    panels: Sequence[Taken], parts: Sequence[Part], kerf: Length
) -> tuple[int, int]:
    """Volumes in nm³ of kerf and scrap where ``parts`` come out of ``panels``.

    Parts lie one behind the other along their panel, so one cut fewer than
    parts runs across each panel; what no blank covers falls off. What bevels
    and grooves take beyond that is chips, with the rest of the planing.
    Common practice, no source: mitres are reckoned as square cuts.
    """
    count = sum(line.quantity for line in panels)
    if not count:
        return 0, 0
    cuts = max(sum(part.quantity for part in parts) - count, 0)
    blanks = sum(_face(part) * part.quantity for part in parts)
    face = sum(_panel_face(line) * line.quantity for line in panels)
    volume = sum(line.volume for line in panels)
    across = min(line.piece.size.width.nm for line in panels)
    sawn = min(cuts * kerf.nm * across, face)
    left = max(face - blanks - sawn, 0)
    # Panels of one glue-up are equally thick but for the planer's last pass.
    return sawn * volume // face, left * volume // face


def _face(part: Part) -> int:
    return part.blank.length.nm * part.blank.width.nm


def _panel_face(line: Taken) -> int:
    return line.piece.size.length.nm * line.piece.size.width.nm
