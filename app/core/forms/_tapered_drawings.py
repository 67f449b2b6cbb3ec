"""The tapered vessel drawn as it stands: from above, and cut through its middle."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction

from app.core.drawing import Drawing, Line, Measure, Pen, Shape
from app.core.forms._pattern_drawing import Flat, pattern_drawing
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_boards import board, fan
from app.core.forms._tapered_details import base, face, joint, templates
from app.core.forms._tapered_page import XY, Sheet, face_rows
from app.core.forms._tapered_parts import Corner, row_sections
from app.core.forms._tapered_sizes import way_of
from app.core.geometry import flat_to_corner
from app.core.length import Length
from app.core.shop import Shop


def drawings(vessel: Tapered, shop: Shop) -> tuple[Drawing, ...]:
    """The vessel, one wall, how walls lie, the joint, the base, templates."""
    found = [plan(vessel, shop), section(vessel, shop), face(vessel, shop)]
    found += [board(vessel, shop), fan(vessel, shop)]
    if not vessel.pattern.same_all_round:
        found.append(_pattern(vessel, shop))
    found.append(joint(vessel, shop))
    if vessel.has_base:
        found.append(base(vessel, shop))
    return (*found, *templates(vessel, shop))


def _pattern(vessel: Tapered, shop: Shop) -> Drawing:
    flat = Flat(
        vessel.pattern,
        vessel.face_bottom,
        vessel.face_top,
        vessel.row_widths,
        vessel.panels,
        "wall",
    )
    return pattern_drawing(flat, shop, title="The walls laid flat")


def plan(vessel: Tapered, shop: Shop) -> Drawing:
    """Both rims from above, the outer lower edge dashed where it is hidden."""
    widest = max(vessel.top, vessel.bottom)
    around = widest.nm / math.cos(math.pi / vessel.sides)
    sheet = Sheet(vessel, shop, around / 72)
    middle = (50.0, 4 + sheet.mm(around) / 2)
    rims = [
        sheet.ring(across.nm, middle)
        for across in (vessel.top, vessel.inside_top, vessel.bottom)
    ]
    lowest = max(y for ring in rims for _, y in ring)
    outer = rims[0] if vessel.out else rims[2]
    edge = vessel.face_top if vessel.out else vessel.face_bottom
    labels, end = sheet.rows(lowest + 19, _plan_rows(vessel, sheet))
    return Drawing(
        key="plan",
        title="From above",
        description=f"{vessel.sides} mitred walls seen from above, {way_of(vessel)}. "
        + " ".join(_plan_rows(vessel, sheet)),
        shapes=tuple(_plan_shapes(sheet, middle, rims)),
        lines=tuple(sheet.dashed(rims[2])) if vessel.out else (),
        measures=(
            sheet.measure(outer[0], outer[-1], sheet.show(edge), -8),
            _plan_across(sheet, outer, widest),
        ),
        labels=tuple(labels),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _plan_across(sheet: Sheet, outer: list[XY], widest: Length) -> Measure:
    """From a flat of the wider rim to the flat or the corner across."""
    sides = sheet.vessel.sides
    even = sides % 2 == 0
    far = widest if even else flat_to_corner(widest, sides)
    x = outer[-1][0] if even else (outer[0][0] + outer[-1][0]) / 2
    low, high = outer[0][1], min(y for _, y in outer)
    text = sheet.show(far)
    off = max(x for x, _ in outer) - x + sheet.clear(text)
    return sheet.measure((x, low), (x, high), text, -off)


def _plan_rows(vessel: Tapered, sheet: Sheet) -> list[str]:
    show = sheet.show
    rows = ["Across the flats, outside and inside:"]
    rows += [
        f"{end} {show(outer)}, {show(inner)};"
        for end, outer, inner in (
            ("top", vessel.top, vessel.inside_top),
            ("bottom", vessel.bottom, vessel.inside_bottom),
        )
    ]
    rows.append(
        f"sides {show(vessel.face_top)} at the top and {show(vessel.face_bottom)} at "
        "the bottom, outside."
    )
    if vessel.out and vessel.lean.degrees:
        rows.append("Dashed: the outer lower edge.")
    return rows


def _plan_shapes(sheet: Sheet, middle: XY, rims: list[list[XY]]) -> Iterable[Shape]:
    """Floor, then inner or outer faces, then the rim on top."""
    vessel = sheet.vessel
    top, inner, bottom = rims
    count = vessel.sides
    low = vessel.inside_low
    if vessel.inside_base:
        low = Fraction(vessel.base_up.nm + vessel.base_thickness.nm)
    floor = sheet.ring(float(vessel.inside_at(low)), middle)
    wood = vessel.base_species if vessel.has_base else ""
    if vessel.out:
        yield sheet.shape(floor, wood, "Base" if wood else "Open")
    for i in range(count):
        j, side = (i + 1) % count, (count - i - 1) % count
        column, name = vessel.pattern.column(side), f"Wall {side + 1}"
        if vessel.out:
            inside = [inner[i], inner[j], floor[j], floor[i]]
            yield sheet.shape(inside, column[0], f"{name}, inside")
        else:
            outside = [bottom[i], bottom[j], top[j], top[i]]
            yield sheet.shape(outside, column[0], f"{name}, outside")
    if not vessel.out:
        yield sheet.shape(inner, wood, "Base" if wood else "Open")
    for i in range(count):
        j, side = (i + 1) % count, (count - i - 1) % count
        rim = [top[i], top[j], inner[j], inner[i]]
        yield sheet.shape(rim, vessel.pattern.column(side)[-1], f"Wall {side + 1}, rim")


def section(vessel: Tapered, shop: Shop) -> Drawing:
    """Left of the middle from the front, right of it cut through a flat."""
    under = vessel.base_thickness.nm if vessel.base == "under" else 0
    widest = max(vessel.top, vessel.bottom).nm / 2 / math.cos(math.pi / vessel.sides)
    high = vessel.height.nm + under
    sheet = Sheet(vessel, shop, max(widest / 38, high / 72))
    axis, top = 44.0, 15.0
    floor = top + sheet.mm(vessel.height.nm)

    def at(out: float, up: float) -> XY:
        return axis + sheet.mm(out), floor - sheet.mm(up)

    bottom = floor + sheet.mm(under)
    corners = _corners(vessel)
    wall = [at(*vessel.place(up, deep)) for up, deep in corners]
    widest_x = axis + sheet.mm(max(vessel.top, vessel.bottom).nm / 2)
    out = widest_x + sheet.clear(sheet.show(vessel.height)) - axis
    labels, end = sheet.rows(bottom + 21, _section_rows(vessel, sheet))
    return Drawing(
        key="section",
        title="From the front, and cut through the middle",
        description="Left of the middle line the vessel from the front, right of it "
        f"cut through the middle of a wall. {' '.join(_section_rows(vessel, sheet))}",
        shapes=(
            *_front(sheet, axis, floor),
            *(
                sheet.thin(
                    [at(*vessel.place(up, deep)) for up, deep in row], name, name
                )
                for name, row in zip(
                    vessel.pattern.column(0), row_sections(vessel), strict=True
                )
            ),
            sheet.shape(wall, title="Wall, cut"),
            *_base_cut(sheet, axis, floor),
        ),
        lines=(
            sheet.line((axis, top - 3), (axis, bottom + 3), Pen.CUT),
            *_upright(sheet, wall[0], wall[1]),
        ),
        measures=tuple(_section_measures(sheet, axis, wall, floor, out)),
        labels=tuple(labels),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _corners(vessel: Tapered) -> list[Corner]:
    return [(float(up), float(deep)) for up, deep in vessel.section]


def _upright(sheet: Sheet, low: XY, high: XY) -> list[Line]:
    """The line from which the slope is measured."""
    if not sheet.vessel.lean.degrees:
        return []
    return [sheet.line(low, (low[0], high[1]), Pen.HIDDEN)]


def _section_measures(
    sheet: Sheet, axis: float, wall: list[XY], floor: float, out: float
) -> Iterable[Measure]:
    vessel, show = sheet.vessel, sheet.show
    under = vessel.base == "under"
    low = floor + (sheet.mm(vessel.base_thickness.nm) if under else 0)
    top = floor - sheet.mm(vessel.height.nm)
    start, end = (axis, floor), (axis, top)
    yield sheet.measure(start, end, show(vessel.height), -out)
    foot, head = (axis, low), (wall[0][0], low)
    yield sheet.measure(foot, head, f"half of {show(vessel.bottom)}", -9)
    rim = (axis, wall[1][1]), (wall[1][0], wall[1][1])
    yield sheet.measure(*rim, f"half of {show(vessel.top)}", 6)


def _section_rows(vessel: Tapered, sheet: Sheet) -> list[str]:
    show = sheet.show
    rows = [
        (
            f"Sides {way_of(vessel)}, {vessel.slope} from vertical (dashed); "
            f"{show(vessel.slant)} up the outer face."
        ),
        f"Wall {show(vessel.wall)} square to its face; edges "
        + ("level." if vessel.level else "square to the face."),
    ]
    if vessel.inside_base:
        rows.append(
            f"Base {show(vessel.base_thickness)} thick, {show(vessel.base_up)} up"
            + (
                f", {show(vessel.room)} of room at each flat."
                if vessel.room
                else ", glued in."
            )
        )
    elif vessel.has_base:
        rows.append(f"Base {show(vessel.base_thickness)} thick, under the walls.")
    return rows


def _front(sheet: Sheet, axis: float, floor: float) -> Iterable[Shape]:
    """What is seen from the front of the left half, a face after another."""
    vessel = sheet.vessel
    turn = math.pi / vessel.sides
    for seen in range(vessel.sides):
        middle = 2 * turn * seen
        if middle >= math.pi / 2 - 1e-9:
            return
        side = (vessel.sides - seen) % vessel.sides
        column = vessel.pattern.column(side)
        for name, (low, high) in zip(column, face_rows(vessel), strict=True):
            if high - low >= 1:
                band = ((low, 0.0), (high, 0.0))
                points = _seen(sheet, axis, floor, middle, band)
                yield sheet.thin(points, name, name)
        if not vessel.level and vessel.lean.degrees:
            # A square edge turns its face to the viewer: above, or below leaning in.
            corners = _corners(vessel)
            ends = corners[1:3] if vessel.out else corners[::3]
            points = _seen(sheet, axis, floor, middle, ends)
            yield sheet.shape(points, column[-1 if vessel.out else 0], "Edge")
        whole = _seen(sheet, axis, floor, middle, _corners(vessel)[:2])
        yield sheet.shape(whole, title=f"Wall {side + 1}")


def _seen(
    sheet: Sheet, axis: float, floor: float, middle: float, ends: Sequence[Corner]
) -> list[XY]:
    """A band of a face turned by ``middle``, left of the axis, as seen in front.

    ``ends`` are the places of the section that it lies between.
    """
    vessel, turn = sheet.vessel, math.pi / sheet.vessel.sides
    (out, low), (far, high) = (vessel.place(up, deep) for up, deep in ends)
    points = []
    for radius, z, angle in (
        (out, low, middle - turn),
        (out, low, middle + turn),
        (far, high, middle + turn),
        (far, high, middle - turn),
    ):
        # Of the front face only the left half is shown.
        x = radius / math.cos(turn) * math.sin(max(angle, 0.0))
        points.append((axis - sheet.mm(x), floor - sheet.mm(z)))
    return points


def _base_cut(sheet: Sheet, axis: float, floor: float) -> Iterable[Shape]:
    vessel = sheet.vessel
    if not vessel.has_base:
        return
    thick = vessel.base_thickness.nm
    low = -thick if vessel.base == "under" else vessel.base_up.nm
    below, above = vessel.base_faces
    points = [
        (axis, floor - sheet.mm(low)),
        (axis + sheet.mm(below.nm / 2), floor - sheet.mm(low)),
        (axis + sheet.mm(above.nm / 2), floor - sheet.mm(low + thick)),
        (axis, floor - sheet.mm(low + thick)),
    ]
    yield sheet.shape(points, vessel.base_species, "Base, cut")
