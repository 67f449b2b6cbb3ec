"""The tapered vessel's base and its inside: their sizes, each with its working."""

from __future__ import annotations

from fractions import Fraction

from app.core import geometry
from app.core.forms._book import TRADE, Book
from app.core.forms._tapered import Tapered
from app.core.length import Length
from app.core.size import Kind, Size

ML_NM3 = 10**21


def base_sizes(vessel: Tapered, book: Book) -> list[Size]:
    show, sides = book.show, vessel.sides
    below, above = vessel.base_faces
    names = ("base_below_inscribed", "lower"), ("base_above_inscribed", "upper")
    found = [
        book.length(
            key, f"Base, {word} face across the flats", value, *_fits(vessel, book)
        )
        for (key, word), value in zip(names, (below, above), strict=True)
    ]
    side = book.length(
        "base_side",
        "Base side, on the larger face",
        vessel.base_side,
        "larger face across the flats times tan(180° / sides)",
        f"{show(vessel.base_inscribed)} × tan(180°/{sides})",
    )
    found += [
        book.angle(
            "base_edge_bevel",
            "Bevel on the base's edges, from square",
            vessel.slope,
            "the slope of the sides",
            str(vessel.slope),
        ),
        side,
        book.angle(
            "base_gauge_angle",
            "Mitre gauge for the base, from a square crosscut",
            geometry.polygon_gauge(sides),
            "difference between 90° and 360° divided by the sides, a finished side on "
            "the gauge's fence",
            f"90° - 360° / {sides}" if sides >= 4 else f"360° / {sides} - 90°",
        ),
        book.length(
            "base_mark",
            "Mark for the base, along the gauge from the blade's near face",
            vessel.base_side,
            "the larger face's side: where its finished corner stands, that face down",
            show(vessel.base_side),
        ),
        _blank(vessel, book),
    ]
    return found


def _fits(vessel: Tapered, book: Book) -> tuple[str, str]:
    show, slope = book.show, vessel.slope
    if vessel.base == "under":
        return (
            "flush with the walls' outside, the edges carrying on at their slope",
            f"{show(vessel.bottom)}, {show(vessel.base_thickness)} × tan({slope})",
        )
    words = "inside across the flats at the height of that face"
    values = (
        f"{show(vessel.inside_bottom)} at the bottom, {show(vessel.base_up)} up, "
        f"{show(vessel.base_thickness)} thick, slope {slope}"
    )
    if vessel.room:
        words += ", less twice the room"
        values += f", room {show(vessel.room)}"
    return words, values


def _blank(vessel: Tapered, book: Book) -> Size:
    show, step = book.show, book.show(vessel.step)
    formula = (
        "the more of 1 1/4 times the larger face across the flats, and its widest "
        f"reach with 1/2 in (12.7 mm) to cut it free; up to the next {step}"
    )
    values = f"1.25 × {show(vessel.base_inscribed)}"
    if vessel.base_blank > vessel.rough(vessel.base_inscribed * Fraction(5, 4)):
        values = f"{show(vessel.base_reach)} + 1/2 in"
    label = "Square blank for the base"
    return book.length("base_blank", label, vessel.base_blank, formula, values, TRADE)


def inside_volume(vessel: Tapered) -> Fraction:
    """The room inside up to the inner faces' upper edge, nm³."""
    low, high = vessel.inside_low, vessel.inside_high
    if vessel.inside_base:
        low = Fraction(vessel.base_up.nm + vessel.base_thickness.nm)
    below, above = vessel.inside_at(low), vessel.inside_at(high)
    squares = below**2 + below * above + above**2
    return vessel.sides * vessel.part * (high - low) * squares / 12


def inside_sizes(vessel: Tapered, book: Book) -> list[Size]:
    show = book.show
    low = vessel.inside_low
    if vessel.inside_base:
        low = Fraction(vessel.base_up.nm + vessel.base_thickness.nm)
    volume = inside_volume(vessel)
    what = "above the base" if vessel.has_base else "with no base"
    below = show(Length.nearest(vessel.inside_at(low)))
    return [
        book.volume(
            "inside_volume",
            f"Room inside, {what}, to the brim",
            volume,
            "a frustum: sides × tan(180° / sides) × depth × (a² + a × b + b²) / 12, "
            "with a and b the inside across the flats below and above",
            f"{vessel.sides} × tan(180°/{vessel.sides}) × "
            f"{show(Length.nearest(vessel.inside_high - low))}, a = {below}, "
            f"b = {show(vessel.inside_top)}",
        ),
        Size(
            "capacity",
            "What it holds, filled to the brim",
            Kind.VOLUME,
            volume / ML_NM3,
            "the room inside; a millilitre is a cubic centimetre",
            f"{float(volume / ML_NM3):,.4g} cm³",
            unit="ml",
        ),
    ]
