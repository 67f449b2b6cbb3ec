"""A wall of the straight vessel as solid wood, less what is cut out of it."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, pairwise

from app.core import geometry
from app.core.forms._vessel import Vessel

Level = tuple[int, int]


def row_levels(vessel: Vessel) -> list[Level]:
    """Each row's lower and upper edge, up from the walls' lower edge, nm."""
    edges = accumulate((width.nm for width in vessel.widths), initial=0)
    return list(pairwise(edges))


def groove_level(vessel: Vessel) -> Level:
    """Where the groove or rebate begins and ends; nothing where there is none."""
    if not vessel.housed:
        return 0, 0
    low = vessel.groove_up.nm
    return low, low + vessel.base_thickness.nm


def row_volumes(vessel: Vessel) -> tuple[Fraction, ...]:
    """What one finished wall holds of each row, nm³: mitred, grooved, slotted."""
    sides, side, wall = vessel.sides, vessel.outside_side, vessel.wall
    whole = geometry.mitred_slab(side, wall, sides)
    grooved = whole - geometry.mitred_slab(side, wall - vessel.groove_depth, sides)
    groove = groove_level(vessel)
    slots = _slots(vessel)
    found = []
    for low, high in row_levels(vessel):
        volume = whole * (high - low)
        if taken := _shared((low, high), groove):
            volume -= grooved * taken
        twice = (2 * low, 2 * high)
        if vessel.splines and (taken := sum(_shared(twice, one) for one in slots)):
            # Each wall has half a slot at either end of every spline: one face's.
            volume -= vessel.splines.glue_area / 4 * taken
        found.append(volume)
    return tuple(found)


def _slots(vessel: Vessel) -> list[Level]:
    """Where slots begin and end, twice over: half a thickness may be half a nm."""
    if vessel.splines is None:
        return []
    thick = vessel.splines.thickness.nm
    middles = (2 * height.nm for height in vessel.splines.heights)
    return [(middle - thick, middle + thick) for middle in middles]


def _shared(row: Level, other: Level) -> int:
    """How much of a row's height another stretch takes."""
    return max(min(row[1], other[1]) - max(row[0], other[0]), 0)
