"""Counts of many kinds in a few machine words, added and compared at once.

Each kind has enough bits for its count and one guard bit more: two counts add up
to more than is wanted exactly where a guard bit is set after adding what is spare.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

BITS = 62


class Packed:
    """How counts up to ``most`` of each kind are packed."""

    def __init__(self, most: Sequence[int]) -> None:
        """Give every kind its bits."""
        self.kinds = len(most)
        self.place: list[tuple[int, int, int]] = []
        word = used = 0
        for count in most:
            bits = int(count).bit_length() + 1
            if used + bits > BITS:
                word, used = word + 1, 0
            self.place.append((word, used, bits))
            used += bits
        self.words = word + 1
        self._guard = np.zeros(self.words, np.int64)
        self._spare = np.zeros(self.words, np.int64)
        for (at, shift, bits), count in zip(self.place, most, strict=True):
            self._guard[at] |= np.int64(1 << (shift + bits - 1))
            self._spare[at] += np.int64(((1 << (bits - 1)) - 1 - int(count)) << shift)

    def one(self, kind: int) -> Any:
        """One piece of a kind."""
        found = np.zeros(self.words, np.int64)
        word, shift, _ = self.place[kind]
        found[word] = np.int64(1 << shift)
        return found

    def within(self, held: Any) -> Any:
        """For each row whether it holds no more of any kind than is wanted."""
        return (((held + self._spare) & self._guard) == 0).all(axis=1)

    def counts(self, held: Any) -> Any:
        """The counts of each row, one column for each kind."""
        found = np.zeros((len(held), self.kinds), np.int64)
        for kind, (word, shift, bits) in enumerate(self.place):
            found[:, kind] = (held[:, word] >> shift) & ((1 << (bits - 1)) - 1)
        return found
