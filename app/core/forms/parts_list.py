"""Parts list: pieces worked out elsewhere, one a row."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from app.core import geometry
from app.core.design import Design
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
from app.core.forms._list_rows import HEADER, Row, read
from app.core.forms._parts_drawing import drawing
from app.core.forms._printed_list import LIKE, is_printed, printed_rows
from app.core.inputs import Ask, ask, typed
from app.core.length import Length, Unit
from app.core.part import Dimensions, Part
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.size import Kind, Size
from app.core.step import Step

TITLE = "Parts list"
SUMMARY = (
    "Pieces you have worked out yourself, typed, pasted from a printed list or from a "
    "CSV file: one part a row with its size and species."
)
ROWS = {
    Unit.INCH: "side,2,1/2,3 1/2,12,cherry\nend,2,1/2,3 1/2,7,cherry\n"
    "bottom,1,1/4,6 1/2,11 1/2,maple\n",
    Unit.MILLIMETRE: "side,2,12,90,300,cherry\nend,2,12,90,180,cherry\n"
    "bottom,1,6,166,286,maple\n",
}
# Stored with the list, so that its numbers stay what they were typed as.
SETTLED = ("unit",)


def example(unit: Unit) -> dict[str, str]:
    """A small box, so that the page opens on something drawn."""
    return {"file": f"{HEADER}\n{ROWS[unit]}"}


@dataclass(frozen=True)
class Inputs:
    """What a parts list asks for: its text."""

    file: str = ask(
        "Parts",
        Ask.FILE,
        help=f"One part a row, after the heading {HEADER}; other columns are kept. Or "
        f"lines as printed, like {LIKE} Length runs along the grain.",
    )
    unit: str | None = ask(
        "Unit of bare numbers",
        Ask.CHOICE,
        default=None,
        choices=("in", "mm"),
        help="The shop's, where left empty.",
    )
    species: tuple[str, ...] | None = ask(
        "Wood of printed lines",
        Ask.SPECIES,
        default=None,
        help="One wood, for lines as printed; a table names its own.",
    )


def design(inputs: Inputs, shop: Shop) -> Design:
    """A design from a list; refuses with line and column what cannot be read."""
    unit = Unit(inputs.unit or shop.unit)
    if is_printed(inputs.file):
        rows = printed_rows(inputs.file, inputs.species)
    else:
        rows = read(inputs.file, replace(shop, unit=unit))
    parts = _parts(rows, shop)
    return Design(
        form="parts_list",
        title=f"List of {len(parts)} parts" if len(parts) > 1 else "List of one part",
        inputs={
            "file": inputs.file,
            "unit": str(unit),
            "species": typed(inputs.species),
        },
        sizes=_sizes(rows),
        parts=parts,
        set_ups=_set_ups(rows, shop),
        steps=_steps(rows, parts, shop),
        warnings=_warnings(rows, shop),
        draw=lambda: (drawing(parts, shop),),
    )


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
    return Part(
        key,
        row.part,
        row.quantity,
        row.species,
        size,
        blank,
        outline=outline,
        more=row.more,
    )


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
    return tuple(
        SetUp(
            key=_rip_key(width),
            machine="table saw",
            cuts=f"Rip {_named(rows, width)} to {shop_text(width, shop)} wide.",
            fence=width,
            face_down="a planed face, the jointed edge on the fence",
            check=f"The first piece is {shop_text(width, shop)} wide at both ends.",
            cautions=("table-saw.kickback", "table-saw.hands-near-blade"),
        )
        for width in _widths(rows)
    )


def _widths(rows: tuple[Row, ...]) -> list[Length]:
    """Every width that is ripped, the widest first: it leaves the most to hold."""
    return sorted({row.size.width for row in rows}, reverse=True)


def _rip_key(width: Length) -> str:
    return f"rip-{width.nm}"


def _rips(rows: tuple[Row, ...], shop: Shop) -> list[Step]:
    """One step for each width, with its fence."""
    return [
        Step(
            _rip_key(width),
            f"Rip to {shop_text(width, shop)} wide",
            "table saw",
            f"{_named(rows, width)}.",
            set_up=_rip_key(width),
            bench_minutes=5
            + 2 * sum(row.quantity for row in rows if row.size.width == width),
            cautions=("table-saw.kickback", "table-saw.hands-near-blade"),
        )
        for width in _widths(rows)
    ]


def _named(rows: tuple[Row, ...], width: Length) -> str:
    names = [row.part for row in rows if row.size.width == width]
    return ", ".join(dict.fromkeys(names))


def _steps(
    rows: tuple[Row, ...], parts: tuple[Part, ...], shop: Shop
) -> tuple[Step, ...]:
    pieces = sum(part.quantity for part in parts)
    over = f"By about {shop_text(shop.over_thickness, shop)}."
    return (
        joint_stock(10 + 2 * len(parts), "Every board, before any rip."),
        plane_stock(10 + 2 * len(parts), over),
        *_rips(rows, shop),
        Step(
            "cut-parts",
            "Cut the parts to length",
            "crosscut sled",
            "Square one end first; equal parts against one stop.",
            bench_minutes=10 + 2 * pieces,
            cautions=("table-saw.fence-as-stop", "crosscut-sled.short-piece"),
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
