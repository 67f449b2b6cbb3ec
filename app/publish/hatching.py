"""Hatches as lines of their own: tiles of a pattern show seams on paper."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

XY = tuple[float, float]


def strokes(
    outline: Sequence[XY], degrees: float, apart: float
) -> Iterator[tuple[XY, XY]]:
    """Parallel strokes inside a simple outline, ``apart`` from each other.

    Strokes of neighbouring outlines go on in each other. All in one unit.
    """
    turn = math.radians(degrees)
    cos, sin = math.cos(turn), math.sin(turn)
    # Turned so that strokes are level: along them, and across.
    turned = [(x * cos + y * sin, y * cos - x * sin) for x, y in outline]
    edges = list(zip(turned, (*turned[1:], turned[0]), strict=True))
    levels = [across for _, across in turned]
    first = math.ceil(min(levels) / apart - 0.5)
    last = math.floor(max(levels) / apart - 0.5)
    for number in range(first, last + 1):
        level = (number + 0.5) * apart
        met = sorted(
            u + (level - v) / (w - v) * (t - u)
            for (u, v), (t, w) in edges
            if (v <= level) != (w <= level)
        )
        for start, end in zip(met[::2], met[1::2], strict=False):
            yield (
                (start * cos - level * sin, start * sin + level * cos),
                (end * cos - level * sin, end * sin + level * cos),
            )
