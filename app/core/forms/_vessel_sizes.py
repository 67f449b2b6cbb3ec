"""The straight vessel's sizes, each with its working."""

from __future__ import annotations

from app.core import closing, geometry
from app.core.forms._book import Book
from app.core.forms._panel_tables import panel_sizes
from app.core.forms._spline_work import spline_sizes
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_plate_sizes import base_sizes, lid_sizes
from app.core.shop import Shop
from app.core.size import Size


def sizes(vessel: Vessel, shop: Shop) -> tuple[Size, ...]:
    """Every size of the vessel, in the order they are used."""
    book = VesselBook(vessel, shop)
    found = [*_angles(book), *_across(book), *_walls(book)]
    if vessel.has_base:
        found += base_sizes(vessel, book)
    found.append(_inside_volume(book))
    if vessel.has_lid:
        found += lid_sizes(vessel, book)
    if vessel.overall_height != vessel.height:
        found.append(_overall(book))
    if vessel.splines:
        height = vessel.height
        found += spline_sizes(vessel.splines, vessel.spline_share, height, shop)
    gaps = closing.sizes(
        vessel.outside_side,
        vessel.sides,
        vessel.widest_gap,
        vessel.width_spread,
        shop,
    )
    return (*found, *gaps)


LABELS = {
    "outside_side": "Outside side",
    "outside_inscribed": "Outside, across the flats",
    "outside_circumscribed": "Outside, through the corners",
    "inside_inscribed": "Inside, across the flats",
}


class VesselBook(Book):
    """Writes a vessel's sizes down."""

    def __init__(self, vessel: Vessel, shop: Shop) -> None:
        super().__init__(shop)
        self.vessel = vessel
        self.part = f"180°/{vessel.sides}"


def _angles(book: VesselBook) -> list[Size]:
    sides = book.vessel.sides
    bevel = geometry.edge_bevel(sides)
    inside = geometry.interior_angle(sides)
    return [
        book.angle(
            "edge_bevel",
            "Bevel on each edge, from a vertical blade",
            bevel,
            "180° divided by the number of sides",
            f"180° / {sides}",
        ),
        book.angle(
            "interior_angle",
            "Angle inside each corner",
            inside,
            "180° less twice the bevel",
            f"180° - 2 × {bevel}",
        ),
    ]


def _across(book: VesselBook) -> list[Size]:
    vessel, show, part = book.vessel, book.show, book.part
    side, flats = show(vessel.outside_side), show(vessel.outside_inscribed)
    inside = (
        "outside across the flats less two walls",
        f"{flats} - 2 × {show(vessel.wall)}",
    )
    if vessel.given == "inside_volume":
        inside = _from_volume(book)
    ways = {
        "outside_side": (
            f"across the flats times tan({part})",
            f"{flats} × tan({part})",
        ),
        "outside_inscribed": (
            f"outside side divided by tan({part})",
            f"{side} / tan({part})",
        ),
        "outside_circumscribed": (
            f"outside side divided by sin({part})",
            f"{side} / sin({part})",
        ),
        "inside_inscribed": inside,
    }
    if vessel.given.startswith("inside"):
        wall = f"{show(vessel.inside_inscribed)} + 2 × {show(vessel.wall)}"
        ways["outside_inscribed"] = ("inside across the flats and two walls", wall)
    ways[vessel.given] = ("as given", "")
    found = [
        book.length(key, label, getattr(vessel, key), *ways[key])
        for key, label in LABELS.items()
    ]
    inside_side = book.length(
        "inside_side",
        "Inside side",
        vessel.inside_side,
        f"inside across the flats times tan({part})",
        f"{show(vessel.inside_inscribed)} × tan({part})",
    )
    return [*found[:3], *_check(book), inside_side, found[3]]


