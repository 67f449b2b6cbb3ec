"""One wall on the saw's table, the joint, the base, and templates at true size."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from app.core import compound, geometry
from app.core.angle import Angle
from app.core.drawing import (
    QUIET_TEXT_MM,
    Drawing,
    Label,
    Line,
    Measure,
    Pen,
    Point,
    Shape,
    text_width,
)
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_page import XY, Sheet, face_rows, half_at
from app.core.length import Length
from app.core.shop import Shop
from app.core.template import template


def face(vessel: Tapered, shop: Shop) -> Drawing:
    """The outer face flat, the inner face's edges dashed, every size on it."""
    sheet = Sheet(vessel, shop, max(vessel.face_long.nm / 70, vessel.across.nm / 66))
    middle, top = 42.0, 16.0
    shift = float(vessel.shift)
    low = min(0.0, -shift)
    floor = top + sheet.mm(vessel.across.nm)

    def at(x: float, up: float) -> XY:
        return middle + sheet.mm(x), floor - sheet.mm(up - low)

    slant = float(vessel.slant.nm)
    outer = [at(sign * half_at(vessel, up), up) for up, sign in _round(slant)]
    halves = {0.0: vessel.inner_bottom.nm / 2, slant: vessel.inner_top.nm / 2}
    inner = [at(sign * halves[up], up - shift) for up, sign in _round(slant)]
    rows = _face_rows(vessel, sheet)
    labels, end = sheet.rows(floor + 21, rows)
    return Drawing(
        key="face",
        title="One wall flat on the table",
        description=" ".join(rows),
        shapes=(*_face_strips(sheet, at), sheet.shape(outer, title="Outer face")),
        lines=(*sheet.dashed(inner), *_square_line(sheet, outer)),
        measures=tuple(_face_measures(sheet, outer, inner, top, floor)),
        labels=tuple(labels),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _round(slant: float) -> list[tuple[float, int]]:
    return [(0.0, -1), (0.0, 1), (slant, 1), (slant, -1)]


def _face_strips(sheet: Sheet, at: Callable[[float, float], XY]) -> Iterable[Shape]:
    vessel = sheet.vessel
    for name, (low, high) in zip(
        vessel.pattern.column(0), face_rows(vessel), strict=True
    ):
        if high - low < 1:
            continue
        band = ((low, -1), (low, 1), (high, 1), (high, -1))
        points = [at(sign * half_at(vessel, up), up) for up, sign in band]
        yield sheet.thin(points, name, name)


def _square_line(sheet: Sheet, outer: list[XY]) -> list[Line]:
    """Square to the longer edge at its end: the gauge is read from it."""
    if not sheet.vessel.gauge.degrees:
        return []
    corner, other = (outer[3], outer[0]) if sheet.vessel.out else (outer[0], outer[3])
    return [sheet.line(corner, (corner[0], other[1]), Pen.CUT)]


def _face_measures(
    sheet: Sheet, outer: list[XY], inner: list[XY], top: float, floor: float
) -> Iterable[Measure]:
    vessel, show = sheet.vessel, sheet.show
    below = floor - outer[0][1] + 8
    yield sheet.measure(outer[0], outer[1], show(vessel.face_bottom), -below)
    above = outer[3][1] - top + 6
    yield sheet.measure(outer[3], outer[2], show(vessel.face_top), above)
    right = max(x for x, _ in (*outer, *inner))
    low, high = (outer[1][0], outer[1][1]), (outer[1][0], outer[2][1])
    yield sheet.measure(
        low,
        high,
        show(vessel.slant),
        -(right - outer[1][0] + sheet.clear(show(vessel.slant))),
    )


def _face_rows(vessel: Tapered, sheet: Sheet) -> list[str]:
    show = sheet.show
    rows = [
        f"Outer face; blade tilt {vessel.tilt} from vertical, gauge {vessel.gauge} "
        "from square" + (" (the line at the corner)." if vessel.gauge.degrees else "."),
        (
            f"Dashed, the inner face: {show(vessel.inner_top)} at the top, "
            f"{show(vessel.inner_bottom)} at the bottom."
        ),
    ]
    if vessel.bevelled:
        rows.append(
            f"Upper and lower edge bevelled {vessel.slope}, {show(vessel.across)} wide "
            "over all."
        )
    rows.append(f"{show(vessel.wall)} thick; the grain runs along the wall.")
    return rows


def joint(vessel: Tapered, shop: Shop) -> Drawing:
    """A corner cut square to its edge, at a larger scale."""
    half = math.radians(90) - vessel.tilt.radians
    thick = float(vessel.wall.nm)
    long = max(3.2 * thick, thick / math.tan(half) + 2 * thick)
    sheet = Sheet(vessel, shop, max(2 * long / 76, 1))
    middle, top = 46.0, 6.0

    def at(along: float, deep: float, sign: int) -> XY:
        """On one arm: along the outer face from the corner, and square into it."""
        x = along * math.sin(half) - deep * math.cos(half)
        y = along * math.cos(half) + deep * math.sin(half)
        return middle + sign * sheet.mm(x), top + sheet.mm(y)

    inside = thick / math.tan(half)
    arms = []
    for sign, side in ((-1, 0), (1, 1)):
        points = [
            at(0, 0, sign), at(long, 0, sign), at(long, thick, sign),
            at(inside, thick, sign),
        ]  # fmt: skip
        name = vessel.pattern.column(side)[-1]
        arms.append(sheet.shape(points, name, f"Wall {side + 1}"))
    lowest = max(at(long, thick, 1)[1], at(inside, thick, 1)[1] + 8)
    arm = at(long, 0, 1)[0]
    rows = _joint_rows(vessel, sheet)
    labels, end = sheet.rows(lowest + 10, rows)
    return Drawing(
        key="joint",
        title="A corner, cut square to its edge",
        description=" ".join(rows),
        shapes=tuple(arms),
        measures=(_mitre_across(sheet, at(0, 0, 1), at(inside, thick, 1), arm),),
        labels=(_inside_angle(sheet, half, at(inside, thick, 1)), *labels),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _mitre_across(sheet: Sheet, outer: XY, inner: XY, arm: float) -> Measure:
    """From the outer corner to the inner one, off to the right of the arms."""
    mitre = Length.nearest(sheet.vessel.wall.nm / math.cos(sheet.vessel.tilt.radians))
    text = sheet.show(mitre)
    return sheet.measure(outer, inner, text, arm - outer[0] + sheet.clear(text))


def _inside_angle(sheet: Sheet, half: float, corner: XY) -> Label:
    """The angle inside, far enough from the corner that its text is clear."""
    text = str(compound.dihedral(sheet.vessel.sides, sheet.vessel.slope))
    room = (text_width(text, QUIET_TEXT_MM) / 2 + 1.5) / math.tan(half)
    return sheet.label(corner[0], corner[1] + max(6.0, room + 3.5), text, quiet=True)


def _joint_rows(vessel: Tapered, sheet: Sheet) -> list[str]:
    dihedral = compound.dihedral(vessel.sides, vessel.slope)
    mitre = Length.nearest(vessel.wall.nm / math.cos(vessel.tilt.radians))
    return [
        (
            f"Inside the faces meet at {dihedral}; a bevel gauge reads "
            f"{Angle(90 - vessel.tilt.degrees)} from the outer face to the mitre."
        ),
        f"Wall {sheet.show(vessel.wall)}, the mitre {sheet.show(mitre)} across.",
    ]


def base(vessel: Tapered, shop: Shop) -> Drawing:
    """The base on its square blank, its smaller face dashed."""
    blank = vessel.base_blank
    sheet = Sheet(vessel, shop, blank.nm / 70)
    left, top, side = 12.0, 5.0, 70.0
    points = geometry.corners(vessel.sides, vessel.base_side)
    drop = max(y for _, y in points)
    # Side 1 is the blank's jointed edge.
    middle = left + side / 2, top + side - sheet.mm(drop)
    large = sheet.ring(max(vessel.base_faces).nm, middle)
    small = sheet.ring(min(vessel.base_faces).nm, middle)
    floor = top + side
    grain = [
        sheet.line((left, y), (left + side, y), Pen.GRAIN)
        for y in (
            top + side * i / vessel.base_strip_count
            for i in range(1, vessel.base_strip_count)
        )
    ]
    dashed = sheet.dashed(small) if vessel.lean.degrees else []
    rows = _base_rows(vessel, sheet)
    labels, end = sheet.rows(floor + 27, rows)
    return Drawing(
        key="base",
        title="The base on its blank",
        description=" ".join(rows),
        shapes=(
            sheet.shape(
                sheet.box(left, top, side, side), title="Falls away", scrap=True
            ),
            sheet.shape(large, vessel.base_species, "Base"),
        ),
        lines=(*grain, *dashed),
        measures=tuple(_base_measures(sheet, large, middle, left, floor)),
        labels=(
            sheet.label(middle[0], middle[1] - 4, "grain ↔", quiet=True),
            *labels,
        ),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _base_measures(
    sheet: Sheet, large: list[XY], middle: XY, left: float, floor: float
) -> Iterable[Measure]:
    vessel, side = sheet.vessel, 70.0
    below = floor - large[0][1] + 7
    yield sheet.measure(large[0], large[-1], sheet.show(vessel.base_side), -below)
    ends = (left, floor), (left + side, floor)
    yield sheet.measure(*ends, sheet.show(vessel.base_blank), -17)
    even = vessel.sides % 2 == 0
    x = large[-1][0] if even else middle[0]
    upright = (x, large[0][1]), (x, min(y for _, y in large))
    far = geometry.flat_to_corner(vessel.base_inscribed, vessel.sides)
    text = sheet.show(vessel.base_inscribed if even else far)
    out = left + side - x + sheet.clear(text)
    yield sheet.measure(*upright, text, -out)


def _base_rows(vessel: Tapered, sheet: Sheet) -> list[str]:
    show = sheet.show
    below, above = vessel.base_faces
    up = "upper" if above >= below else "lower"
    rows = [f"Larger ({up}) face {show(vessel.base_inscribed)} across the flats."]
    if vessel.lean.degrees:
        rows.append(
            f"Edges bevelled {vessel.slope}; dashed: the other face, "
            f"{show(min(vessel.base_faces))} across the flats."
        )
    rows.append(
        f"{show(vessel.base_thickness)} thick. Side 1 is the blank's jointed edge. "
        "Crossed out: what falls away."
    )
    return rows


def templates(vessel: Tapered, shop: Shop) -> Iterable[Drawing]:
    """The outer face and the base at true size, where paper holds them."""
    sheet = Sheet(vessel, shop, 1)
    slant = float(vessel.slant.nm)
    outer = [(s * half_at(vessel, up), -up) for up, s in _round(slant)]
    found = [
        template(
            "face-template",
            "Outer face of a wall",
            "The outer face of a wall at its true size.",
            [outer],
            species=vessel.pattern.column(0)[0] if not vessel.glued else "",
            sizes=[
                (
                    f"Sides {sheet.show(vessel.face_top)} and "
                    f"{sheet.show(vessel.face_bottom)}, {sheet.show(vessel.slant)} "
                    "apart."
                ),
                f"Blade tilt {vessel.tilt}, gauge {vessel.gauge}.",
            ],
        )
    ]
    if vessel.has_base:
        found.append(_base_template(vessel, sheet))
    return [one for one in found if one is not None]


def _base_template(vessel: Tapered, sheet: Sheet) -> Drawing | None:
    large = geometry.corners(vessel.sides, vessel.base_side)
    lines: list[Line] = []
    if vessel.lean.degrees:
        side = geometry.side_of_inscribed(min(vessel.base_faces), vessel.sides)
        small = [
            Point(round(x), round(y)) for x, y in geometry.corners(vessel.sides, side)
        ]
        pairs = zip(small, [*small[1:], small[0]], strict=True)
        lines = [Line(a, b, Pen.HIDDEN) for a, b in pairs]
    return template(
        "base-template",
        "Base, larger face",
        "The larger face of the base at its true size, the smaller one dashed.",
        [large],
        species=vessel.base_species,
        lines=lines,
        sizes=[
            (
                f"{vessel.sides} sides of {sheet.show(vessel.base_side)}, "
                f"{sheet.show(vessel.base_inscribed)} across the flats."
            ),
            f"Edges bevelled {vessel.slope}.",
        ],
    )
