"""Chapters of the final cut: what players ask of their list of them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from app.core.figures import limit
from app.core.film_time import film_time

# Common practice, from memory: check the help of the place you publish at.
LEAST = limit("chapters.fewest")
SHORTEST_MS = 1000 * limit("chapters.shortest")


def faults(starts_ms: Sequence[int], length_ms: int | None = None) -> tuple[str, ...]:
    """Why players would not show these chapters, a sentence each; none: they will.

    ``starts_ms`` in the order of the list, ``length_ms`` of the whole film where
    it is known. An empty list has no fault: a film need not have chapters.
    """
    if not starts_ms:
        return ()
    found = []
    if starts_ms[0] != 0:
        found.append(
            f"The first chapter starts at {film_time(starts_ms[0])}; "
            "it has to start at 0:00."
        )
    if len(starts_ms) < LEAST:
        found.append(
            f"There {'is 1 chapter' if len(starts_ms) == 1 else 'are 2 chapters'}; "
            f"players show a list from {LEAST} on."
        )
    found += _between(starts_ms)
    if length_ms is not None:
        found.append(_at_the_end(max(starts_ms), length_ms))
    return tuple(filter(None, found))


def _between(starts_ms: Sequence[int]) -> list[str]:
    found = []
    for start, following in pairwise(starts_ms):
        if following <= start:
            found.append(
                f"The chapter at {film_time(following)} stands after the one at "
                f"{film_time(start)}; the times have to rise."
            )
        elif following - start < SHORTEST_MS:
            found.append(
                f"The chapter at {film_time(start)} is only "
                f"{_seconds(following - start)} long; each needs 10 s."
            )
    return found


def _at_the_end(last: int, length_ms: int) -> str:
    if last >= length_ms:
        return (
            f"The chapter at {film_time(last)} starts after the film ends, "
            f"at {film_time(length_ms)}."
        )
    if length_ms - last < SHORTEST_MS:
        return (
            f"The last chapter, at {film_time(last)}, is only "
            f"{_seconds(length_ms - last)} long; each needs 10 s."
        )
    return ""


def _seconds(ms: int) -> str:
    return f"{ms / 1000:g} s"
