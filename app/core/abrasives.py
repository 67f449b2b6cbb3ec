"""Which grits, and how many discs of each."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import ceil

from app.core.figures import row, table
from app.core.finishes import finish

SCALE = "abrasive FEPA P (ISO 6344)"
SQUARE_METRE_NM2 = 10**18


@cache
def grades() -> tuple[int, ...]:
    """The P grades there are, coarse to fine."""
    rows = (one for one in table("finishing") if one["topic"] == SCALE)
    return tuple(int(one["quantity"].rpartition("P")[2]) for one in rows)


def last_grit(finish_name: str) -> int:
    """The finest that the finish still grips; finer where nothing has to."""
    chosen = finish(finish_name)
    film = chosen is not None and chosen.film
    name = "last-grit-before-film-finish" if film else "last-grit-before-oil-or-wax"
    return int(row("finishing", f"abrasive.{name}")["value"])


@cache
def sequence(finish_name: str) -> tuple[int, ...]:
    """The grits from planed wood to the finish, each about 1.5 times the last.

    Reckoned from the last one back, in grades that are made. Common practice, no
    source.
    """
    step = Fraction(row("finishing", "abrasive.grit-step-rule")["value"])
    first = int(row("finishing", "abrasive.first-grit-on-planed-wood")["value"])
    found = [last_grit(finish_name)]
    while found[0] / step >= first * Fraction(9, 10):
        wanted = found[0] / step
        found.insert(0, min(grades(), key=lambda grade: abs(grade - wanted)))
    return tuple(found)


def discs(area: int) -> int:
    """How many discs of one grit sand ``area`` nm²: a rough count.

    Common practice, no source.
    """
    per_disc = Fraction(row("finishing", "abrasive.area-per-disc")["value"])
    return max(1, ceil(Fraction(area, SQUARE_METRE_NM2) / per_disc))
