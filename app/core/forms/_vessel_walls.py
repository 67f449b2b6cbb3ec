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
    # Each wall has half a slot at either end of every spline.
    slot = vessel.splines.glue_area / 2 if vessel.splines else Fraction(0)
    slots = _slots(vessel)
    return tuple(
        whole * (high - low)
        - grooved * _shared((low, high), groove)
        - slot * sum(_shared((low, high), one) for one in slots)
        for low, high in row_levels(vessel)
    )


def _slots(vessel: Vessel) -> list[tuple[Fraction, Fraction]]:
    if vessel.splines is None:
        return []
    half = Fraction(vessel.splines.thickness.nm, 2)
    return [(at.nm - half, at.nm + half) for at in vessel.splines.heights]


def _shared(row: Level, other: Level | tuple[Fraction, Fraction]) -> Fraction | int:
    """How much of a row's height another stretch takes."""
    return max(min(row[1], other[1]) - max(row[0], other[0]), 0)
