"""The tapered vessel's sizes, each with its working."""

from __future__ import annotations

import math
from fractions import Fraction

from app.core import closing, compound, geometry
from app.core.angle import Angle
from app.core.forms._book import Book
from app.core.forms._panel_tables import panel_sizes
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_base_sizes import base_sizes, inside_sizes
from app.core.forms._tapered_inputs import Inputs
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Size
from app.core.table import Table

CORNER = "solid geometry of a corner between two leaning faces"


def sizes(vessel: Tapered, inputs: Inputs, shop: Shop) -> tuple[Size, ...]:
    """Every size of the vessel, in the order they are used."""
    book = Book(shop)
    found = [*_angles(vessel, book), *_faces(vessel, book), *_across(vessel, book)]
    found += _boards(vessel, book)
    if vessel.glued:
        found += panel_sizes(vessel.ways, vessel.cut, shop)
    if vessel.has_base:
        found += base_sizes(vessel, book)
    found += inside_sizes(vessel, book)
    last = closing.sizes(
        vessel.face_long,
        vessel.sides,
        inputs.widest_gap,
        inputs.width_spread,
        shop,
        bevel=vessel.tilt,
    )
    return (*found, *last)


def way_of(vessel: Tapered) -> str:
    """In words which way the sides lean."""
    if not vessel.lean.degrees:
        return "upright"
    return "splaying out" if vessel.out else "leaning in"


def _angles(vessel: Tapered, book: Book) -> list[Size]:
    sides, slope, part = vessel.sides, vessel.slope, f"180°/{vessel.sides}"
    top, bottom = book.show(vessel.top), book.show(vessel.bottom)
    rises, values = "the height", book.show(vessel.height)
    if not vessel.level:
        rises = "the height less wall × sin(slope), since the square edges stand over"
        values = f"({values} - {book.show(vessel.wall)} × sin({slope}))"
    tilt, gauge = vessel.tilt, vessel.gauge
    found = [
        book.angle(
            "slope_from_vertical",
            f"Slope of the sides, from vertical, {way_of(vessel)}",
            slope,
            "its tangent is half the difference across the flats, top and bottom, "
            f"divided by {rises}",
            f"atan(abs({top} - {bottom}) / 2 / {values})",
        ),
        book.angle(
            "blade_tilt",
            "Blade tilt for the corners, from vertical, a face flat on the table",
            tilt,
            "its sine is cos(slope) × sin(180° / sides)",
            f"asin(cos({slope}) × sin({part}))",
            CORNER,
        ),
        book.angle(
            "gauge_angle",
            "Mitre gauge for the corners, from a square crosscut, a face flat on the "
            "table",
            gauge,
            "its tangent is sin(slope) × tan(180° / sides)",
            f"atan(sin({slope}) × tan({part}))",
            CORNER,
        ),
        book.angle(
            "dihedral_angle",
            "Angle between two faces inside, square to their corner",
            compound.dihedral(sides, slope),
            "180° less twice the blade tilt",
            f"180° - 2 × {tilt}",
            CORNER,
        ),
        book.angle(
            "mitre_bevel",
            "Bevel gauge for a corner's edge, from the outer face",
            Angle(90 - tilt.degrees),
            "90° less the blade tilt: for planing to, and for checking",
            f"90° - {tilt}",
            CORNER,
        ),
        book.angle(
            "upright_gauge",
            "Gauge for sawing a wall propped at its slope, the blade upright",
            geometry.edge_bevel(sides),
            "180° divided by the sides: as the wall stands its corner planes are "
            "upright",
            f"180° / {sides}",
        ),
    ]
    return [*found, *_edge_bevel(vessel, book)]


def _edge_bevel(vessel: Tapered, book: Book) -> list[Size]:
    if not vessel.bevelled:
        return []
    return [
        book.angle(
            "rim_bevel",
            "Bevel on the top and bottom edge, from square to the face",
            vessel.slope,
            "the slope: the edges then lie level",
            str(vessel.slope),
        )
    ]


