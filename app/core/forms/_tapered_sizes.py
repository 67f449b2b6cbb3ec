"""The tapered vessel's sizes, each with its working."""

from __future__ import annotations

from app.core import closing, compound, geometry
from app.core.angle import Angle
from app.core.forms._book import Book
from app.core.forms._panel_tables import panel_sizes
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_base_sizes import base_sizes, inside_sizes
from app.core.forms._tapered_face_sizes import across_sizes, face_sizes
from app.core.forms._tapered_inputs import Inputs
from app.core.shop import Shop
from app.core.size import Size

CORNER = "solid geometry of a corner between two leaning faces"


def sizes(vessel: Tapered, inputs: Inputs, shop: Shop) -> tuple[Size, ...]:
    """Every size of the vessel, in the order they are used."""
    book = Book(shop)
    found = [*_angles(vessel, book), *face_sizes(vessel, book)]
    found += [*across_sizes(vessel, book), *_boards(vessel, book)]
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
    return [
        _slope(vessel, book),
        *_machine_angles(vessel, book),
        *_bench_angles(vessel, book),
        *_edge_bevel(vessel, book),
    ]


def _slope(vessel: Tapered, book: Book) -> Size:
    top, bottom = book.show(vessel.top), book.show(vessel.bottom)
    rises, values = "the height", book.show(vessel.height)
    if not vessel.level:
        rises = "the height less wall × sin(slope), since the square edges stand over"
        values = f"({values} - {book.show(vessel.wall)} × sin({vessel.slope}))"
    return book.angle(
        "slope_from_vertical",
        f"Slope of the sides, from vertical, {way_of(vessel)}",
        vessel.slope,
        "its tangent is half the difference across the flats, top and bottom, "
        f"divided by {rises}",
        f"atan(abs({top} - {bottom}) / 2 / {values})",
    )


def _machine_angles(vessel: Tapered, book: Book) -> list[Size]:
    slope, part = vessel.slope, f"180°/{vessel.sides}"
    return [
        book.angle(
            "blade_tilt",
            "Blade tilt for the corners, from vertical, a face flat on the table",
            vessel.tilt,
            "its sine is cos(slope) × sin(180° / sides)",
            f"asin(cos({slope}) × sin({part}))",
            CORNER,
        ),
        book.angle(
            "gauge_angle",
            "Mitre gauge for the corners, from a square crosscut, a face flat on the "
            "table",
            vessel.gauge,
            "its tangent is sin(slope) × tan(180° / sides)",
            f"atan(sin({slope}) × tan({part}))",
            CORNER,
        ),
    ]


def _bench_angles(vessel: Tapered, book: Book) -> list[Size]:
    """What a bevel gauge is set to, and a mitre box."""
    sides, tilt = vessel.sides, vessel.tilt
    return [
        book.angle(
            "dihedral_angle",
            "Angle between two faces inside, square to their corner",
            compound.dihedral(sides, vessel.slope),
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


def _boards(vessel: Tapered, book: Book) -> list[Size]:
    found = [_strip_width(vessel, book)] if vessel.glued else []
    found.append(_board_length(vessel, book))
    return [*found, _saved(vessel, book)] if vessel.head_to_tail else found


def _strip_width(vessel: Tapered, book: Book) -> Size:
    return book.length(
        "strip_width",
        "Strip width, finished",
        vessel.row_widths[0],
        "whole width of a wall divided by the rows",
        f"{book.show(vessel.across)} / {len(vessel.row_widths)}",
    )


def _board_length(vessel: Tapered, book: Book) -> Size:
    show, count = book.show, vessel.sides + vessel.spares
    long, kerf = show(vessel.face_long), show(vessel.along_kerf)
    told = "walls times their longer edge, and a kerf between them"
    values = f"{count} × {long} + {count - 1} × {kerf}"
    if vessel.head_to_tail:
        told = (
            "one wall's longer edge, and for every further wall its mean length and "
            "the kerf as it runs along the board: kerf / (cos(tilt) × cos(gauge))"
        )
        values = f"{long} + {count - 1} × ({show(vessel.pitch)} + {kerf})"
    return book.length(
        "board_length",
        f"Length of one board for all walls, {way_of_cutting(vessel)}, before trim",
        vessel.run(count),
        told,
        values,
    )


def _saved(vessel: Tapered, book: Book) -> Size:
    count = vessel.sides + vessel.spares
    one_by_one = vessel.face_long * count + vessel.kerf * (count - 1)
    return book.length(
        "board_saved",
        "Board saved by cutting head to tail",
        one_by_one - vessel.run(count),
        "walls side by side the same way up, less the length head to tail",
        f"{book.show(one_by_one)} - {book.show(vessel.run(count))}",
    )


def way_of_cutting(vessel: Tapered) -> str:
    """In words how the walls lie on their board."""
    return "head to tail" if vessel.head_to_tail else "one by one"
