"""The board's parts, and the panels they are cut from.

An edge-grain board is one part of one panel. An end-grain board is its slices: they
are what is cut from the first panel and glued again, as a vessel is its walls; the
second glue-up is a step.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from app.core import geometry
from app.core.forms._board import Board
from app.core.forms._board_solids import Like, alike, keyed
from app.core.forms._strip_panels import glue_ups as strip_glue_ups
from app.core.part import Dimensions, GlueUp, Grain, Part
from app.core.pattern import Panel

FIRST, ONLY = "first_panel", "board_panel"


def glue_ups(board: Board) -> tuple[GlueUp, ...]:
    """The first panels of an end-grain board, the panel of an edge-grain one."""
    key, name = (FIRST, "First panel") if board.end else (ONLY, "Board panel")
    made = strip_glue_ups(board.panels, board.cut, board.strips, key=key, name=name)
    return made if board.end else tuple(map(_on_edge, made))


def _on_edge(panel: GlueUp) -> GlueUp:
    """Strips ripped as wide as the board is thick, then turned on edge.

    What was the face of their board becomes the joint; that is edge grain.
    """
    strips = tuple(replace(one, blank=_turned(one.blank)) for one in panel.strips)
    return replace(panel, strips=strips)


def _turned(size: Dimensions) -> Dimensions:
    return Dimensions(size.length, size.thickness, size.width)


def parts(board: Board, spares: int) -> tuple[Part, ...]:
    """The board, or its slices; and what is cut to spare."""
    if board.end:
        return (*(_slice(board, *one) for one in keyed(board)), *_spare_slices(board))
    return (_board(board), *_spare_strips(board, spares))


def _board(board: Board) -> Part:
    finished = Dimensions(board.length, board.width, board.thickness)
    blank = Dimensions(board.glued_length, board.glued_width, board.cut.thickness)
    (like,) = alike(board)
    return Part(
        key="board",
        name="Board",
        quantity=1,
        species=", ".join(name for name, _ in like.volumes),
        finished=finished,
        blank=blank,
        glue_up=ONLY,
        outline=geometry.rectangle(board.length, board.width),
        solid=board.volume,
        woods=_shares(like.volumes),
    )


def _shares(amounts: Sequence[tuple[str, int]]) -> tuple[tuple[str, Fraction], ...]:
    whole = sum(amount for _, amount in amounts)
    if len(amounts) == 1:
        return ()
    return tuple((name, Fraction(amount, whole)) for name, amount in amounts)


def _slice(board: Board, key: str, like: Like) -> Part:
    finished = Dimensions(board.thickness, board.width, like.width)
    return Part(
        key=key,
        name=_name(board, key),
        quantity=len(like.numbers),
        species=", ".join(name for name, _ in like.volumes),
        finished=finished,
        blank=_blank(board),
        grain=Grain.LENGTH,
        glue_up=_from(board, like.letter),
        outline=_outline(finished),
        solid=like.volume,
        woods=_shares(like.volumes),
    )


def _name(board: Board, key: str) -> str:
    """``Slice A 2`` for ``slice_a_2``."""
    _, *rest = key.split("_")
    return " ".join(("Slice", *(word.upper() for word in rest)))


def _blank(board: Board) -> Dimensions:
    return Dimensions(board.slice_thickness, board.glued_width, board.slice_width)


def _from(board: Board, letter: str) -> str:
    return f"{FIRST}_{letter.lower()}" if len(board.panels) > 1 else FIRST


def _outline(size: Dimensions) -> geometry.Outline:
    """The larger face of a slice: its end grain, or a side of it."""
    return geometry.rectangle(size.width, max(size.thickness, size.length))


def _spare_slices(board: Board) -> tuple[Part, ...]:
    return tuple(_spare_slice(board, panel) for panel in board.panels if panel.spares)


def _spare_slice(board: Board, panel: Panel) -> Part:
    finished = Dimensions(board.thickness, board.width, board.slice_width)
    return Part(
        key="slice-spare",
        name="Spare slice",
        quantity=panel.spares,
        species=", ".join(dict.fromkeys(panel.column)),
        finished=finished,
        blank=_blank(board),
        glue_up=_from(board, panel.letter),
        outline=_outline(finished),
        spare=True,
    )


def _spare_strips(board: Board, spares: int) -> tuple[Part, ...]:
    if not spares:
        return ()
    widest = max(board.strips)
    finished = Dimensions(board.length, board.thickness, widest)
    blank = Dimensions(board.glued_length, board.cut.thickness, board.cut.strip_width)
    spare = Part(
        key="strip-spare",
        name="Spare strip",
        quantity=spares,
        species=board.pattern.column(0)[0],
        finished=finished,
        blank=blank,
        outline=geometry.rectangle(finished.length, max(finished.width, widest)),
        spare=True,
    )
    return (spare,)


def moving_wood(board: Board) -> str:
    """The species that covers most of the face."""
    faces: dict[str, int] = {}
    for number in range(board.slices):
        for name, (left, right, front, back) in board.cells(number):
            more = (right - left) * (back - front)
            faces[name] = faces.get(name, 0) + more
    return max(faces, key=lambda name: faces[name])


def volume_of(parts: Sequence[Part]) -> int:
    """All that becomes part of the build, nm³."""
    return sum(part.volume * part.quantity for part in parts if not part.spare)
