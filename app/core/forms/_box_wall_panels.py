"""The panels that the walls of a box are cut from, where they are laminated.

The walls of one panel are cut from it in their order round the box, so that the
grain runs round.
"""

from __future__ import annotations

from app.core.allowance import Over
from app.core.forms._box import Box
from app.core.length import Length
from app.core.pattern import LONGEST, Column, Cut, Panel, Way, letter


def wall_panels(box: Box, over: Over) -> tuple[Panel, ...]:
    """The panels of the walls, each for one lot of them, spares included."""
    found: list[Panel] = []
    for column, lot in wall_lots(box):
        first = not any(one.spares for one in found)
        spares = box.spares if first and _spared(box) in lot else 0
        found.append(
            Panel(
                letter=letter(len(found)),
                column=column,
                sides=lot,
                turned=(),
                quantity=1,
                each=len(lot) + spares,
                spares=spares,
                length=_long(box, lot, spares) + over.length,
            )
        )
    return tuple(found)


def wall_lots(box: Box) -> list[tuple[Column, tuple[int, ...]]]:
    """Walls with the same strips, as many as a board is long enough for."""
    found: list[tuple[Column, tuple[int, ...]]] = []
    for column, walls in _alike(box):
        lot: tuple[int, ...] = ()
        for number in walls:
            if lot and _long(box, (*lot, number), 0) > LONGEST:
                found.append((column, lot))
                lot = ()
            lot = (*lot, number)
        found.append((column, lot))
    return found


def _spared(box: Box) -> int:
    """The end that spares are made of."""
    return 3 if box.lid_groove else 1


def _alike(box: Box) -> list[tuple[Column, list[int]]]:
    found: dict[Column, list[int]] = {}
    for number, column in enumerate(box.pattern.columns):
        found.setdefault(column, []).append(number)
    return list(found.items())


def _long(box: Box, walls: tuple[int, ...], spares: int) -> Length:
    """So many walls and a kerf between each two, before trim."""
    lengths = [box.sawn_length(number) for number in walls]
    lengths += [box.sawn_length(1)] * spares
    return sum(lengths, box.kerf * (len(lengths) - 1))


def wall_cut(box: Box, over: Over) -> Cut:
    """What the shared arithmetic of panels knows of the walls."""
    return Cut(
        wall=box.sawn_length(0),
        strip_width=box.rows[0] + over.width,
        thickness=box.wall + over.thickness,
        kerf=box.kerf,
        over_length=over.length,
        spares=box.spares,
    )


def wall_way(box: Box, over: Over) -> Way:
    """All the walls' panels with the wood in their strips."""
    panels, cut = wall_panels(box, over), wall_cut(box, over)
    name = "A panel for walls that are alike"
    return Way("alike", name, panels, sum(one.wood(cut) for one in panels))