def _check(book: VesselBook) -> list[Size]:
    """What an odd count of sides can be measured by, glued up."""
    vessel, show = book.vessel, book.show
    if vessel.sides % 2 == 0:
        return []
    flats, around = vessel.outside_inscribed, vessel.outside_circumscribed
    return [
        book.length(
            "flat_to_corner",
            "Outside, from a side to the corner across",
            vessel.flat_to_corner,
            "half of the sizes across the flats and through the corners, added",
            f"({show(flats)} + {show(around)}) / 2",
        )
    ]


def _from_volume(book: VesselBook) -> tuple[str, str]:
    """How the width follows from what the vessel is to hold."""
    deep, shown = book.vessel.inside_height, _volume(book)
    return (
        (
            "2 × the root of what it holds / (sides × tan of the bevel × height "
            "above the base)"
        ),
        (
            f"2 × √({shown.text(book.shop.display)} / ({book.vessel.sides} × "
            f"tan({book.part}) × {book.show(deep)}))"
        ),
    )


def _walls(book: VesselBook) -> list[Size]:
    vessel, show, sides = book.vessel, book.show, book.vessel.sides
    found = [
        book.length(
            "corner_thickness",
            "Wood at each corner",
            vessel.corner_thickness,
            f"wall divided by cos({book.part})",
            f"{show(vessel.wall)} / cos({book.part})",
        ),
        book.length(
            "strip_width",
            "Strip width, finished",
            vessel.strip_width,
            "height of the walls divided by the rows",
            f"{show(vessel.height)} / {len(vessel.widths)}",
        ),
        book.length(
            "panel_length",
            "Length for all walls, before trim",
            vessel.panel_length,
            "sides times the outside side, and a kerf between them",
            f"{sides} × {show(vessel.outside_side)} + "
            f"{sides - 1} × {show(vessel.kerf)}",
        ),
    ]
    if vessel.panel_count > 1 or vessel.cut.spares:
        found.append(_each_panel(book))
    if vessel.ways:
        found += panel_sizes(vessel.ways, vessel.cut, book.shop)
    return found


def _each_panel(book: VesselBook) -> Size:
    vessel, walls = book.vessel, book.vessel.longest_panel.each
    count = vessel.panel_count
    label = f"Longest of {count} panels" if count > 1 else "Panel with its spares"
    return book.length(
        "each_panel_length",
        f"{label}, before trim",
        vessel.each_panel_length,
        "walls from one panel times the outside side, and a kerf between them",
        f"{walls} × {book.show(vessel.outside_side)} + "
        f"{walls - 1} × {book.show(vessel.kerf)}",
    )


def _inside_volume(book: VesselBook) -> Size:
    if book.vessel.inside_volume is None:
        return _volume(book)
    return book.volume(
        "inside_volume", _volume(book).label, book.vessel.inside_volume, "as given"
    )


def _volume(book: VesselBook) -> Size:
    vessel, deep = book.vessel, book.vessel.inside_height
    area = geometry.area_of_inscribed(vessel.inside_inscribed, vessel.sides)
    what = "above the base" if vessel.has_base else "with no base"
    return book.volume(
        "inside_volume",
        f"Room inside, {what}" + (", lid off" if vessel.has_lid else ""),
        round(area * deep.nm),
        "inside area (sides × (across the flats / 2)² × tan of the bevel) times the "
        "height above the base",
        f"{vessel.sides} × ({book.show(vessel.inside_inscribed)} / 2)² × "
        f"tan({book.part}) × {book.show(deep)}",
    )


def _overall(book: VesselBook) -> Size:
    vessel, show = book.vessel, book.show
    parts = [("the walls", vessel.height)]
    if vessel.lift:
        parts.append(("the base under them", vessel.lift))
    if vessel.has_lid:
        parts.append(("the lid on them", vessel.lid.thickness))
    return book.length(
        "overall_height",
        "Height over all",
        vessel.overall_height,
        " and ".join(name for name, _ in parts),
        " + ".join(show(length) for _, length in parts),
    )
