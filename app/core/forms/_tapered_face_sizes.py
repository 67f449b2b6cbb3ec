"""A tapered wall's faces and what is across them: sizes, each with its working."""

from __future__ import annotations

import math

from app.core import geometry
from app.core.forms._book import Book
from app.core.forms._tapered import Tapered
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Size
from app.core.table import Table


def face_sizes(vessel: Tapered, book: Book) -> list[Size]:
    """Both faces, the corner, and what the level edges add."""
    rise = book.show(Length.nearest(vessel.rise))
    slant = book.length(
        "slant_height",
        "Outer face along the slope; the inner face is as long",
        vessel.slant,
        "rise of the face divided by cos(slope)",
        f"{rise} / cos({vessel.slope})",
    )
    return [
        *_outer(vessel, book),
        slant,
        *_inner(vessel, book),
        _corner(vessel, book),
        *_level(vessel, book),
    ]


def _outer(vessel: Tapered, book: Book) -> list[Size]:
    return [
        book.length(
            f"face_{end}",
            f"Outer face, {edge} edge",
            value,
            "outside across the flats times tan(180° / sides)",
            f"{book.show(across)} × tan(180°/{vessel.sides})",
        )
        for end, edge, value, across in (
            ("top", "upper", vessel.face_top, vessel.top),
            ("bottom", "lower", vessel.face_bottom, vessel.bottom),
        )
    ]


def _inner(vessel: Tapered, book: Book) -> list[Size]:
    less = "wall / cos(slope)" if vessel.level else "wall × cos(slope)"
    taken = book.show(Length.nearest(vessel.inset))
    return [
        book.length(
            f"inner_{end}",
            f"Inner face, {edge} edge",
            value,
            f"(outside across the flats less 2 × {less}) times tan(180° / sides)",
            f"({book.show(across)} - 2 × {taken}) × tan(180°/{vessel.sides})",
        )
        for end, edge, value, across in (
            ("top", "upper", vessel.inner_top, vessel.top),
            ("bottom", "lower", vessel.inner_bottom, vessel.bottom),
        )
    ]


def _corner(vessel: Tapered, book: Book) -> Size:
    return book.length(
        "corner_length",
        "Outer corner, from end to end",
        Length.nearest(vessel.slant.nm / math.cos(vessel.gauge.radians)),
        "slant height divided by cos(gauge angle)",
        f"{book.show(vessel.slant)} / cos({vessel.gauge})",
    )


def _level(vessel: Tapered, book: Book) -> list[Size]:
    if not vessel.bevelled:
        return []
    slant, wall = book.show(vessel.slant), book.show(vessel.wall)
    return [
        book.length(
            "wall_width",
            "Whole width of a wall, both edges bevelled",
            vessel.across,
            "slant height and what the bevel reaches beyond: wall × tan(slope)",
            f"{slant} + {wall} × tan({vessel.slope})",
        ),
        book.length(
            "rim_thickness",
            "Wall as it shows on the level edge",
            Length.nearest(vessel.inset),
            "wall divided by cos(slope)",
            f"{wall} / cos({vessel.slope})",
        ),
    ]


def across_sizes(vessel: Tapered, book: Book) -> list[Size]:
    """Through the corners outside and across the flats inside, at either end."""
    ends = (
        ("top", vessel.top, vessel.inside_top),
        ("bottom", vessel.bottom, vessel.inside_bottom),
    )
    return [size for end in ends for size in _end(vessel, book, *end)]


def _end(
    vessel: Tapered, book: Book, end: str, outer: Length, inner: Length
) -> list[Size]:
    taken = book.show(Length.nearest(vessel.inset))
    return [
        book.length(
            f"{end}_circumscribed",
            f"{end.capitalize()}, outside through the corners",
            Length.nearest(outer.nm / geometry.cos(vessel.sides)),
            "across the flats divided by cos(180° / sides)",
            f"{book.show(outer)} / cos(180°/{vessel.sides})",
        ),
        book.length(
            f"{end}_inside_inscribed",
            f"{end.capitalize()}, inside across the flats",
            inner,
            "outside across the flats less both walls as they lie there",
            f"{book.show(outer)} - 2 × {taken}",
        ),
    ]


def faces_table(vessel: Tapered, shop: Shop) -> Table:
    """Both faces of a wall side by side: what is marked out and what is checked."""
    show = Book(shop).show
    faces = (
        ("Outer face", vessel.face_top, vessel.face_bottom),
        ("Inner face", vessel.inner_top, vessel.inner_bottom),
    )
    return Table(
        key="faces",
        title="Both faces of a wall",
        headings=("Face", "Upper edge", "Lower edge", "Along the slope"),
        rows=tuple(
            (name, show(top), show(bottom), show(vessel.slant))
            for name, top, bottom in faces
        ),
        working="an edge is the distance across the flats there times "
        f"tan(180°/{vessel.sides})",
    )
