"""Numbers of cuts in words, neighbours drawn together."""

from __future__ import annotations

from collections.abc import Iterable


def spans(numbers: Iterable[int]) -> str:
    """Whole numbers in rising order: ``3, 5–8``."""
    found: list[list[int]] = []
    for number in sorted(numbers):
        if found and found[-1][-1] == number - 1:
            found[-1][1:] = [number]
        else:
            found.append([number])
    return ", ".join("–".join(map(str, run)) for run in found)
