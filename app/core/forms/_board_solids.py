"""The board's pieces as exact blocks: a cell a strip, the groove really missing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from app.core.forms._board import Board, Rectangle, area, common
from app.core.length import Length
from app.core.solid import Cell, Piece, block

Box = tuple[str, Rectangle, int, int]  # species, on the face, low, high; nm


@dataclass(frozen=True, slots=True)
class Like:
    """Slices that are alike: same panel, same width on the face, same wood.

    ``numbers`` run from 0; ``volumes`` is one slice's wood by species, nm³.
    """

    letter: str
    numbers: tuple[int, ...]
    width: Length
    volumes: tuple[tuple[str, int], ...]

    @property
    def volume(self) -> int:
        """One of them, nm³."""
        return sum(volume for _, volume in self.volumes)


def boxes(board: Board, slice: int) -> Iterator[Box]:
    """One slice's wood, strip by strip, below and beside the groove."""
    high = board.thickness.nm
    for name, cell in board.cells(slice):
        parts = [part for one in board.beside_groove() if (part := common(cell, one))]
        if board.groove is None or sum(map(area, parts)) == area(cell):
            yield name, cell, 0, high
            continue
        deep = board.groove.depth.nm
        low = deep if board.groove.faces == 2 else 0
        yield name, cell, low, high - deep
        for part in parts:
            yield name, part, high - deep, high
            if low:
                yield name, part, 0, low


def alike(board: Board) -> tuple[Like, ...]:
    """Slices by what they are, in the order first met."""
    found: list[Like] = []
    for panel in board.panels:
        groups: list[tuple[list[int], Length, Counter[str]]] = []
        for number in panel.sides:
            left, right = board.along[number : number + 2]
            wood = _wood(board, number)
            for numbers, width, other in groups:
                if _same(right - left, wood, width, other):
                    numbers.append(number)
                    break
            else:
                groups.append(([number], Length(right - left), wood))
        found += [
            Like(panel.letter, tuple(numbers), width, tuple(wood.items()))
            for numbers, width, wood in groups
        ]
    return tuple(found)


def _wood(board: Board, number: int) -> Counter[str]:
    wood: Counter[str] = Counter()
    for name, face, low, high in boxes(board, number):
        wood[name] += area(face) * (high - low)
    return wood


def _same(right: int, wood: Counter[str], width: Length, other: Counter[str]) -> bool:
    # Halving an odd trim leaves one end a nanometre wider than the other.
    room = 2 * max(*wood.values(), 1) // max(right, 1)
    return abs(right - width.nm) <= 2 and all(
        abs(wood[name] - other[name]) <= room for name in wood | other
    )


def assembly(board: Board) -> tuple[Piece, ...]:
    """The board lying flat, its middle over the origin, its front towards -y."""
    if not board.end:
        return (Piece("board", _cells(board, 0), "board"),)
    return tuple(
        Piece(key, _cells(board, number), f"slice {number + 1}")
        for key, like in keyed(board)
        for number in like.numbers
    )


def keyed(board: Board) -> tuple[tuple[str, Like], ...]:
    """Each kind of slice with the key of its part.

    ``slice`` where one panel serves, else ``slice_a`` …; those that the trim or the
    groove makes different have a number behind it.
    """
    seen: Counter[str] = Counter()
    found = []
    for like in alike(board):
        key = f"slice_{like.letter.lower()}" if len(board.panels) > 1 else "slice"
        seen[key] += 1
        found.append((key if seen[key] == 1 else f"{key}_{seen[key]}", like))
    return tuple(found)


def _cells(board: Board, number: int) -> tuple[Cell, ...]:
    x, y = board.length.nm / 2, board.width.nm / 2
    return tuple(
        block((face[0] - x, face[2] - y, low), (face[1] - x, face[3] - y, high), name)
        for name, face, low, high in boxes(board, number)
    )
