"""Parts list: pieces worked out elsewhere, one a row."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass, replace
from difflib import get_close_matches

from app.core import geometry
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.forms._bench import (
    BEFORE_USE,
    GLUE,
    GLUE_CAUTIONS,
    UNCLAMP,
    finish,
    joint_stock,
    plane_stock,
    sand,
    shop_text,
)
from app.core.forms._parts_drawing import drawing
from app.core.inputs import Ask, ask, refuse
from app.core.length import Length, Unit
from app.core.part import Dimensions, Part
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.size import Kind, Size
from app.core.step import Step

TITLE = "Parts list"
SUMMARY = (
    "Pieces you have worked out yourself, typed or from a CSV file: one part a row "
    "with its size and species."
)
COLUMNS = ("part", "quantity", "thickness", "width", "length", "species")
HEADER = ",".join(COLUMNS)
EXAMPLE = {
    "file": f"{HEADER}\nside,2,1/2,3 1/2,12,cherry\nend,2,1/2,3 1/2,7,cherry\n"
    "bottom,1,1/4,6 1/2,11 1/2,maple\n"
}
# Stored with the list, so that its numbers stay what they were typed as.
SETTLED = ("unit",)
MOST_ROWS = 500
# What spreadsheets run as a formula, and the quote that keeps them from it.
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\0")


@dataclass(frozen=True)
class Inputs:
    """What a parts list asks for: its text."""

    file: str = ask(
        "Parts",
        Ask.FILE,
        help=f"One part a row, after the heading {HEADER}. Length runs along the "
        "grain. Other columns are kept.",
    )
    unit: str | None = ask(
        "Unit of bare numbers",
        Ask.CHOICE,
        default=None,
        choices=("in", "mm"),
        help="The shop's, where left empty.",
    )


@dataclass(frozen=True, slots=True)
class Row:
    """One read row; ``line`` counts from 1 in the text, ``more`` is the rest."""

    line: int
    part: str
    quantity: int
    size: Dimensions
    species: str
    more: dict[str, str]


def design(inputs: Inputs, shop: Shop) -> Design:
    """A design from a list; refuses with line and column what cannot be read."""
    unit = Unit(inputs.unit or shop.unit)
    rows = read(inputs.file, replace(shop, unit=unit))
    parts = _parts(rows, shop)
    return Design(
        form="parts_list",
        title=f"List of {len(parts)} parts" if len(parts) > 1 else "List of one part",
        inputs={"file": inputs.file, "unit": str(unit)},
        sizes=_sizes(rows),
        parts=parts,
        set_ups=_set_ups(rows, shop),
        steps=_steps(parts, shop),
        drawings=(drawing(parts, shop),),
        warnings=_warnings(rows, shop),
    )


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
        {name: text for name, text in given.items() if name not in COLUMNS},
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


def _parts(rows: tuple[Row, ...], shop: Shop) -> tuple[Part, ...]:
    keys: dict[str, int] = {}
    return tuple(_part(row, _key(row.part, keys), shop) for row in rows)


def _key(name: str, taken: dict[str, int]) -> str:
    """A key from the part's name; equal names are numbered as they come."""
    slug = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:60] or "part"
    taken[slug] = taken.get(slug, 0) + 1
    key = slug if taken[slug] == 1 else f"{slug}-{taken[slug]}"
    while key != slug and key in taken:
        taken[slug] += 1
        key = f"{slug}-{taken[slug]}"
    taken.setdefault(key, 1)
    return key


def _part(row: Row, key: str, shop: Shop) -> Part:
    size = row.size
    blank = Dimensions(
        size.length + shop.over_length,
        size.width + shop.over_width,
        size.thickness + shop.over_thickness,
    )
    outline = geometry.rectangle(size.length, size.width)
    return Part(key, row.part, row.quantity, row.species, size, blank, outline=outline)


def _sizes(rows: tuple[Row, ...]) -> tuple[Size, ...]:
    pieces = sum(row.quantity for row in rows)
    volume = sum(row.quantity * row.size.volume for row in rows)
    return (
        Size("pieces", "Pieces", Kind.COUNT, pieces, "the quantities added up"),
        Size(
            "finished_volume",
            "Wood in the finished pieces",
            Kind.VOLUME,
            volume,
            "quantity × length × width × thickness, added up over the rows",
            unit="nm3",
        ),
    )


def _set_ups(rows: tuple[Row, ...], shop: Shop) -> tuple[SetUp, ...]:
    widths = sorted({row.size.width for row in rows}, reverse=True)
    return tuple(
        SetUp(
            key=f"rip-{width.nm}",
            machine="table saw",
            cuts=f"Rip {_named(rows, width)} to {shop_text(width, shop)} wide.",
            fence=width,
            face_down="a planed face, the jointed edge on the fence",
            check=f"The first piece is {shop_text(width, shop)} wide at both ends.",
            cautions=("table-saw.kickback", "table-saw.hands-near-blade"),
        )
        for width in widths
    )


def _named(rows: tuple[Row, ...], width: Length) -> str:
    names = [row.part for row in rows if row.size.width == width]
    return ", ".join(dict.fromkeys(names))


def _steps(parts: tuple[Part, ...], shop: Shop) -> tuple[Step, ...]:
    pieces = sum(part.quantity for part in parts)
    rip, crosscut = (
        ("table-saw.kickback", "table-saw.hands-near-blade"),
        (
            "table-saw.fence-as-stop",
            "crosscut-sled.short-piece",
        ),
    )
    over = f"By about {shop_text(shop.over_thickness, shop)}."
    return (
        joint_stock(10 + 2 * len(parts), "Every board, before any rip."),
        plane_stock(10 + 2 * len(parts), over),
        Step(
            "rip-parts",
            "Rip the parts to width",
            "table saw",
            "Widest first, each width at one set-up.",
            bench_minutes=10 + 2 * pieces,
            cautions=rip,
        ),
        Step(
            "cut-parts",
            "Cut the parts to length",
            "crosscut sled",
            "Square one end first; equal parts against one stop.",
            bench_minutes=10 + 2 * pieces,
            cautions=crosscut,
        ),
        sand("sand-parts", "Sand the parts", 5 + 4 * pieces, "Not what is glued."),
        Step(
            "assemble",
            "Assemble",
            "clamps",
            "Dry first, then with glue.",
            bench_minutes=20 + 3 * pieces,
            waits=(UNCLAMP,),
            cautions=GLUE_CAUTIONS,
            supplies=(GLUE,),
        ),
        finish("finish", "Finish", 30, "Thin, along the grain.", BEFORE_USE),
    )


def _warnings(rows: tuple[Row, ...], shop: Shop) -> tuple[str, ...]:
    found = []
    for row in rows:
        size = row.size
        if size.width > size.length:
            found.append(
                f"{row.part} is wider ({shop_text(size.width, shop)}) than long "
                f"({shop_text(size.length, shop)}). Its grain runs along the length: "
                "is that meant?"
            )
        if size.thickness > size.width:
            found.append(f"{row.part} is thicker than wide. Is that meant?")
    return tuple(dict.fromkeys(found))
