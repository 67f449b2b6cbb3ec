"""Blocks of blanks, grown by putting two side by side, many pairs at once.

A block is a rectangle that straight cuts part into its blanks. Of all blocks of
about one size those are kept that lose the least: the worth of their area at a
fair rate, less the worth of the blanks in them.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from app.core.cutting.boards.kinds import Board, Kinds, Limits
from app.core.cutting.boards.packed import Packed
from app.core.cutting.effort import Work

# How much of a board's worth a block may lose, and how blocks are sorted by size.
LOSS, SIZES, RATIO = 0.15, 8, 1.45
# Of the pairs that fit, so many times the blocks kept are looked at closely.
CLOSER = 6
HALF = 0.5
PAIRS_A_LOOK = 6
SINGLE, CROSSCUT, RIP = 0, 1, 2
MIX = (1_000_003, 998_244_353, 6_364_136_223, 2_654_435_761, 40_503)


@dataclass(slots=True)
class Blocks:
    """Blocks, a row each; sizes in nm with kerf.

    ``held`` are packed counts, ``loss`` what ranks them, ``way`` the direction of
    the cuts that part them (SINGLE: one blank), ``rounds`` how many rounds of cuts
    that takes, ``first`` the earliest period among their blanks; ``near`` and
    ``far`` the two blocks they are made of, or -1 and the lie of a single blank.
    """

    length: Any
    width: Any
    value: Any
    held: Any
    loss: Any
    way: Any
    rounds: Any
    first: Any
    near: Any
    far: Any
    number: Any

    def __len__(self) -> int:
        """How many there are."""
        return len(self.length)

    def take(self, chosen: Any) -> Blocks:
        """Some of them."""
        return Blocks(*(getattr(self, one.name)[chosen] for one in fields(self)))

    def with_(self, other: Blocks) -> Blocks:
        """These and others."""
        return joined([self, other])


def joined(several: list[Blocks]) -> Blocks:
    """All blocks one after another."""
    return Blocks(
        *(
            np.concatenate([getattr(one, item.name) for one in several])
            for item in fields(Blocks)
        )
    )


@dataclass
class Grower:
    """Grows blocks for one board out of what is ``wanted``, at certain ``values``.

    ``high``: area counts at half the best rate any piece pays, if that is more than
    its fair one; small blocks that are full then come before large ones.
    """

    kinds: Kinds
    board: Board
    wanted: Any
    values: Any
    price: float
    meter: Work
    keep: int = 300
    rounds: int = 8
    dice: Any = None
    high: bool = False

    def grow(self) -> tuple[Blocks, Packed] | None:
        """All blocks found, single blanks first; None where nothing fits."""
        self.packed = Packed([min(int(n), 255) for n in self.wanted])
        new = pool = self._singles()
        if not len(new):
            return None
        everything = [new]
        self._seen = np.zeros(0, np.int64)
        total = len(new)
        for _ in range(self.rounds):
            found = self._pairs(new, pool)
            if found is None:
                break
            found.number = total + np.arange(len(found))
            total += len(found)
            everything.append(found)
            new, pool = found, pool.with_(found)
            if len(pool) > 2 * self.keep:
                pool = pool.take(self._best(pool, pool.loss, 2 * self.keep))
        return joined(everything), self.packed

    def _singles(self) -> Blocks:
        board, kinds = self.board, self.kinds
        lies = [
            (n, lie)
            for n, lie in enumerate(kinds.lies)
            if lie.kind in board.suited
            and self.wanted[lie.kind] > 0
            and lie.length <= board.length
            and lie.width <= board.width
        ]
        count = len(lies)
        length = np.array([lie.length for _, lie in lies], np.int64)
        width = np.array([lie.width for _, lie in lies], np.int64)
        value = np.array([float(self.values[lie.kind]) for _, lie in lies])
        area = length.astype(float) * width
        self._rate = self._fair_rate()
        self._most = LOSS * self._rate * board.area
        words = self.packed.words
        held = [self.packed.one(lie.kind) for _, lie in lies]
        return Blocks(
            length,
            width,
            value,
            np.array(held, np.int64).reshape(count, words),
            self._rate * area - value,
            np.zeros(count, np.int8),
            np.zeros(count, np.int8),
            np.array([kinds.periods[lie.kind] for _, lie in lies], np.int8),
            np.full(count, -1),
            np.array([n for n, _ in lies], np.int64),
            np.arange(count),
        )

    def _fair_rate(self) -> float:
        """What an area has to bring in: the board's price, or what pieces bring."""
        areas = self.kinds.areas * self.wanted
        usual = float(np.dot(self.values, self.wanted)) / max(float(areas.sum()), 1.0)
        best = float((self.values / self.kinds.areas)[self.wanted > 0].max())
        high = best * HALF if self.high else 0.0
        return max(self.price / self.board.area, usual, high, 1e-30)

    def _pairs(self, new: Blocks, pool: Blocks) -> Blocks | None:
        """The best blocks that a new one makes with any other."""
        found = [
            made
            for way in (CROSSCUT, RIP)
            if (made := self._side_by_side(new, pool, way)) is not None
        ]
        if not found:
            return None
        every = joined(found)
        marks = self._marks(every)
        _, once = np.unique(marks, return_index=True)
        once = once[~np.isin(marks[once], self._seen)]
        if not len(once):
            return None
        every, marks = every.take(once), marks[once]
        rank = every.loss
        if self.dice is not None:
            rank = rank * self.dice.uniform(0.8, 1.2, len(rank))
        chosen = self._best(every, rank, self.keep)
        self._seen = np.concatenate([self._seen, marks[chosen]])
        return every.take(chosen)

    def _side_by_side(self, new: Blocks, pool: Blocks, way: int) -> Blocks | None:
        a, b, length, width, loss = self._fitting(new, pool, way)
        if not len(a):
            return None
        if len(a) > CLOSER * self.keep:
            best = self._ranked(length * width, loss, CLOSER * self.keep)
            a, b, length, width, loss = (
                one[best] for one in (a, b, length, width, loss)
            )
        held = new.held[a] + pool.held[b]
        rounds = np.maximum(
            _rounds(new.way[a], new.rounds[a], way),
            _rounds(pool.way[b], pool.rounds[b], way),
        )
        length, width = length.astype(np.int64), width.astype(np.int64)
        good = self.packed.within(held)
        limits = self.kinds.limits
        if limits.stages is not None:
            good &= rounds <= limits.stages
        sizes = (length, width)
        for near, far, at, other in ((new, pool, a, b), (pool, new, b, a)):
            good &= _sawable(limits, near, at, sizes, way)
            good &= _kept_until(limits, near, at, far.first[other], sizes, way)
        return Blocks(
            length,
            width,
            new.value[a] + pool.value[b],
            held,
            loss,
            np.full(len(a), way, np.int8),
            rounds,
            np.minimum(new.first[a], pool.first[b]),
            new.number[a],
            pool.number[b],
            np.zeros(len(a), np.int64),
        ).take(good)

    def _fitting(
        self, new: Blocks, pool: Blocks, way: int
    ) -> tuple[Any, Any, Any, Any, Any]:
        """Pairs that fit the board and lose little: numbers, sizes, loss."""
        self.meter.tick(len(new) * len(pool) // PAIRS_A_LOOK)
        add, larger = np.add.outer, np.maximum.outer
        along, across = (add, larger) if way == CROSSCUT else (larger, add)
        length = along(new.length.astype(float), pool.length.astype(float))
        width = across(new.width.astype(float), pool.width.astype(float))
        loss = self._rate * length * width - add(new.value, pool.value)
        board = self.board
        fits = (length <= board.length) & (width <= board.width) & (loss <= self._most)
        a, b = np.nonzero(fits)
        return a, b, length[a, b], width[a, b], loss[a, b]

    def _best(self, blocks: Blocks, rank: Any, count: int) -> Any:
        area = blocks.length.astype(float) * blocks.width
        return self._ranked(area, rank, count)

    def _ranked(self, area: Any, rank: Any, count: int) -> Any:
        """The places of the best of each size, ``count`` in all."""
        share = np.maximum(area, 1.0) / self.board.area * 1.0001
        size = SIZES - 1 + np.floor(np.log(share) / np.log(RATIO)).astype(int)
        size = np.clip(size, 0, SIZES - 1)
        order = np.lexsort((rank, size))
        sizes = size[order]
        start = np.searchsorted(sizes, np.arange(SIZES))
        place = np.arange(len(order)) - start[sizes]
        return order[place < max(1, count // SIZES)]

    def _marks(self, blocks: Blocks) -> Any:
        """A number for each block; equal ones have equal numbers."""
        found = blocks.length * MIX[0] + blocks.width * MIX[1]
        found = found + blocks.rounds.astype(np.int64) * MIX[2] + blocks.way
        for word in range(blocks.held.shape[1]):
            found = found * MIX[3] + blocks.held[:, word] * MIX[4]
        return found


def _rounds(way: Any, rounds: Any, cut: int) -> Any:
    """Rounds of a part inside a block that cuts in one direction part."""
    inside = np.where(way == SINGLE, 1, np.where(way == cut, rounds, rounds + 1))
    return inside.astype(np.int8)


def _sawable(
    limits: Limits, part: Blocks, at: Any, sizes: tuple[Any, Any], way: int
) -> Any:
    """Whether the saw can part them, and trim the smaller one."""
    length, width = (size - limits.kerf for size in sizes)
    own_length = part.length[at] - limits.kerf
    own_width = part.width[at] - limits.kerf
    good = np.ones(len(at), bool)
    crosscut = width if way == CROSSCUT else own_width
    rip = length if way == RIP else own_length
    trimmed = own_width < width if way == CROSSCUT else own_length < length
    if limits.longest_crosscut is not None:
        cut = (way == CROSSCUT) | trimmed
        good &= ~cut | (crosscut <= limits.longest_crosscut)
    if limits.longest_rip is not None:
        cut = (way == RIP) | trimmed
        good &= ~cut | (rip <= limits.longest_rip)
    if limits.shortest is not None:
        good &= length >= limits.shortest
        if way == CROSSCUT:
            good &= ~trimmed | (own_length >= limits.shortest)
    return good


def _kept_until(
    limits: Limits,
    part: Blocks,
    at: Any,
    other: Any,
    sizes: tuple[Any, Any],
    way: int,
) -> Any:
    """Whether a part that is cut later is large enough to be kept until then."""
    later = part.first[at] > other
    length = (part.length[at] if way == CROSSCUT else sizes[0]) - limits.kerf
    width = (part.width[at] if way == RIP else sizes[1]) - limits.kerf
    large = (length >= limits.keep_length) & (width >= limits.keep_width)
    return ~later | large
