"""Strip patterns for any form whose sides or boards are laminated.

A form's ``Inputs`` inherits `Patterned`, or `Patterning` where the form itself
counts the rows, and reads the pattern once with `read_pattern`. What is glued up
for it is in `_strip_panels`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from app.core import pattern_kinds as kinds
from app.core.inputs import Ask, ask, refuse
from app.core.pattern import Pattern

PATTERN_GROUP = (
    "pattern",
    "species",
    "strip_rows",
    "blend_rows",
    "step_rows",
    "own_pattern",
)
MOST_ROWS = 40


@dataclass(frozen=True, kw_only=True)
class Patterning:
    """What a strip pattern asks for, where the form counts the rows."""

    pattern: str = ask(
        "Pattern of the strips",
        Ask.CHOICE,
        default="bands",
        choices=kinds.KINDS,
        help="Bands alike all round; alternating from side to side too; bands stepped "
        "up at each side; mirrored about the middle row; a blend from the first "
        "species below to the second above; or your own.",
    )
    species: tuple[str, ...] = ask(
        "Species, bottom to top",
        Ask.SPECIES,
        default=("walnut", "maple"),
        help="One or more, with commas. They repeat from the bottom row up.",
    )
    blend_rows: int | None = ask(
        "Rows of the blend",
        Ask.COUNT,
        default=None,
        most=MOST_ROWS,
        help="Over so many rows in the middle. Left empty: all but the lowest and "
        "the highest.",
    )
    step_rows: int = ask(
        "Rows stepped up at each side",
        Ask.COUNT,
        default=1,
        least=1,
        most=MOST_ROWS,
        help="With a stepped pattern: how far the bands climb from one side to "
        "the next.",
    )
    own_pattern: str | None = ask(
        "Your own pattern",
        Ask.TEXT,
        default=None,
        help="A line a row, the top row first; sides set apart by |. One species "
        "stands for all sides, a number for that place in the list of species.",
    )


@dataclass(frozen=True, kw_only=True)
class Patterned(Patterning):
    """What a strip pattern asks for."""

    strip_rows: int = ask(
        "Rows of strips",
        Ask.COUNT,
        default=3,
        least=1,
        most=MOST_ROWS,
        help="Glued edge to edge; the grain runs round.",
    )


def read_pattern(
    inputs: Patterning,
    sides: int,
    rows: int,
    *,
    rows_key: str = "strip_rows",
    side: str = "side",
    needs: Callable[[int], str] = str,
) -> Pattern:
    """The pattern asked for, on so many sides and rows.

    ``rows_key`` names the input that settles the rows and ``needs`` what would be
    typed there for so many. Raises WorkshopError for what does not fit.
    """
    made = _made(inputs, sides, rows, side)
    if len(made.rows) != rows:
        count = len(made.rows)
        raise refuse(
            rows_key,
            f"Your own pattern has {count} row{'s' if count > 1 else ''}, and there "
            f"{'is' if rows == 1 else 'are'} {rows} of strips.",
            needs(count),
        )
    if inputs.pattern != "own" and set(made.species) != set(inputs.species):
        raise _too_few(inputs, sides, rows, rows_key, needs)
    return made


def _made(inputs: Patterning, sides: int, rows: int, side: str) -> Pattern:
    names = inputs.species
    if inputs.pattern == "own":
        return kinds.own(inputs.own_pattern or "", names, sides, rows, side=side)
    if inputs.pattern == "blend":
        return _blend(inputs, sides, rows)
    if inputs.pattern == "stepped":
        return kinds.stepped(names, rows, sides, inputs.step_rows)
    plain = {
        "bands": kinds.bands,
        "alternating": kinds.alternating,
        "mirrored": kinds.mirrored,
    }
    return plain[inputs.pattern](names, rows, sides)


def _blend(inputs: Patterning, sides: int, rows: int) -> Pattern:
    names, over = inputs.species, inputs.blend_rows
    if len(names) != 2:
        near = f"{names[0]}, {names[-1]}" if len(names) > 2 else f"{names[0]}, maple"
        message = (
            "A blend runs from one species to another: name two, the lower one "
            f"first, not {len(names)}."
        )
        raise refuse("species", message, near if near != "maple, maple" else "")
    if over is not None and over > rows:
        message = f"A blend over {over} rows does not fit in {rows}."
        raise refuse("blend_rows", message, str(rows))
    return kinds.blend(names, rows, sides, over)


def _too_few(
    inputs: Patterning, sides: int, rows: int, key: str, needs: Callable[[int], str]
) -> Exception:
    names = inputs.species
    enough = next(
        count
        for count in range(rows + 1, MOST_ROWS * 2 + 2)
        if set(_made(inputs, sides, count, "side").species) == set(names)
    )
    message = (
        f"{len(names)} species need at least {enough} rows of strips; there "
        f"{'is' if rows == 1 else 'are'} {rows}."
    )
    return refuse(key, message, needs(enough) if enough <= MOST_ROWS else "")


def pattern_warnings(
    inputs: Patterning, pattern: Pattern, *, comes_round: bool = True
) -> list[str]:
    """What of the pattern will not look as meant, in sentences.

    ``comes_round``: the last side meets the first.
    """
    found = []
    if inputs.own_pattern and inputs.pattern != "own":
        found.append(
            f"Your own pattern is not used: the pattern chosen is “{inputs.pattern}”."
        )
    steps = {"alternating": 1, "stepped": inputs.step_rows}
    jumps = steps.get(inputs.pattern, 0) * pattern.sides % len(inputs.species)
    if comes_round and pattern.sides > 1 and jumps:
        found.append(
            f"The pattern does not come round: between side {pattern.sides} and side 1 "
            "the bands do not go on as between the others, with "
            f"{len(inputs.species)} species on {pattern.sides} sides."
        )
    return found
