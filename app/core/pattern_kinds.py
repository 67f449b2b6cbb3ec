"""The kinds of strip pattern a maker may choose, and reading their own."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from app.core.inputs import refuse
from app.core.pattern import Pattern, repeated

KINDS = ("bands", "alternating", "stepped", "mirrored", "blend", "own")


def bands(names: tuple[str, ...], rows: int, sides: int) -> Pattern:
    """Even bands: the species repeat from the bottom row up, alike all round."""
    return repeated(names, rows, sides)


def alternating(names: tuple[str, ...], rows: int, sides: int) -> Pattern:
    """The species change from row to row and from side to side."""
    return stepped(names, rows, sides, 1)


def stepped(names: tuple[str, ...], rows: int, sides: int, step: int) -> Pattern:
    """Even bands, at each side ``step`` rows higher than at the one before."""
    count = len(names)
    return Pattern(
        tuple(
            tuple(names[(row - side * step) % count] for side in range(sides))
            for row in range(rows)
        )
    )


def mirrored(names: tuple[str, ...], rows: int, sides: int) -> Pattern:
    """The species from both edges inwards, alike above and below the middle."""
    inwards = [names[min(i, rows - 1 - i) % len(names)] for i in range(rows)]
    return Pattern(tuple((name,) * sides for name in inwards))


def blend(names: tuple[str, ...], rows: int, sides: int, over: int | None) -> Pattern:
    """From the first species below to the second above, over so many rows.

    An ordered dither: in each row of the blend the second species has its share
    of the sides, more from row to row, spread round as evenly as they go. Where
    there is one side only the rows take turns instead. ``over`` left out: every
    row but the lowest and the highest.
    """
    low, high = names
    if over is None:
        over = max(rows - 2, 0)
    below = (rows - over) // 2
    shares = [
        Fraction(min(max(row - below + 1, 0), over + 1), over + 1)
        for row in range(rows)
    ]
    if sides == 1:
        return Pattern(tuple((high if on else low,) for on in _in_turns(shares)))
    order = _spread(sides)
    return Pattern(
        tuple(
            tuple(
                high if order[(side + row % 2 * (sides // 2)) % sides] < wins else low
                for side in range(sides)
            )
            for row, wins in enumerate(_rounded(share * sides) for share in shares)
        )
    )


def _rounded(share: Fraction) -> int:
    # Not to the even number: the count must not fall from one row to the next.
    return int(share + Fraction(1, 2))


def _in_turns(shares: Sequence[Fraction]) -> list[bool]:
    """Row by row, whether what has come together passes the next half."""
    found, owed = [], Fraction(1, 2)
    for share in shares:
        owed += share
        found.append(owed >= 1)
        owed -= found[-1]
    return found


def _spread(count: int) -> list[int]:
    """The turn at which each of ``count`` places is taken, far from those before.

    The places' numbers with their binary digits reversed, put in order.
    """
    bits = max(count - 1, 1).bit_length()
    keys = [int(f"{place:0{bits}b}"[::-1], 2) for place in range(count)]
    order = sorted(keys)
    return [order.index(key) for key in keys]


def own(
    text: str,
    names: tuple[str, ...],
    sides: int,
    rows: int = 3,
    *,
    input: str = "own_pattern",
    side: str = "side",
) -> Pattern:
    """A line a row, top row first; sides with ``|`` or commas between them.

    One entry stands for all sides; a number for the species of that place in
    ``names``. Lines may also be set apart by semicolons. Raises WorkshopError,
    naming ``input``, where a line has some other number of entries; ``rows`` is for
    the example where nothing was typed.
    """
    lines = [line for line in re.split(r"[\n;]", text) if line.strip()]
    if not lines:
        like = "; ".join(names[row % len(names)] for row in reversed(range(rows)))
        raise refuse(
            input,
            "Type your own pattern: a line a row, the top row first, the "
            f"{side}s set apart by | and one entry where all are alike.",
            like,
        )
    if len(lines) > 60:
        raise refuse(input, f"{len(lines)} rows are more than 60.")
    made = [_row(line, names, sides, input, side) for line in reversed(lines)]
    return Pattern(tuple(made))


def _row(
    line: str, names: tuple[str, ...], sides: int, input: str, side: str
) -> tuple[str, ...]:
    entries = [" ".join(entry.split()) for entry in re.split(r"[|,]", line)]
    short = line.strip()[:60]
    if not all(entries) or max(map(len, entries)) > 60:
        raise refuse(input, f"“{short}” has a place without a species.")
    if len(entries) not in (1, sides):
        raise refuse(
            input,
            f"“{short}” names {len(entries)} {side}s, and there are {sides}. Name "
            f"every {side}, or one species for all of them.",
        )
    named = tuple(_named(entry, names, input) for entry in entries)
    return named * sides if len(named) == 1 else named


def _named(entry: str, names: tuple[str, ...], input: str) -> str:
    if not re.fullmatch(r"[0-9]{1,3}", entry, re.ASCII):
        return entry
    if not 1 <= int(entry) <= len(names):
        raise refuse(
            input,
            f"{entry} is no place in the list of species, which has {len(names)}.",
        )
    return names[int(entry) - 1]
