"""Volumes of wood in whole cubic nanometres, and sharing them out exactly.

They outgrow 64 bits, so they are plain integers here and text in the store.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction


def share(total: int, weights: Sequence[int]) -> list[int]:
    """Split a whole amount by weight so that the pieces add up to it exactly.

    What rounding leaves goes to the largest remainders, first come first
    served. Without any weight the first takes all.
    """
    if not weights:
        return []
    whole = sum(weights)
    if not whole:
        return [total] + [0] * (len(weights) - 1)
    exact = [Fraction(total * weight, whole) for weight in weights]
    shares = [int(part // 1) for part in exact]
    order = sorted(range(len(weights)), key=lambda i: (shares[i] - exact[i], i))
    for i in order[: total - sum(shares)]:
        shares[i] += 1
    return shares
