"""What cannot be built, and what could instead."""

from __future__ import annotations

from fractions import Fraction

from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_inputs import Inputs
from app.core.inputs import refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop


def prove(vessel: Vessel, shop: Shop) -> None:
    """Refuse what cannot be built, the walls first. Raises WorkshopError."""
    if vessel.glued and vessel.strip_width < mm(3):
        most = max(1, vessel.height.nm // mm(10).nm)
        if most < len(set(vessel.pattern.column(0))):
            raise _too_low(vessel, shop)
        message = (
            f"{len(vessel.widths)} rows make strips only "
            f"{shop_text(vessel.strip_width, shop)} wide, too narrow to saw safely. "
            f"Use {most} or fewer."
        )
        raise refuse("strip_rows", message, str(most))
    if vessel.housed:
        _prove_groove(vessel, shop)
    if vessel.has_lid:
        _prove_lid(vessel, shop)


def _too_low(vessel: Vessel, shop: Shop) -> Exception:
    """The refusal of walls too low for the strips their species need."""
    rows = len(vessel.widths)
    near = typed(tidy(mm(10), shop) * rows, shop.unit)
    message = (
        f"Walls {typed(vessel.height, shop.unit)} high in {rows} rows make strips "
        f"only {shop_text(vessel.strip_width, shop)} wide, too narrow to saw safely. "
        f"Try {near} or more, or one species."
    )
    return refuse("height", message, near)


def wall_too_thick(inputs: Inputs, outside: Length, shop: Shop) -> Exception:
    """The refusal of walls that meet in the middle."""
    shares = (Fraction(1, 8), Fraction(1, 4), Fraction(2, 5))
    tried = (tidy(outside * share, shop) for share in shares)
    found = [wall for wall in tried if _holds_base(inputs, wall)]
    near = typed(found[0], shop.unit) if found else ""
    hint = f"Try {near}, or a wider vessel." if near else "A wider vessel would do."
    message = (
        f"Walls {typed(inputs.wall, shop.unit)} thick meet in the middle of a vessel "
        f"that is {shop_text(outside, shop)} across the flats. {hint}"
    )
    return refuse("wall", message, near)


def _holds_base(inputs: Inputs, wall: Length) -> bool:
    """Whether the base still reaches into a wall so thick, and not through it."""
    depth = inputs.groove_depth or wall / 2
    free = inputs.base in ("under", "none")
    return free or inputs.base_clearance < depth < wall


def tidy(length: Length, shop: Shop) -> Length:
    """The nearest length below that a tape shows, or a round one still smaller."""
    step = inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm
    while step > length.nm and step > 1000:
        step //= 2
    return Length(max(length.nm // step, 1) * step)


def _prove_groove(vessel: Vessel, shop: Shop) -> None:
    wall, depth, unit = vessel.wall, vessel.groove_depth, shop.unit
    if depth >= wall:
        near = typed(_groove_that_holds(vessel, shop), unit)
        message = (
            f"A groove {typed(depth, unit)} deep goes through a wall "
            f"{typed(wall, unit)} thick. About half the wall is usual; {near} would do."
        )
        raise refuse("groove_depth", message, near)
    if vessel.clearance >= depth:
        near = typed(tidy(depth / 8, shop), unit)
        message = (
            f"With {typed(vessel.clearance, unit)} of room at each flat the base does "
            f"not reach into a groove {typed(depth, unit)} deep. Try {near}."
        )
        raise refuse("base_clearance", message, near)
    if (vessel.groove_up + vessel.base_thickness - vessel.height).nm >= 0:
        raise base_over_the_top(
            vessel.height, vessel.base_thickness, vessel.groove_up, shop
        )


def _groove_that_holds(vessel: Vessel, shop: Shop) -> Length:
    """Half the wall, or deeper where the base would not reach into that."""
    half = tidy(vessel.wall / 2, shop)
    if vessel.clearance < half or vessel.clearance >= vessel.wall:
        return half
    return (vessel.clearance + vessel.wall) / 2


def base_over_the_top(
    height: Length, thick: Length, up: Length, shop: Shop
) -> Exception:
    """The refusal of a base that stands out of the walls."""
    key = "base_thickness" if thick >= height else "groove_up"
    room = height - (up if key == "base_thickness" else thick)
    # With both too much neither alone would mend it.
    near = typed(tidy(room / 4, shop), shop.unit) if room.nm > 0 else ""
    hint = f" Try {near}." if near else " Walls that are higher would do."
    message = (
        f"The base does not fit: {typed(up, shop.unit)} up from the bottom and "
        f"{typed(thick, shop.unit)} thick, it stands out of walls only "
        f"{typed(height, shop.unit)} high.{hint}"
    )
    return refuse(key, message, near)


def _prove_lid(vessel: Vessel, shop: Shop) -> None:
    lid, unit = vessel.lid, shop.unit
    if lid.lip >= vessel.inside_height:
        near = typed(tidy(vessel.inside_height / 4, shop), unit)
        message = (
            f"The lid would reach {typed(lid.lip, unit)} inside, and there is only "
            f"{shop_text(vessel.inside_height, shop)} above the base. Try {near}."
        )
        raise refuse("lid_lip", message, near)
    if vessel.plug_inscribed * 2 < vessel.inside_inscribed:
        near = typed(tidy(vessel.inside_inscribed / 40, shop), unit)
        message = (
            f"With {typed(lid.room, unit)} of room at each flat nothing is left to "
            f"hold the lid in an opening {shop_text(vessel.inside_inscribed, shop)} "
            f"across. Try {near}."
        )
        raise refuse("lid_room", message, near)
