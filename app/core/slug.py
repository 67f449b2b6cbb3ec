"""Short names for addresses and folders, made from titles."""

from __future__ import annotations

import unicodedata
from collections.abc import Container
from itertools import count

LONGEST = 60


def slug(title: str, otherwise: str = "series") -> str:
    """``Café trays, №1`` as ``cafe-trays-no1``.

    Accents go, letters of any script stay, all else becomes a hyphen;
    ``otherwise`` where nothing is left.
    """
    spread = unicodedata.normalize("NFKD", title.replace("'", "")).casefold()
    bare = "".join(mark for mark in spread if not unicodedata.combining(mark))
    kept = "".join(mark if mark.isalnum() else " " for mark in bare)
    name = unicodedata.normalize("NFC", "-".join(kept.split()))
    return name[:LONGEST].rstrip("-") or otherwise


def free_slug(title: str, taken: Container[str], otherwise: str = "series") -> str:
    """The slug of a title, counted on where it is taken."""
    first = slug(title, otherwise)
    if first not in taken:
        return first
    tries = (f"{first}-{number}" for number in count(2))
    return next(name for name in tries if name not in taken)
