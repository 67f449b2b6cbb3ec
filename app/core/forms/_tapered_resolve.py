"""From what was typed to a tapered vessel that can be built, or why it cannot."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from app.core import allowance
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._patterned import read_pattern
from app.core.forms._tapered import BASE_KEYS, Tapered
from app.core.forms._tapered_inputs import NONE, Inputs
from app.core.inputs import refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop

USUAL_BASE_UP = inches("1/2")
# A flatter side is a frame; a level edge on it would be a feather. Degrees.
FLATTEST = {True: 60, False: 85}
NARROWEST = mm(5)
LOWEST = mm(10)
# Head to tail is worth its rolling over where it saves so much of the board.
WORTH = Fraction(1, 20)
HALVINGS = 90


def resolve(inputs: Inputs, shop: Shop) -> Tapered:
    """Inputs to a vessel that can be built, or the refusal that says why not."""
    lean, rise = _lean(inputs, shop)
    inch = shop.unit is Unit.INCH
    vessel = Tapered(
        sides=inputs.sides,
        top=inputs.top_inscribed,
        bottom=inputs.bottom_inscribed,
        height=inputs.height,
        wall=inputs.wall,
        level=inputs.edges == "level",
        lean=lean,
        rise=rise,
        head_to_tail=True,
        kerf=inputs.kerf or shop.kerf,
        base=inputs.base,
        base_thickness=inputs.base_thickness,
        base_up=NONE,
        clearance=inputs.base_clearance,
        base_species=_one("base_species", inputs.base_species, inputs.species[0]),
        base_strips=inputs.base_strips or 0,
        pattern=read_pattern(inputs, inputs.sides, inputs.strip_rows),
        spares=inputs.spares,
        allowed=allowance.read(inputs.over_size, BASE_KEYS, shop),
        step=inches("1/8") if inch else mm(1),
    )
    _prove_walls(vessel, shop)
    vessel = replace(vessel, head_to_tail=_head_to_tail(inputs, vessel))
    if not vessel.inside_base:
        _prove_under(vessel, shop)
        return vessel
    up = inputs.base_up if inputs.base_up is not None else _usual_up(vessel)
    vessel = replace(vessel, base_up=up)
    _prove_inside(vessel, shop)
    return vessel


def _lean(inputs: Inputs, shop: Shop) -> tuple[Angle, Fraction]:
    """The slope with its sign, and how high the outer face itself stands."""
    level, high, wall = inputs.edges == "level", inputs.height, inputs.wall
    out = Fraction(inputs.top_inscribed.nm - inputs.bottom_inscribed.nm, 2)
    if not out:
        return Angle.of(0), Fraction(high.nm)
    if not level and high <= wall:
        thick, stands = typed(wall, shop.unit), typed(high, shop.unit)
        told = f"Walls {thick} thick with square edges cannot stand only {stands} high."
        raise _too_flat(inputs, shop, told)
    if level:
        slope = math.atan2(abs(out), high.nm)
    else:
        slope = _square_slope(float(abs(out)), high.nm, wall.nm)
    if math.degrees(slope) > FLATTEST[level]:
        told = (
            f"The sides would lean {Angle.from_radians(slope)} from vertical; "
            f"{FLATTEST[level]}° is the most with {inputs.edges} edges."
        )
        raise _too_flat(inputs, shop, told)
    rise = Fraction(high.nm) if level else high.nm - wall.nm * Fraction(math.sin(slope))
    return Angle.from_radians(math.copysign(slope, out)), rise


def _square_slope(out: float, high: float, wall: float) -> float:
    """Where the outer face goes ``out`` while wall and face together stand ``high``.

    The face's own rise is the height less wall × sin(slope). Radians.
    """
    low, most = 0.0, math.pi / 2
    for _ in range(HALVINGS):
        middle = (low + most) / 2
        sin, cos = math.sin(middle), math.cos(middle)
        if (high - wall * sin) * sin < out * cos:
            low = middle
        else:
            most = middle
    return (low + most) / 2


def _too_flat(inputs: Inputs, shop: Shop, told: str) -> Exception:
    """A refusal of the height; what it names leans 50°, or a little less."""
    level = inputs.edges == "level"
    out = abs(inputs.top_inscribed.nm - inputs.bottom_inscribed.nm) / 2
    high = out / math.tan(math.radians(50)) + (0 if level else 2 * inputs.wall.nm)
    step = _mark(shop)
    near = typed(Length((math.ceil(high) // step + 1) * step), shop.unit)
    return refuse("height", f"{told} Try {near}.", near)


def _prove_walls(vessel: Tapered, shop: Shop) -> None:
    """Refuse walls that meet in the middle, or are too low, or their strips."""
    if min(vessel.inside_top, vessel.inside_bottom) < NARROWEST:
        raise _too_thick(vessel, shop)
    if vessel.slant < LOWEST:
        near = typed(inches("1") if shop.unit is Unit.INCH else mm(25), shop.unit)
        message = (
            f"Walls {shop_text(vessel.slant, shop)} up the slope are too low to saw "
            f"safely. Try {near}."
        )
        raise refuse("height", message, near)
    if vessel.row_widths[-1] < mm(3):
        most = max(len(vessel.pattern.species), vessel.across.nm // mm(10).nm)
        message = (
            f"{len(vessel.row_widths)} rows make strips only "
            f"{shop_text(vessel.row_widths[-1], shop)} wide, too narrow to saw safely. "
            f"Use {most} or fewer."
        )
        raise refuse("strip_rows", message, str(most))


def _too_thick(vessel: Tapered, shop: Shop) -> Exception:
    """A refusal of the walls, or of the narrow end where no wall would do."""
    narrow = min(vessel.top, vessel.bottom)
    if narrow < NARROWEST * 3:
        key = "top_inscribed" if vessel.top < vessel.bottom else "bottom_inscribed"
        wide = max(vessel.top, vessel.bottom, vessel.wall * 8)
        message = f"{shop_text(narrow, shop)} across the flats leaves no inside."
        return refuse(key, message, typed(wide, shop.unit))
    near = typed(_tidy(narrow / 8, shop), shop.unit)
    message = (
        f"Walls {typed(vessel.wall, shop.unit)} thick meet in the middle where the "
        f"vessel is {shop_text(narrow, shop)} across the flats. Try {near}, or a "
        "wider vessel."
    )
    return refuse("wall", message, near)


def _head_to_tail(inputs: Inputs, vessel: Tapered) -> bool:
    """Whether the walls are cut from one piece that is rolled over for every cut."""
    alike = all(column == column[::-1] for column in vessel.pattern.columns)
    if inputs.cut_from == "head to tail" and not alike:
        raise refuse(
            "cut_from",
            "Head to tail turns every second wall upside down, and these strips do not "
            "read the same from the bottom up and from the top down. Cut the walls one "
            "by one.",
            "one by one",
        )
    if inputs.cut_from is not None:
        return inputs.cut_from == "head to tail"
    count = vessel.sides + vessel.spares
    one_by_one = replace(vessel, head_to_tail=False).run(count)
    worth = vessel.run(count).nm <= one_by_one.nm * (1 - WORTH)
    # Blanks sawn from boards one by one are cut one by one.
    return vessel.glued and alike and worth


def _usual_up(vessel: Tapered) -> Length:
    """Where an inside base goes when nobody says: low, with room for its blocks."""
    low = math.ceil(vessel.inside_low)
    high = int(vessel.inside_high) - vessel.base_thickness.nm
    return Length(max(low, min(USUAL_BASE_UP.nm, (low + high) // 2)))


def _prove_under(vessel: Tapered, shop: Shop) -> None:
    if vessel.base != "under":
        return
    if not vessel.level and vessel.lean.degrees:
        raise refuse(
            "base",
            "Under leaning walls with square edges a base would touch only along one "
            "edge. Level the edges, or put the base inside.",
            "loose",
        )
    if vessel.base_faces[0] < NARROWEST:
        reach = (vessel.bottom - NARROWEST).nm / (4 * abs(vessel.tan))
        near = typed(_tidy(Length(int(reach)), shop), shop.unit)
        message = (
            f"A base {typed(vessel.base_thickness, shop.unit)} thick under the walls "
            f"would taper away to nothing. Try {near}."
        )
        raise refuse("base_thickness", message, near)


def _prove_inside(vessel: Tapered, shop: Shop) -> None:
    """Refuse a base that does not stand between the walls, or that room eats up."""
    low, high = math.ceil(vessel.inside_low), int(vessel.inside_high)
    thick, up, unit = vessel.base_thickness, vessel.base_up, shop.unit
    if thick.nm >= high - low:
        near = typed(_tidy(Length((high - low) // 4), shop), unit)
        message = (
            f"A base {typed(thick, unit)} thick does not fit between walls "
            f"{typed(vessel.height, unit)} high. Try {near}."
        )
        raise refuse("base_thickness", message, near)
    if not low <= up.nm <= high - thick.nm:
        least = Length(low) if up.nm < low else _tidy(Length(high - thick.nm), shop)
        near = typed(max(least, Length(low)), unit)
        message = (
            f"The base does not fit {typed(up, unit)} up: the inside of the walls "
            f"reaches from {shop_text(Length(low), shop)} to "
            f"{shop_text(Length(high), shop)} above the bench. Try {near}."
        )
        raise refuse("base_up", message, near)
    if min(vessel.base_faces) < NARROWEST:
        key = "base_clearance" if vessel.base == "loose" else "base_up"
        inside = min(vessel.base_faces) + vessel.room * 2
        near = typed(_tidy(inside / 8, shop), unit)
        message = (
            f"With {typed(vessel.room, unit)} of room at each flat nothing is left of "
            f"a base in {shop_text(inside, shop)} across. Try {near}."
        )
        raise refuse(key, message, near)


def _one(key: str, names: tuple[str, ...] | None, default: str) -> str:
    """The one species named, or the default."""
    if names and len(names) > 1:
        raise refuse(key, f"Name one species here, not {len(names)}.", names[0])
    return names[0] if names else default


def _mark(shop: Shop) -> int:
    """A line of the tape, nm."""
    return inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm


def _tidy(length: Length, shop: Shop) -> Length:
    """The nearest length below that a tape shows; a shorter one as it is."""
    step = _mark(shop)
    return Length(length.nm // step * step) if length.nm >= step else length
