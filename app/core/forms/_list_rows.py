"""The rows of a parts list: what a CSV text says, each fault with its line."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from difflib import get_close_matches

from app.core.errors import WorkshopError
from app.core.inputs import refuse
from app.core.length import Length
from app.core.part import Dimensions
from app.core.shop import Shop

COLUMNS = ("part", "quantity", "thickness", "width", "length", "species")
HEADER = ",".join(COLUMNS)
MOST_ROWS = 500
# What spreadsheets run as a formula, and the quote that keeps them from it.
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\0")


@dataclass(frozen=True, slots=True)
class Row:
    """One read row; ``line`` counts from 1 in the text, ``more`` is the rest."""

    line: int
    part: str
    quantity: int
    size: Dimensions
    species: str
    more: tuple[tuple[str, str], ...] = ()


def read(text: str, shop: Shop) -> tuple[Row, ...]:
    """Rows of a CSV text with a heading in any order; lengths in the shop's unit.

    Raises WorkshopError naming line and column.
    """
    lines = _lines(text.removeprefix("\ufeff"))
    if not lines:
        raise refuse("file", f"The list is empty. Start it with {HEADER}.")
    heading = _heading(*lines[0])
    rows = tuple(_row(line, cells, heading, shop) for line, cells in lines[1:])
    if not rows:
        raise refuse("file", "The list has a heading and no parts under it.")
    return few_enough(rows)


def few_enough(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """The rows, unless there are too many to be meant."""
    if len(rows) > MOST_ROWS:
        message = f"The list has {len(rows)} rows; {MOST_ROWS} is the most."
        raise refuse("file", message, str(MOST_ROWS))
    return rows


def _lines(text: str) -> list[tuple[int, list[str]]]:
    """Cells of every line that is not blank, with its number."""
    if "\0" in text:
        raise refuse("file", "This is not a text file: it holds zero bytes.")
    first = text.lstrip().split("\n", 1)[0]
    mark = ";" if first.count(";") > first.count(",") else ","
    mark = "\t" if first.count("\t") > first.count(mark) else mark
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    found = []
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                found.append((reader.line_num, [_cell(cell) for cell in cells]))
    except csv.Error as fault:
        message = (
            f"Line {reader.line_num} cannot be read as CSV ({fault}). A field with a "
            'comma or an inch mark in it goes in quotes, "1 1/2""" for 1 1/2".'
        )
        raise refuse("file", message) from fault
    return found


def _cell(text: str) -> str:
    """A cell's text; a quote put before a formula sign is taken off again."""
    plain = text.strip()
    quoted = plain[:1] == "'" and plain[1:2] in FORMULA
    return plain[1:] if quoted and len(plain) > 1 else plain


def _heading(line: int, cells: list[str]) -> list[str]:
    names = [cell.lower() for cell in cells]
    missing = [column for column in COLUMNS if column not in names]
    if missing:
        near = (get_close_matches(missing[0], names, 1, 0.6) or [""])[0]
        hint = f" Is it “{near}”?" if near else f" The heading is {HEADER}."
        message = f"Line {line} has no column {' or '.join(missing)}.{hint}"
        raise refuse("file", message)
    twice = [column for column in COLUMNS if names.count(column) > 1]
    if twice:
        raise refuse("file", f"Line {line} has the column {twice[0]} twice.")
    return names


def _row(line: int, cells: list[str], heading: list[str], shop: Shop) -> Row:
    if len(cells) > len(heading) and any(cells[len(heading) :]):
        message = (
            f"Line {line} has {len(cells)} fields, the heading {len(heading)}. A field "
            "with a comma in it goes in quotes."
        )
        raise refuse("file", message)
    given = dict(zip(heading, cells, strict=False))
    for column in COLUMNS:
        if not given.get(column):
            raise _fault(line, column, "nothing is there.")
    length, width, thickness = (
        _length(line, column, given[column], shop)
        for column in ("length", "width", "thickness")
    )
    return Row(
        line,
        _text(line, "part", given["part"], 200),
        _quantity(line, given["quantity"]),
        Dimensions(length, width, thickness),
        _text(line, "species", given["species"], 60),
        _more(line, given),
    )


def _more(line: int, given: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """The other columns that have something in this row, under their headings."""
    return tuple(
        (name or "more", _text(line, name or "more", text, 500))
        for name, text in given.items()
        if name not in COLUMNS and text
    )


def _fault(line: int, column: str, what: str, nearest: str = "") -> WorkshopError:
    return refuse("file", f"Line {line}, {column}: {what}", nearest)


def _text(line: int, column: str, text: str, most: int) -> str:
    if len(text) > most:
        raise _fault(line, column, f"longer than {most} letters.")
    return " ".join(text.split())


def _length(line: int, column: str, text: str, shop: Shop) -> Length:
    try:
        length = Length.read(text, shop.unit)
    except WorkshopError as fault:
        raise _fault(line, column, str(fault)) from fault
    if not length:
        raise _fault(line, column, "a size must be more than nothing.")
    return length


def _quantity(line: int, text: str) -> int:
    if not re.fullmatch(r"[0-9]{1,4}", text, re.ASCII) or not int(text):
        what = f"“{text[:40]}” is not a number of pieces. Type it like 4, up to 9999."
        raise _fault(line, "quantity", what, "1")
    return int(text)
