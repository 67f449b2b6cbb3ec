"""The tray's sizes, each with its working."""

from __future__ import annotations

from fractions import Fraction

from app.core import closing, geometry
from app.core.forms._book import TRADE, Book
from app.core.forms._spline_work import spline_sizes
from app.core.forms._splined import HALF
from app.core.forms._tray import Tray
from app.core.forms._tray_inputs import Inputs
from app.core.forms._tray_mouldings import Rails
from app.core.shop import Shop
from app.core.size import Group, Kind, Size


def sizes(
    tray: Tray, inputs: Inputs, laid: tuple[Rails, ...], shop: Shop
) -> tuple[Size, ...]:
    """Every size of the tray, in the order they are used."""
    book = Book(shop)
    found = [*_angles(tray, book), *_rails(tray, book), *_inside(tray, book)]
    if tray.has_panel:
        found += _panel(tray, book)
    found += _mouldings(tray, laid, shop, book)
    if tray.splines:
        share = inputs.spline_depth_share
        given = None if inputs.spline_cheek is not None else share or HALF
        found += spline_sizes(tray.splines, given, tray.rail_height, shop)
    return (*found, *_closing(tray, inputs, shop))


def _angles(tray: Tray, book: Book) -> list[Size]:
    sides = tray.sides
    return [
        book.angle(
            "gauge_angle",
            "Mitre gauge, from a square crosscut",
            tray.gauge,
            "180° divided by the number of sides",
            f"180° / {sides}",
        ),
        book.angle(
            "interior_angle",
            "Angle inside each corner",
            geometry.interior_angle(sides),
            "180° less twice the mitre",
            f"180° - 2 × {tray.gauge}",
        ),
    ]


def _rails(tray: Tray, book: Book) -> list[Size]:
    show, part = book.show, f"180°/{tray.sides}"
    if tray.four:
        long = ("the longer of length and width, outside", "")
        short = ("the shorter of length and width, outside", "")
    else:
        flats = f"{show(tray.long)} × tan({part})"
        long = short = (f"across the flats times tan({part})", flats)
    points = "outer side less twice rail width × tan(180° / sides)"

    def inner(outer: str) -> str:
        return f"{outer} - 2 × {show(tray.rail_width)} × tan({part})"

    kinds = [("long", tray.long_side, long), ("short", tray.short_side, short)]
    # Where all rails are of one length both keys say the same.
    found = [
        book.length(
            f"{kind}_side",
            f"{kind.title()} rail, long point to long point"
            if tray.oblong
            else "Rail, long point to long point",
            side,
            *working,
        )
        for kind, side, working in kinds
    ]
    for kind, side, _ in kinds if tray.oblong else kinds[:1]:
        found.append(
            book.length(
                f"{kind}_inner_side",
                f"{kind.title() + ' rail' if tray.oblong else 'Rail'}, inner corner to "
                "inner corner",
                side - tray.mitre_back * 2,
                points,
                inner(show(side)),
            )
        )
    found.append(
        book.length(
            "mitre_length",
            "Mitre, from the long point to the inner corner",
            tray.mitre_length,
            f"rail width divided by cos({part})",
            f"{show(tray.rail_width)} / cos({part})",
        )
    )
    return found


def _inside(tray: Tray, book: Book) -> list[Size]:
    show = book.show
    wide = show(tray.rail_width)
    formula = "outside less two rail widths"
    found = []
    ways = [("inside_inscribed", "Inside, across the flats", tray.long)]
    if tray.four:
        ways = [
            ("inside_length", "Length inside", tray.long),
            ("inside_width", "Width inside", tray.short),
        ]
    for key, label, across in ways:
        value = tray.inside(across)
        values = f"{show(across)} - 2 × {wide}"
        found.append(book.length(key, label, value, formula, values))
    depth = (
        "rail height less the panel and what is below it"
        if tray.has_panel
        else "rail height, with no panel"
    )
    found.append(
        book.length(
            "inside_depth",
            "Depth inside, above the panel",
            tray.inside_depth,
            depth,
            f"{show(tray.rail_height)} - {show(tray.panel_thickness)} - "
            f"{show(tray.groove_up)}"
            if tray.has_panel
            else "",
        )
    )
    return [*found, _check(tray, book)]


