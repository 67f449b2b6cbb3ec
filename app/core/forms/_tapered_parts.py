"""The tapered vessel's parts, and the panels they are cut from."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import accumulate, groupby, pairwise

from app.core import geometry
from app.core.forms._strip_panels import Shares, side_parts
from app.core.forms._strip_panels import glue_ups as wall_panels
from app.core.forms._tapered import Tapered
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Grain, Part, Strip
from app.core.pattern import Column
from app.core.volume import share

BASE_PANEL = "base_panel"
Corner = tuple[float, float]


def parts(vessel: Tapered) -> tuple[Part, ...]:
    """The walls with their spares, and the base."""
    rows = row_volumes(vessel) if len(vessel.pattern.species) > 1 else []
    walls = side_parts(
        _wall(vessel), vessel.panels, woods=lambda column: _woods(rows, column)
    )
    return (*walls, _base(vessel)) if vessel.has_base else walls


def glue_ups(vessel: Tapered) -> tuple[GlueUp, ...]:
    """The wall panels where there are rows, the base panel where it has strips."""
    found = wall_panels(vessel.panels, vessel.cut, vessel.row_widths)
    if vessel.has_base and vessel.base_strip_count > 1:
        return (*found, _base_panel(vessel))
    return found


def wall_volume(vessel: Tapered) -> int:
    """One finished wall in nm³: its section times its mean length."""
    section = vessel.rise / vessel.cos * vessel.wall.nm
    return round(section * _mean(vessel))


def _mean(vessel: Tapered) -> Fraction:
    """The mean length before any rounding: at the section's middle."""
    corners = [vessel.radius(up, deep) for up, deep in vessel.section]
    return 2 * vessel.part * sum(corners, Fraction(0)) / 4


def base_volume(vessel: Tapered) -> int:
    """The finished base in nm³: a frustum between its two faces."""
    below, above = vessel.base_faces
    squares = below.nm**2 + below.nm * above.nm + above.nm**2
    thick = vessel.base_thickness.nm
    return round(vessel.sides * vessel.part * thick * Fraction(squares, 12))


def _wall(vessel: Tapered) -> Part:
    finished = Dimensions(vessel.face_long, vessel.across, vessel.wall)
    over = vessel.allowed.of("wall")
    blank = over.on(finished)
    if vessel.glued:
        # Cut from a panel that is already as wide as the wall.
        blank = Dimensions(finished.length, finished.width, blank.thickness)
    return Part(
        key="wall",
        name="Wall",
        quantity=vessel.sides,
        species="",
        finished=finished,
        blank=blank,
        outline=face_outline(vessel),
        solid=wall_volume(vessel),
    )


def face_outline(vessel: Tapered) -> geometry.Outline:
    """The outer face's trapezoid, its lower edge at the bottom."""
    long, low, high = vessel.face_long, vessel.face_bottom, vessel.face_top
    none, slant = Length(0), vessel.slant
    left, top_left = (long - low) / 2, (long - high) / 2
    return (
        (left, none),
        (left + low, none),
        (top_left + high, slant),
        (top_left, slant),
    )


def _woods(rows: list[Fraction], column: Column) -> Shares:
    """Each species' share of a wall of these strips."""
    whole = sum(rows, Fraction(0))
    found: dict[str, Fraction] = {}
    for name, volume in zip(column, rows, strict=True):
        found[name] = found.get(name, Fraction(0)) + volume / whole
    return tuple(found.items())


def row_volumes(vessel: Tapered) -> list[Fraction]:
    """What each row adds to a wall, bottom up, nm³, to what a float holds."""
    return [Fraction(_ring(vessel, points)) for points in row_sections(vessel)]


def row_sections(vessel: Tapered) -> list[list[Corner]]:
    """The section of every row, bottom up: places up the face and deep in it."""
    whole = [(float(up), float(deep)) for up, deep in vessel.section]
    lowest = min(up for up, _ in whole)
    widths = (float(width.nm) for width in vessel.row_widths)
    cuts = list(accumulate(widths, initial=lowest))
    return [_between(whole, low, high) for low, high in pairwise(cuts)]


def _between(points: list[Corner], low: float, high: float) -> list[Corner]:
    """The part of a section between two heights up the face."""
    for at, sign in ((low, 1), (high, -1)):
        kept: list[Corner] = []
        for one, after in zip(points, (*points[1:], points[0]), strict=True):
            here, there = sign * (one[0] - at), sign * (after[0] - at)
            if here >= 0:
                kept.append(one)
            if here * there < 0:
                deep = one[1] + (after[1] - one[1]) * here / (here - there)
                kept.append((at, deep))
        points = kept
    return points


def _ring(vessel: Tapered, points: list[Corner]) -> float:
    """The wood of a section's part: the wall's length runs with the radius."""
    total = 0.0
    for one, two in pairwise(points[1:]):
        (ax, ay), (bx, by) = (
            (p[0] - points[0][0], p[1] - points[0][1]) for p in (one, two)
        )
        middle = math.fsum(vessel.place(*p)[0] for p in (points[0], one, two)) / 3
        total += abs(ax * by - ay * bx) / 2 * middle
    return 2 * float(vessel.part) * total


def _base(vessel: Tapered) -> Part:
    points = geometry.corners(vessel.sides, vessel.base_side)
    long, wide = geometry.extent(points)
    thick = vessel.base_thickness
    over, blank = vessel.allowed.of("base"), vessel.base_blank
    return Part(
        key="base",
        name="Base",
        quantity=1,
        species=vessel.base_species,
        finished=Dimensions(long, wide, thick),
        blank=Dimensions(blank, blank, thick + over.thickness),
        grain=Grain.LENGTH,
        glue_up=BASE_PANEL if vessel.base_strip_count > 1 else "",
        outline=geometry.outline(points),
        solid=base_volume(vessel),
    )


def _base_panel(vessel: Tapered) -> GlueUp:
    blank, count = vessel.base_blank, vessel.base_strip_count
    over = vessel.allowed.of("base")
    thickness = vessel.base_thickness + over.thickness
    length = blank + over.length
    rough = Dimensions(length, vessel.rough(blank / count + over.width), thickness)
    strips = tuple(
        Strip(vessel.base_species, len(list(same)), rough, Length(width))
        for width, same in groupby(share(blank.nm, [1] * count))
    )
    panel = Dimensions(length, blank, thickness)
    return GlueUp(BASE_PANEL, "Base panel", 1, strips, panel)
