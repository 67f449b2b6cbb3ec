"""The rows of a printed parts list; what is not plain is asked about, not guessed."""

from __future__ import annotations

import re

from app.core.errors import WorkshopError
from app.core.forms._list_rows import COLUMNS, Row, few_enough
from app.core.inputs import FaultyInputs, refuse
from app.core.part import Dimensions
from app.core.stock_lines import Ask, Read, read_lines

LIKE = "2 sides, 7/8 by 5 by 14 in."
COUNTED = re.compile(r"[0-9]{1,4} [A-Za-z]")  # so many of something
# More questions at once than this are answered a part at a time.
ASKED_MOST = 20


def is_printed(text: str) -> bool:
    """Whether a list is lines as printed, not a table with a heading."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    first = lines[0].lower() if lines else ""
    for mark in ",;\t":
        if any(cell.strip(" \"'") in COLUMNS for cell in first.split(mark)):
            return False
    return any(
        isinstance(line, Read) or COUNTED.match(line.line) for line in read_lines(text)
    )


def printed_rows(text: str, wood: tuple[str, ...] | None) -> tuple[Row, ...]:
    """A row for every line, all of one ``wood``; sizes are inches, as printed.

    Raises FaultyInputs with a question for every line that is not plain, and
    where no wood, or more than one, is named.
    """
    lines = read_lines(text.removeprefix("\ufeff"))
    asked = [line for line in lines if isinstance(line, Ask)]
    faults = [_questions(asked)] if asked else []
    faults += _no_one_wood(wood)
    if faults or not wood:
        raise FaultyInputs(tuple(faults))
    read = (line for line in lines if isinstance(line, Read))
    return few_enough(tuple(_row(line, wood[0]) for line in read))


def _questions(asked: list[Ask]) -> WorkshopError:
    told = [
        f"Line {one.number}, “{_short(one.line)}”: {one.why}."
        for one in asked[:ASKED_MOST]
    ]
    if len(asked) > ASKED_MOST:
        told.append(f"There are {len(asked) - ASKED_MOST} more of these.")
    which = "that line" if len(asked) == 1 else "those lines"
    told.append(f"Write {which} like “{LIKE}”, or take out what is no part.")
    return refuse("file", "\n".join(told))


def _short(line: str) -> str:
    return line if len(line) <= 80 else line[:79] + "…"


def _no_one_wood(wood: tuple[str, ...] | None) -> list[WorkshopError]:
    if wood and len(wood) == 1:
        return []
    message = (
        "Printed lines name no wood. Say which one all of them are of, like cherry; "
        "for more than one, make a table with a species column."
    )
    return [refuse("species", message)]


def _row(line: Read, species: str) -> Row:
    size = Dimensions(line.length, line.width, line.thickness)
    more = (("surfaced", line.surfaced), ("note", line.note))
    there = tuple((name, text) for name, text in more if text)
    return Row(line.number, line.part[:200], line.quantity, size, species, there)
