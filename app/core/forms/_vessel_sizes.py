"""The straight vessel's sizes, each with its working."""

from __future__ import annotations

from fractions import Fraction

from app.core import geometry
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Kind, Size

TRADE = "common practice, no source"


def sizes(vessel: Vessel, shop: Shop) -> tuple[Size, ...]:
    """Every size of the vessel, in the order they are used."""
    book = _Book(vessel, shop)
    found = [*_angles(book), *_across(book), *_walls(book)]
    if vessel.has_base:
        found += _base(book)
    found.append(_inside_volume(book))
    if vessel.splines:
        found += _splines(book)
    return (*found, _gap(book))


class _Book:
    """Writes sizes down with their numbers in the shop's display."""

    def __init__(self, vessel: Vessel, shop: Shop) -> None:
        self.vessel = vessel
        self.shop = shop
        self.part = f"180°/{vessel.sides}"

    def show(self, length: Length) -> str:
        return shop_text(length, self.shop)

    def length(
        self,
        key: str,
        label: str,
        value: Length,
        formula: str,
        values: str,
        source: str = "plane geometry",
    ) -> Size:
        return Size(key, label, Kind.LENGTH, value, formula, values, source)

    def angle(
        self, key: str, label: str, value: Angle, formula: str, values: str
    ) -> Size:
        return Size(key, label, Kind.ANGLE, value, formula, values)


def _angles(book: _Book) -> list[Size]:
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


def _across(book: _Book) -> list[Size]:
    vessel, show, part = book.vessel, book.show, book.part
    side, flats = show(vessel.outside_side), show(vessel.outside_inscribed)
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
        "inside_inscribed": (
            "outside across the flats less two walls",
            f"{flats} - 2 × {show(vessel.wall)}",
        ),
    }
    ways[vessel.given] = ("as given", "")
    labels = {
        "outside_side": "Outside side",
        "outside_inscribed": "Outside, across the flats",
        "outside_circumscribed": "Outside, through the corners",
        "inside_inscribed": "Inside, across the flats",
    }
    found = [
        book.length(key, label, getattr(vessel, key), *ways[key])
        for key, label in labels.items()
    ]
    inside_side = book.length(
        "inside_side",
        "Inside side",
        vessel.inside_side,
        f"inside across the flats times tan({part})",
        f"{show(vessel.inside_inscribed)} × tan({part})",
    )
    return [*found[:3], inside_side, found[3]]


def _walls(book: _Book) -> list[Size]:
    vessel, show = book.vessel, book.show
    sides = vessel.sides
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
            f"{show(vessel.height)} / {len(vessel.rows)}",
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
    if vessel.panels > 1:
        found.append(_each_panel(book))
    return found


def _each_panel(book: _Book) -> Size:
    vessel, walls = book.vessel, book.vessel.walls_per_panel
    return book.length(
        "each_panel_length",
        f"Length of each of {vessel.panels} panels, before trim",
        vessel.each_panel_length,
        "walls from one panel times the outside side, and a kerf between them",
        f"{walls} × {book.show(vessel.outside_side)} + "
        f"{walls - 1} × {book.show(vessel.kerf)}",
    )


def _base(book: _Book) -> list[Size]:
    vessel, show = book.vessel, book.show
    reaches = f"{show(vessel.groove_depth)} - {show(vessel.clearance)}"
    housed = (
        "inside across the flats and twice what reaches in (depth less room)",
        f"{show(vessel.inside_inscribed)} + 2 × ({reaches})",
    )
    flush = ("flush with the outside across the flats", show(vessel.outside_inscribed))
    side = (
        f"base across the flats times tan({book.part})",
        f"{show(vessel.base_inscribed)} × tan({book.part})",
    )
    return [
        book.length(
            "base_inscribed",
            "Base, across the flats",
            vessel.base_inscribed,
            *(housed if vessel.housed else flush),
        ),
        book.length("base_side", "Base side", vessel.base_side, *side),
        _gauge(book),
        book.length(
            "base_mark",
            "Mark for the base, along the gauge from the blade's near face",
            vessel.base_side,
            "the base side: where the finished corner stands",
            show(vessel.base_side),
        ),
        _blank(book),
    ]


def base_gauge(sides: int) -> Angle:
    """The mitre gauge, from square, with a finished side on its fence."""
    return Angle(abs(90 - Fraction(360, sides)))


def _gauge(book: _Book) -> Size:
    sides = book.vessel.sides
    return book.angle(
        "base_gauge_angle",
        "Mitre gauge for the base, from a square crosscut",
        base_gauge(sides),
        "difference between 90° and 360° divided by the sides, "
        "a finished side on the gauge's fence",
        f"90° - 360° / {sides}" if sides >= 4 else f"360° / {sides} - 90°",
    )


def _blank(book: _Book) -> Size:
    vessel, step = book.vessel, book.show(book.vessel.step)
    formula = (
        "the more of 1 1/4 times the base across the flats, and its widest reach with "
        f"1/2 in (12.7 mm) to cut it free; up to the next {step}"
    )
    values = f"1.25 × {book.show(vessel.base_inscribed)}"
    if vessel.base_blank > vessel.rough(vessel.base_inscribed * Fraction(5, 4)):
        values = f"{book.show(vessel.base_reach)} + 1/2 in"
    label = "Square blank for the base"
    return book.length("base_blank", label, vessel.base_blank, formula, values, TRADE)


def _inside_volume(book: _Book) -> Size:
    vessel, deep = book.vessel, book.vessel.inside_height
    area = geometry.area_of_inscribed(vessel.inside_inscribed, vessel.sides)
    what = "above the base" if vessel.has_base else "with no base"
    return Size(
        "inside_volume",
        f"Room inside, {what}",
        Kind.VOLUME,
        round(area * deep.nm),
        "inside area (sides × (across the flats / 2)² × tan of the bevel) times the "
        "height above the base",
        f"{vessel.sides} × ({book.show(vessel.inside_inscribed)} / 2)² × "
        f"tan({book.part}) × {book.show(deep)}",
        unit="nm3",
    )


def _splines(book: _Book) -> list[Size]:
    vessel, show = book.vessel, book.show
    return [
        book.length(
            "spline_slot_depth",
            "Spline slot depth, from the corner towards the middle",
            vessel.spline_depth,
            "share of the wood at the corner",
            f"{float(vessel.spline_share):g} × {show(vessel.corner_thickness)}",
        ),
        book.length(
            "spline_visible_length",
            "Spline as it shows on each face",
            vessel.spline_visible,
            f"slot depth divided by sin({book.part})",
            f"{show(vessel.spline_depth)} / sin({book.part})",
        ),
    ]


def _gap(book: _Book) -> Size:
    sides, side = book.vessel.sides, book.show(book.vessel.outside_side)
    return book.length(
        "closing_gap_at_0_1_degree",
        "Gap at the last joint, were every bevel off by 0.1°",
        book.vessel.closing_gap,
        "all bevels off the same way, the other joints tight, at the outer corner: "
        "outside side × sin(sides × 0.1°) / sin(bevel - 0.1°)",
        f"{side} × sin({sides} × 0.1°) / sin({book.part} - 0.1°)",
    )
