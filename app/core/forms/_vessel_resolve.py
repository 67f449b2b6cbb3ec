"""From what was typed to a vessel that can be built, or the reason it cannot."""

from __future__ import annotations

from fractions import Fraction

from app.core import geometry
from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_inputs import ACROSS, NONE, Inputs
from app.core.inputs import refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop
from app.core.volume import share


def resolve(inputs: Inputs, shop: Shop) -> Vessel:
    """Inputs to a vessel that can be built, or the refusal that says why not."""
    given, across = _across(inputs, shop)
    sides, wall = inputs.sides, inputs.wall
    outside_side, outside, circumscribed = across
    inside = outside - wall * 2
    if given == "inside_inscribed" and inputs.inside_inscribed:
        inside = inputs.inside_inscribed
    if inside.nm <= 0:
        raise _wall_too_thick(wall, outside, shop)
    depth = inputs.groove_depth or wall / 2
    vessel = Vessel(
        given=given,
        step=inches("1/8") if shop.unit is Unit.INCH else mm(1),
        sides=sides,
        outside_side=outside_side,
        outside_inscribed=outside,
        outside_circumscribed=circumscribed,
        inside_inscribed=inside,
        inside_side=geometry.side_of_inscribed(inside, sides),
        height=inputs.height,
        wall=wall,
        base=inputs.base,
        base_thickness=inputs.base_thickness,
        groove_depth=depth,
        groove_up=inputs.groove_up if inputs.base == "groove" else NONE,
        clearance=inputs.base_clearance,
        base_inscribed=_base_inscribed(inputs, inside, outside, depth),
        base_species=_one("base_species", inputs.base_species, inputs.species[0]),
        base_strips=inputs.base_strips or 0,
        rows=_rows(inputs),
        panels=inputs.panels,
        kerf=inputs.kerf or shop.kerf,
        splines=inputs.splines_per_corner,
        spline_thickness=inputs.spline_thickness,
        spline_share=inputs.spline_depth_share,
        spline_species=_one(
            "spline_species", inputs.spline_species, inputs.species[-1]
        ),
    )
    _prove(vessel, shop)
    return vessel


def _across(inputs: Inputs, shop: Shop) -> tuple[str, tuple[Length, Length, Length]]:
    """Which size across was given; outside side, inscribed, circumscribed."""
    given = [key for key in ACROSS if getattr(inputs, key) is not None]
    if not given:
        near = typed(inches("4") if shop.unit is Unit.INCH else mm(100), shop.unit)
        message = (
            "How wide is the vessel? Give one size across: "
            f"{', '.join(ACROSS[:-1])} or {ACROSS[-1]}."
        )
        raise refuse(ACROSS[0], message, near)
    if len(given) > 1:
        message = (
            f"{' and '.join(given)} are given together, and each settles the "
            f"other. Keep {given[0]} and leave the rest empty."
        )
        raise refuse(given[1], message)
    key, size, sides = given[0], getattr(inputs, given[0]), inputs.sides
    if key == "outside_side":
        around = geometry.circumscribed(size, sides)
        return key, (size, geometry.inscribed(size, sides), around)
    if key == "outside_circumscribed":
        flats = size * geometry.cos(sides)
        return key, (geometry.side_of_circumscribed(size, sides), flats, size)
    flats = size if key == "outside_inscribed" else size + inputs.wall * 2
    around = Length.nearest(flats.nm / geometry.cos(sides))
    return key, (geometry.side_of_inscribed(flats, sides), flats, around)


def _base_inscribed(
    inputs: Inputs, inside: Length, outside: Length, depth: Length
) -> Length:
    if inputs.base in ("under", "none"):
        return outside
    return inside + (depth - inputs.base_clearance) * 2


def _rows(inputs: Inputs) -> tuple[tuple[str, Length], ...]:
    count, names = inputs.strip_rows, inputs.species
    if len(names) > count:
        message = (
            f"{len(names)} species need at least {len(names)} rows of strips; "
            f"there {'is' if count == 1 else 'are'} {count}."
        )
        raise refuse("strip_rows", message, str(len(names)))
    # Shared out so that the rows add up to the height to the last nanometre.
    widths = share(inputs.height.nm, [1] * count)
    return tuple((names[i % len(names)], Length(w)) for i, w in enumerate(widths))


