"""What each glue-up and each planing takes away, to the last cubic nanometre."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.core.forms._board import Board
from app.core.length import Display
from app.core.size import Group, Kind, Size
from app.core.table import Table


@dataclass(frozen=True, slots=True)
class Stage:
    """One operation: what it takes off and what is left after it, nm³."""

    name: str
    takes: int
    left: int


def balance(board: Board, finished: int) -> tuple[Stage, ...]:
    """From the strips as ripped to ``finished``, what the parts hold, nm³."""
    found: list[Stage] = []
    for name, left in _left(board, finished):
        before = found[-1].left if found else left
        found.append(Stage(name, before - left, left))
    return tuple(found)


def _left(board: Board, finished: int) -> Iterator[tuple[str, int]]:
    """Each operation with the wood there is after it."""
    cut, panels, wide = board.cut, board.panels, board.glued_width.nm
    long = sum(panel.length.nm * panel.quantity for panel in panels)
    rows, first = len(board.strips), "first panel" if board.end else "panel"
    yield "Strips as ripped", long * rows * cut.strip_width.nm * cut.thickness.nm
    yield f"Edges jointed, {first} glued up", long * wide * cut.thickness.nm
    yield f"The {first} planed", long * wide * board.slice_width.nm
    thick = board.thickness.nm
    if board.end:
        yield from _sliced(board, long)
        whole = board.glued_length.nm * wide * thick
        yield "The board levelled on both faces", whole
    grooved = board.length.nm * board.width.nm * thick - board.volume
    yield "Trimmed at its ends and edges", finished + grooved
    if board.groove:
        yield "The juice groove cut", finished


def _sliced(board: Board, long: int) -> Iterator[tuple[str, int]]:
    face = board.glued_width.nm * board.slice_width.nm
    pieces = sum(panel.each * panel.quantity for panel in board.panels)
    sawn = sum((panel.each - 1) * panel.quantity for panel in board.panels)
    yield "Kerfs between the slices", (long - sawn * board.cut.kerf.nm) * face
    yield "Ends of the first panel cut off", pieces * board.slice_thickness.nm * face
    left = board.slices * board.slice_thickness.nm * face
    if pieces > board.slices:
        yield "Spare slices laid aside", left
    yield "Slices turned on end and glued again", left


def balance_table(board: Board, finished: int, display: Display) -> Table:
    """Every operation with what it takes and what is left."""
    stages = balance(board, finished)
    whole = stages[0].left
    rows = [
        (stage.name, _volume(stage.takes, display), _volume(stage.left, display), share)
        for stage in stages
        for share in (f"{stage.left * 1000 // whole / 10:g} %",)
    ]
    taken = sum(stage.takes for stage in stages)
    rows.append(("All together", _volume(taken, display), "", ""))
    return Table(
        key="takes_away",
        title="What each glue-up and each planing takes away",
        headings=("After", "Takes away", "Left", "Of the strips"),
        rows=tuple(rows),
        working="length × width × thickness before, less the same after; kerfs are "
        "kerf × width × thickness each",
        group=Group.TAKES,
    )


def _volume(nm3: int, display: Display) -> str:
    if not nm3:
        return "nothing"
    return Size("", "", Kind.VOLUME, nm3, "", unit="nm3").text(display)