def _faces(vessel: Tapered, book: Book) -> list[Size]:
    show, part, slope = book.show, f"tan(180°/{vessel.sides})", vessel.slope
    rise = show(Length.nearest(vessel.rise))
    inner = "wall / cos(slope)" if vessel.level else "wall × cos(slope)"
    taken = show(Length.nearest(_inset(vessel)))
    found = [
        book.length(
            key,
            label,
            value,
            "outside across the flats times tan(180° / sides)",
            f"{show(across)} × {part}",
        )
        for key, label, value, across in (
            ("face_top", "Outer face, upper edge", vessel.face_top, vessel.top),
            (
                "face_bottom",
                "Outer face, lower edge",
                vessel.face_bottom,
                vessel.bottom,
            ),
        )
    ]
    found.append(
        book.length(
            "slant_height",
            "Outer face along the slope; the inner face is as long",
            vessel.slant,
            "rise of the face divided by cos(slope)",
            f"{rise} / cos({slope})",
        )
    )
    found += [
        book.length(
            key,
            label,
            value,
            f"(outside across the flats less 2 × {inner}) times tan(180° / sides)",
            f"({show(across)} - 2 × {taken}) × {part}",
        )
        for key, label, value, across in (
            ("inner_top", "Inner face, upper edge", vessel.inner_top, vessel.top),
            (
                "inner_bottom",
                "Inner face, lower edge",
                vessel.inner_bottom,
                vessel.bottom,
            ),
        )
    ]
    return [*found, *_sections(vessel, book)]


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


def _inset(vessel: Tapered) -> Fraction:
    """How much nearer the axis an inner edge is than its outer one, nm."""
    wall = vessel.wall.nm
    return wall / vessel.cos if vessel.level else wall * vessel.cos


def _sections(vessel: Tapered, book: Book) -> list[Size]:
    show, slope = book.show, vessel.slope
    slant, wall = show(vessel.slant), show(vessel.wall)
    edge = Length.nearest(vessel.slant.nm / math.cos(vessel.gauge.radians))
    found = [
        book.length(
            "corner_length",
            "Outer corner, from end to end",
            edge,
            "slant height divided by cos(gauge angle)",
            f"{slant} / cos({vessel.gauge})",
        )
    ]
    if vessel.bevelled:
        found += [
            book.length(
                "wall_width",
                "Whole width of a wall, both edges bevelled",
                vessel.across,
                "slant height and what the bevel reaches beyond: wall × tan(slope)",
                f"{slant} + {wall} × tan({slope})",
            ),
            book.length(
                "rim_thickness",
                "Wall as it shows on the level edge",
                Length.nearest(_inset(vessel)),
                "wall divided by cos(slope)",
                f"{wall} / cos({slope})",
            ),
        ]
    return found


def _across(vessel: Tapered, book: Book) -> list[Size]:
    show, taken = book.show, book.show(Length.nearest(_inset(vessel)))
    found = []
    for end, outer, inner in (
        ("top", vessel.top, vessel.inside_top),
        ("bottom", vessel.bottom, vessel.inside_bottom),
    ):
        around = Length.nearest(outer.nm / geometry.cos(vessel.sides))
        found += [
            book.length(
                f"{end}_circumscribed",
                f"{end.capitalize()}, outside through the corners",
                around,
                "across the flats divided by cos(180° / sides)",
                f"{show(outer)} / cos(180°/{vessel.sides})",
            ),
            book.length(
                f"{end}_inside_inscribed",
                f"{end.capitalize()}, inside across the flats",
                inner,
                "outside across the flats less both walls as they lie there",
                f"{show(outer)} - 2 × {taken}",
            ),
        ]
    return found


def _boards(vessel: Tapered, book: Book) -> list[Size]:
    show, count = book.show, vessel.sides + vessel.spares
    long, mean = show(vessel.face_long), show(Length.nearest(vessel.mean_length))
    kerf = show(vessel.along_kerf)
    found = []
    if vessel.glued:
        found.append(
            book.length(
                "strip_width",
                "Strip width, finished",
                vessel.row_widths[0],
                "whole width of a wall divided by the rows",
                f"{show(vessel.across)} / {len(vessel.row_widths)}",
            )
        )
    if vessel.head_to_tail:
        told = (
            "one wall's longer edge, and for every further wall its mean length and "
            "the kerf as it runs along the board: kerf / (cos(tilt) × cos(gauge))"
        )
        values = f"{long} + {count - 1} × ({mean} + {kerf})"
    else:
        told = "walls times their longer edge, and a kerf between them"
        values = f"{count} × {long} + {count - 1} × {kerf}"
    one_by_one = vessel.face_long * count + vessel.kerf * (count - 1)
    found.append(
        book.length(
            "board_length",
            f"Length of one board for all walls, {way_of_cutting(vessel)}, before trim",
            vessel.run(count),
            told,
            values,
        )
    )
    if vessel.head_to_tail:
        found.append(
            book.length(
                "board_saved",
                "Board saved by cutting head to tail",
                one_by_one - vessel.run(count),
                "walls side by side the same way up, less the length head to tail",
                f"{show(one_by_one)} - {show(vessel.run(count))}",
            )
        )
    return found


def way_of_cutting(vessel: Tapered) -> str:
    """In words how the walls lie on their board."""
    return "head to tail" if vessel.head_to_tail else "one by one"
