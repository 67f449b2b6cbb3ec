"""Layouts made another way, as columns of a program."""

from __future__ import annotations

from app.core.cutting.boards.grow import CROSSCUT, RIP
from app.core.cutting.boards.kinds import Kinds
from app.core.cutting.boards.tree import Column, Node, Tree, counted
from app.core.cutting.job import Job
from app.core.cutting.pattern import Box, Pattern
from app.core.cutting.plan import Direction
from app.core.cutting.sawn import halves
from app.core.cutting.supply import Run


def columns_of(run: Run, job: Job, kinds: Kinds) -> list[Column]:
    """The layouts of a plan that are boards and blanks of these kinds."""
    board_of = {n: place for place, one in enumerate(kinds.boards) for n in one.stock}
    found = []
    for laid in run.laid:
        board = board_of.get(laid.stock)
        if board is not None:
            tree = _Reader(job, kinds, laid.pattern).tree()
            found += [Column(board, counted(kinds, tree), tree)] * laid.copies
    return found


class _Reader:
    """Reads a pattern's cuts back into a tree."""

    def __init__(self, job: Job, kinds: Kinds, pattern: Pattern) -> None:
        """Index what stands where."""
        kind_of = {n: kind for kind, these in enumerate(kinds.blanks) for n in these}
        lie_of = {
            (one.kind, one.turned): number for number, one in enumerate(kinds.lies)
        }
        self.pieces = {
            box: lie_of.get((kind_of[shape.blank], shape.turned), -1)
            for shape, box in pattern.pieces
        }
        self.after: dict[Box, list[int]] = {}
        self.cuts = pattern.cuts
        for number, cut in enumerate(pattern.cuts):
            self.after.setdefault(cut.box, []).append(number)
        self.whole = pattern.cuts[0].box if pattern.cuts else next(iter(self.pieces))

    def tree(self) -> Tree:
        """The whole board's tree."""
        found = self._of(self.whole)
        assert found is not None
        return found

    def _of(self, box: Box) -> Tree | None:
        if box in self.pieces:
            return self.pieces[box]
        if box not in self.after:
            return None
        cut = self.cuts[self.after[box][0]]
        way = CROSSCUT if cut.direction is Direction.CROSSCUT else RIP
        parts: list[Tree] = []
        for half in halves(cut):
            tree = self._of(half) if half[2] > 0 and half[3] > 0 else None
            if isinstance(tree, Node) and tree.way == way:
                parts += tree.parts
            elif tree is not None:
                parts.append(tree)
        if len(parts) < 2:
            return parts[0] if parts else None
        return Node(way, tuple(parts))