def _check(tray: Tray, book: Book) -> Size:
    """What proves it square, or regular, in the clamps."""
    show = book.show
    if tray.four:
        return book.length(
            "diagonal",
            "Both diagonals, outside",
            tray.diagonal,
            "square root of length squared and width squared",
            f"√({show(tray.long)}² + {show(tray.short)}²)",
        )
    if tray.sides % 2 == 0:
        return book.length(
            "across_flats",
            "Across every pair of flats, outside",
            tray.long,
            "as given",
        )
    high = geometry.extent(geometry.corners(tray.sides, tray.long_side))[1]
    return book.length(
        "flat_to_point",
        "From every side to the corner across, outside",
        high,
        f"half across the flats × (1 + 1 / cos(180°/{tray.sides}))",
        f"{show(tray.long)} / 2 × (1 + 1 / cos(180°/{tray.sides}))",
    )


def _panel(tray: Tray, book: Book) -> list[Size]:
    show = book.show
    long, wide = tray.panel_size
    formula = "inside and twice what reaches in (groove depth less room)"
    reach = f"2 × ({show(tray.groove_depth)} - {show(tray.room)})"

    def working(inside: str) -> tuple[str, str]:
        return formula, f"{inside} + {reach}"

    if not tray.four:
        return _panel_round(tray, book, *working(show(tray.inside(tray.long))))
    return [
        book.length(
            "panel_length",
            "Panel length",
            long,
            *working(show(tray.inside(tray.long))),
        ),
        book.length(
            "panel_width",
            "Panel width",
            wide,
            *working(show(tray.inside(tray.short))),
        ),
    ]


def _panel_round(tray: Tray, book: Book, formula: str, values: str) -> list[Size]:
    show, sides = book.show, tray.sides
    across, side = tray.panel_across(tray.long), tray.panel_side
    long, wide = tray.panel_size
    gauge = (f"90° - 360° / {sides}" if sides >= 4 else f"360° / {sides} - 90°",)
    corners = f"the panel's corners, from its sides of {show(side)}"
    return [
        book.length(
            "panel_inscribed", "Panel, across the flats", across, formula, values
        ),
        book.length(
            "panel_side",
            "Panel side",
            side,
            f"panel across the flats times tan(180°/{sides})",
            f"{show(across)} × tan(180°/{sides})",
        ),
        book.length("panel_length", "Panel's reach along its grain", long, corners),
        book.length("panel_width", "Panel's reach across its grain", wide, corners),
        book.angle(
            "panel_gauge_angle",
            "Mitre gauge for the panel, from a square crosscut",
            tray.panel_gauge,
            "difference between 90° and 360° divided by the sides, a finished side on "
            "the gauge's fence",
            *gauge,
        ),
        book.length(
            "panel_mark",
            "Mark for the panel, along the gauge from the blade's near face",
            side,
            "the panel's side: where the finished corner stands",
            show(side),
        ),
        book.length(
            "panel_blank",
            "Panel blank, square",
            tray.panel_blank,
            "the more of 1 1/4 times the panel across the flats, and its widest reach "
            f"with 1/2 in (12.7 mm) to cut it free; up to the next {show(tray.step)}",
            f"1.25 × {show(across)}",
            TRADE,
        ),
    ]


def _mouldings(
    tray: Tray, laid: tuple[Rails, ...], shop: Shop, book: Book
) -> list[Size]:
    show, rails = book.show, tray.sides_round
    return [
        Size(
            "running_length",
            "Moulding for all rails, in one length, before trim",
            Kind.LENGTH,
            tray.run(rails),
            "every rail with what it is over size by, and a kerf between two",
            " + ".join(
                f"{rails.count(side)} × {show(tray.uncut(side))}"
                for side in dict.fromkeys(rails)
            )
            + f" + {len(rails) - 1} × {show(tray.kerf)}",
            group=Group.TAKES,
        ),
        Size(
            "moulding_count",
            f"Mouldings of {show(tray.moulding)}, spares included",
            Kind.COUNT,
            len(laid),
            "rails laid out the longest first, each in the first moulding that still "
            "takes it",
            f"{sum(map(len, laid))} rails, {show(shop.end_trim)} trimmed off each end",
            TRADE,
            group=Group.TAKES,
        ),
        Size(
            "mitre_end_grain",
            "Glue on end grain, all mitres",
            Kind.AREA,
            round(tray.sides * tray.rail_height.nm * Fraction(tray.mitre_length.nm)),
            "corners × mitre × rail height, the groove not taken off",
            f"{tray.sides} × {show(tray.mitre_length)} × {show(tray.rail_height)}",
            unit="nm2",
            group=Group.TAKES,
        ),
    ]


def _closing(tray: Tray, inputs: Inputs, shop: Shop) -> tuple[Size, ...]:
    return closing.sizes(
        tray.long_side,
        tray.sides,
        inputs.widest_gap,
        inputs.width_spread,
        shop,
        lengths=tray.sides_round,
    )
