"""What the dividers of a box come to: sizes, and where each stands."""

from __future__ import annotations

from app.core.forms._book import GEOMETRY, Book
from app.core.forms._box import Box, Dividers
from app.core.forms._box_fingers import Fingers
from app.core.shop import Shop
from app.core.size import Size
from app.core.table import Table

WAYS = ("across", "along")


def divider_sizes(box: Box, dividers: Dividers, book: Book) -> list[Size]:
    """Lengths, compartments and slots."""
    found = []
    for way in WAYS:
        found += _one_way(box, dividers, way, book)
    found.append(
        book.length(
            "divider_height",
            "Divider height",
            dividers.height,
            "as asked, or all the room inside",
            book.show(dividers.height),
        )
    )
    if dividers.crossing:
        found += _slots(dividers, book)
    return found


def _one_way(box: Box, dividers: Dividers, way: str, book: Book) -> list[Size]:
    show, across = book.show, way == "across"
    held = dividers.across if across else dividers.along
    if not held.starts:
        return []
    along = box.inside_length if across else box.inside_width
    room = box.inside_width if across else box.inside_length
    values = f"{show(room)} - 2 × {show(dividers.room)}"
    formula = "inside less the room at both ends"
    if dividers.dado:
        formula = "inside and twice what reaches into the dados, their depth less room"
        values = f"{show(room)} + 2 × ({show(dividers.dado)} - {show(dividers.room)})"
    count = len(held.starts)
    return [
        book.length(
            f"divider_{way}_length",
            f"Length of each divider {way}",
            held.length,
            formula,
            values,
        ),
        book.length(
            f"compartment_{'length' if across else 'width'}",
            f"Room between dividers {way}",
            held.compartment,
            "inside less the dividers, shared out evenly",
            f"({show(along)} - {count} × {show(dividers.thickness)}) / {count + 1}",
        ),
    ]


def _slots(dividers: Dividers, book: Book) -> list[Size]:
    show = book.show
    return [
        book.length(
            "slot_depth",
            "Depth of the slots where dividers cross",
            dividers.slot_down,
            "half the divider's height: from above in those across, from below in "
            "those along",
            f"{show(dividers.height)} / 2",
        ),
        book.length(
            "slot_width",
            "Width of the slots",
            dividers.slot,
            "divider thickness and the room",
            f"{show(dividers.thickness)} + {show(dividers.room)}",
        ),
    ]


def divider_table(box: Box, dividers: Dividers, shop: Shop) -> Table:
    """Where every divider stands, from an inside corner."""
    show = Book(shop).show
    rows = []
    for way, held, origin in (
        ("across", dividers.across, "left end"),
        ("along", dividers.along, "front side"),
    ):
        for i, start in enumerate(held.starts):
            end = start + dividers.thickness
            rows.append((f"{way} {i + 1}", origin, show(start), show(end)))
    return Table(
        key="divider_places",
        title="Where the dividers stand",
        headings=("Divider", "From inside of the", "Near side", "Far side"),
        rows=tuple(rows),
        working="compartments × place + dividers before it × thickness",
        source=GEOMETRY,
    )


def finger_table(fingers: Fingers, shop: Shop) -> Table:
    """A story stick in numbers: every mark up the corner."""
    show = Book(shop).show
    width = fingers.width
    return Table(
        key="finger_marks",
        title="Fingers from the lower edge up",
        headings=("Finger", "From", "To", "Wood of the"),
        rows=tuple(
            (
                str(i + 1),
                show(width * i),
                show(width * (i + 1)),
                "ends" if i % 2 else "sides",
            )
            for i in range(fingers.count)
        ),
        working="finger width × its place",
        source=GEOMETRY,
    )
