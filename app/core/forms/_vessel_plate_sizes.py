"""Sizes of the base and the lid, each with its working."""

from __future__ import annotations

from app.core import geometry
from app.core.forms._book import TRADE, Book
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_plate import Plate
from app.core.size import Size


def base_sizes(vessel: Vessel, book: Book) -> list[Size]:
    """The base: across, side, gauge, mark and blank."""
    show, plate = book.show, vessel.plate("base")
    reaches = f"{show(vessel.groove_depth)} - {show(vessel.clearance)}"
    housed = (
        "inside across the flats and twice what reaches in (depth less room)",
        f"{show(vessel.inside_inscribed)} + 2 × ({reaches})",
    )
    flush = ("flush with the outside across the flats", show(vessel.outside_inscribed))
    return [
        book.length(
            "base_inscribed",
            "Base, across the flats",
            vessel.base_inscribed,
            *(housed if vessel.housed else flush),
        ),
        *_cut(plate, book),
    ]


def lid_sizes(vessel: Vessel, book: Book) -> list[Size]:
    """The lid and what drops inside the walls."""
    show, lid = book.show, vessel.lid
    plate = vessel.plate("lid")
    found = [
        book.length(
            "lid_inscribed",
            "Lid, across the flats",
            vessel.lid_inscribed,
            "outside across the flats and twice what it stands out",
            f"{show(vessel.outside_inscribed)} + 2 × {show(lid.overhang)}",
        ),
        *_cut(plate, book),
        book.length(
            "plug_inscribed",
            "What drops inside, across the flats",
            vessel.plug_inscribed,
            "inside across the flats less the room at both flats",
            f"{show(vessel.inside_inscribed)} - 2 × {show(lid.room)}",
        ),
    ]
    if lid.kind == "plug":
        return found + _cut(vessel.plate("plug"), book)
    rebate = book.length(
        "lid_rebate_width",
        "Rebate round the underside of the lid",
        vessel.lid_rebate,
        "half of what the lid is wider than what drops inside",
        f"({show(vessel.lid_inscribed)} - {show(vessel.plug_inscribed)}) / 2",
    )
    return [*found, rebate]


def _cut(plate: Plate, book: Book) -> list[Size]:
    """How a plate is cut from its blank."""
    key, name, show = plate.key, plate.name, book.show
    across = f"{name.lower()} across the flats"
    part = f"180°/{plate.sides}"
    return [
        book.length(
            f"{key}_side",
            f"{name} side",
            plate.side,
            f"{across} times tan({part})",
            f"{show(plate.inscribed)} × tan({part})",
        ),
        _gauge(plate, book),
        book.length(
            f"{key}_mark",
            f"Mark for the {name.lower()}, along the gauge from the blade's near face",
            plate.side,
            f"the {name.lower()} side: where the finished corner stands",
            show(plate.side),
        ),
        _blank(plate, book),
    ]


def _gauge(plate: Plate, book: Book) -> Size:
    sides = plate.sides
    return book.angle(
        f"{plate.key}_gauge_angle",
        f"Mitre gauge for the {plate.name.lower()}, from a square crosscut",
        geometry.polygon_gauge(sides),
        "difference between 90° and 360° divided by the sides, "
        "a finished side on the gauge's fence",
        f"90° - 360° / {sides}" if sides >= 4 else f"360° / {sides} - 90°",
    )


def _blank(plate: Plate, book: Book) -> Size:
    name, show = plate.name.lower(), book.show
    formula = (
        f"the more of 1 1/4 times the {name} across the flats, and its widest reach "
        f"with 1/2 in (12.7 mm) to cut it free; up to the next {show(plate.step)}"
    )
    values = f"1.25 × {show(plate.inscribed)}"
    if plate.blank > plate.by_share:
        values = f"{show(plate.reach)} + 1/2 in"
    label = f"Square blank for the {name}"
    key = f"{plate.key}_blank"
    return book.length(key, label, plate.blank, formula, values, TRADE)
