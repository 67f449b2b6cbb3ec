"""Counts in machine words against counts in plain numbers."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from app.core.cutting.boards.packed import Packed

MOST = st.lists(st.integers(1, 255), min_size=1, max_size=40)


@given(MOST, st.data())
def test_packed_counts_come_back_and_are_judged_as_plain_ones(
    most: list[int], data: st.DataObject
) -> None:
    packed = Packed(most)
    halves = [[data.draw(st.integers(0, count)) for count in most] for _ in range(2)]
    words = [
        sum(
            (packed.one(kind) * np.int64(n) for kind, n in enumerate(half)),
            np.zeros(packed.words, np.int64),
        )
        for half in halves
    ]
    assert packed.counts(np.array(words)).tolist() == halves
    both = [a + b for a, b in zip(*halves, strict=True)]
    fits = all(n <= count for n, count in zip(both, most, strict=True))
    assert bool(packed.within(np.array([words[0] + words[1]]))[0]) == fits
