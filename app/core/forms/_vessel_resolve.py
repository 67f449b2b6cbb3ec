"""From what was typed to a vessel that can be built, or the reason it cannot."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from app.core import allowance, geometry
from app.core.corner_splines import Room, Splines
from app.core.forms._patterned import read_pattern
from app.core.forms._splined import HALF, Corners, read_splines
from app.core.forms._vessel import Lid, Vessel
from app.core.forms._vessel_across import across
from app.core.forms._vessel_inputs import NONE, Inputs
from app.core.forms._vessel_prove import prove, wall_too_thick
from app.core.inputs import refuse
from app.core.length import Length, Unit, inches, mm
from app.core.pattern import Cut, Panel, Pattern, Way, equal_panels, ways
from app.core.shop import Shop
from app.core.volume import share

PART_KEYS = ("wall", "base", "lid", "plug", "spline")


def resolve(inputs: Inputs, shop: Shop) -> Vessel:
    """Inputs to a vessel that can be built, or the refusal that says why not."""
    found = across(inputs, shop)
    sides, wall, outside = inputs.sides, inputs.wall, found.inscribed
    inside = found.inside or outside - wall * 2
    if inside.nm <= 0:
        raise wall_too_thick(inputs, outside, shop)
    pattern = read_pattern(inputs, sides, inputs.strip_rows)
    allow = allowance.read(inputs.over_size, PART_KEYS, shop)
    cut = _cut(inputs, found.side, allow, shop)
    found_ways = () if pattern.same_all_round else ways(pattern, cut)
    base_species = _one("base_species", inputs.base_species, pattern.rows[0][0])
    vessel = Vessel(
        given=found.given,
        inside_volume=inputs.inside_volume.nm3 if inputs.inside_volume else None,
        step=inches("1/8") if shop.unit is Unit.INCH else mm(1),
        sides=sides,
        outside_side=found.side,
        outside_inscribed=outside,
        outside_circumscribed=found.circumscribed,
        inside_inscribed=inside,
        inside_side=geometry.side_of_inscribed(inside, sides),
        height=inputs.height,
        wall=wall,
        base=inputs.base,
        base_thickness=inputs.base_thickness,
        groove_depth=inputs.groove_depth or wall / 2,
        groove_up=inputs.groove_up if inputs.base == "groove" else NONE,
        clearance=inputs.base_clearance,
        base_inscribed=_base_inscribed(inputs, inside, outside),
        base_species=base_species,
        base_strips=inputs.base_strips or 0,
        pattern=pattern,
        widths=_widths(inputs),
        cut=cut,
        panels=_panels(inputs, pattern, cut, found_ways),
        ways=found_ways,
        allow=allow,
        lid=_lid(inputs, base_species),
        splines=None,
        spline_share=_share(inputs),
        widest_gap=inputs.widest_gap,
        width_spread=inputs.width_spread,
    )
    prove(vessel, shop)
    return replace(vessel, splines=_splines(inputs, vessel, shop))


def _cut(inputs: Inputs, side: Length, allow: allowance.Allowances, shop: Shop) -> Cut:
    over = allow.of("wall")
    return Cut(
        wall=side,
        strip_width=inputs.height / inputs.strip_rows + over.width,
        thickness=inputs.wall + over.thickness,
        kerf=inputs.kerf or shop.kerf,
        over_length=over.length,
        spares=inputs.spares,
        # A groove cut while the walls are one length settles which edge is low.
        may_turn=inputs.base in ("under", "none"),
    )


def _panels(
    inputs: Inputs, pattern: Pattern, cut: Cut, found: tuple[Way, ...]
) -> tuple[Panel, ...]:
    """So many as are asked for where all walls are alike, else the least wood."""
    if inputs.panels > inputs.sides:
        message = f"{inputs.sides} walls cannot come from {inputs.panels} panels."
        raise refuse("panels", message, str(inputs.sides))
    if found:
        return found[0].panels
    return equal_panels(pattern, cut, inputs.panels)


def _base_inscribed(inputs: Inputs, inside: Length, outside: Length) -> Length:
    if inputs.base in ("under", "none"):
        return outside
    depth = inputs.groove_depth or inputs.wall / 2
    return inside + (depth - inputs.base_clearance) * 2


def _widths(inputs: Inputs) -> tuple[Length, ...]:
    # Shared out so that the rows add up to the height to the last nanometre.
    each = share(inputs.height.nm, [1] * inputs.strip_rows)
    return tuple(Length(width) for width in each)


def _lid(inputs: Inputs, base_species: str) -> Lid:
    return Lid(
        kind=inputs.lid,
        thickness=inputs.lid_thickness,
        lip=inputs.lid_lip,
        room=inputs.lid_room,
        overhang=inputs.lid_overhang,
        species=_one("lid_species", inputs.lid_species, base_species),
    )


def _splines(inputs: Inputs, vessel: Vessel, shop: Shop) -> Splines | None:
    last, woods = inputs.species[-1], vessel.pattern.species
    floor = vessel.height - vessel.inside_height
    corners = Corners(
        vessel.sides,
        vessel.wall,
        vessel.outside_side,
        Room(floor, vessel.height),
        last if last in woods else woods[-1],
        vessel.widths,
    )
    return read_splines(inputs, corners, shop)


def _share(inputs: Inputs) -> Fraction | None:
    """The share of the corner that the splines take; None where the cheek is given."""
    if inputs.spline_cheek is not None:
        return None
    given = inputs.spline_depth_share
    return HALF if given is None else given


def _one(key: str, names: tuple[str, ...] | None, default: str) -> str:
    """The one species named, or the default."""
    if names and len(names) > 1:
        raise refuse(key, f"Name one species here, not {len(names)}.", names[0])
    return names[0] if names else default