def _one(key: str, names: tuple[str, ...] | None, default: str) -> str:
    """The one species named, or the default."""
    if names and len(names) > 1:
        raise refuse(key, f"Name one species here, not {len(names)}.", names[0])
    return names[0] if names else default


def _wall_too_thick(wall: Length, outside: Length, shop: Shop) -> Exception:
    near = typed(_tidy(outside / 8, shop), shop.unit)
    message = (
        f"Walls {typed(wall, shop.unit)} thick meet in the middle of a vessel that is "
        f"{shop_text(outside, shop)} across the flats. Try {near}, or a wider vessel."
    )
    return refuse("wall", message, near)


def _tidy(length: Length, shop: Shop) -> Length:
    """The nearest length below that a tape shows, at least one line of it."""
    step = inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm
    return Length(max(length.nm // step, 1) * step)


def _prove(vessel: Vessel, shop: Shop) -> None:
    """Refuse what cannot be built, the walls first."""
    if vessel.strip_width < mm(3):
        most = max(1, vessel.height.nm // mm(10).nm)
        message = (
            f"{len(vessel.rows)} rows make strips only "
            f"{shop_text(vessel.strip_width, shop)} wide, too narrow to saw safely. "
            f"Use {most} or fewer."
        )
        raise refuse("strip_rows", message, str(most))
    if vessel.panels > vessel.sides:
        message = f"{vessel.sides} walls cannot come from {vessel.panels} panels."
        raise refuse("panels", message, str(vessel.sides))
    if vessel.housed:
        _prove_groove(vessel, shop)
    if vessel.splines:
        _prove_splines(vessel, shop)


def _prove_groove(vessel: Vessel, shop: Shop) -> None:
    wall, depth, unit = vessel.wall, vessel.groove_depth, shop.unit
    if depth >= wall:
        near = typed(_tidy(wall / 2, shop), unit)
        message = (
            f"A groove {typed(depth, unit)} deep goes through a wall "
            f"{typed(wall, unit)} thick. About half the wall would do: {near}."
        )
        raise refuse("groove_depth", message, near)
    if vessel.clearance >= depth:
        near = typed(_tidy(depth / 8, shop), unit)
        message = (
            f"With {typed(vessel.clearance, unit)} of room at each flat the base does "
            f"not reach into a groove {typed(depth, unit)} deep. Try {near}."
        )
        raise refuse("base_clearance", message, near)
    over = vessel.groove_up + vessel.base_thickness - vessel.height
    if over.nm >= 0:
        raise _base_over_the_top(vessel, shop)


def _base_over_the_top(vessel: Vessel, shop: Shop) -> Exception:
    height, thick, up = vessel.height, vessel.base_thickness, vessel.groove_up
    key = "base_thickness" if thick >= height else "groove_up"
    room = height if key == "base_thickness" else height - thick
    near = typed(_tidy(room / 4, shop), shop.unit)
    message = (
        f"The base does not fit: {typed(up, shop.unit)} up from the bottom and "
        f"{typed(thick, shop.unit)} thick, it stands out of walls only "
        f"{typed(height, shop.unit)} high. Try {near}."
    )
    return refuse(key, message, near)


def _prove_splines(vessel: Vessel, shop: Shop) -> None:
    if vessel.spline_visible * 2 >= vessel.outside_side:
        ratio = Fraction(vessel.outside_side.nm, 2 * vessel.spline_visible.nm)
        near = int(vessel.spline_share * ratio * 90) / Fraction(100)
        message = (
            f"Splines that show {shop_text(vessel.spline_visible, shop)} on each face "
            "run into those of the next corner. Take a smaller share of the corner."
        )
        raise refuse("spline_depth_share", message, str(float(near)))
    if vessel.spline_thickness * vessel.splines * 2 >= vessel.inside_height:
        most = vessel.inside_height.nm // (vessel.spline_thickness.nm * 3)
        message = (
            f"{vessel.splines} splines {typed(vessel.spline_thickness, shop.unit)} "
            f"thick leave too little wood in a corner "
            f"{typed(vessel.height, shop.unit)} high."
        )
        raise refuse("splines_per_corner", message, str(most))
