"""From what was typed to staves that can be ripped, or the reason they cannot."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from app.core import allowance
from app.core.forms._bench import shop_text
from app.core.forms._stave import Cylinder
from app.core.forms._stave_inputs import THICKEST, Inputs
from app.core.forms._turned import Profile
from app.core.forms._turned_inputs import Unfit, marks, read_bottom, resolved
from app.core.inputs import refuse, typed
from app.core.length import Length, mm
from app.core.shop import Shop

# Narrower ones cannot be pushed past a tilted blade: common practice, no source.
NARROWEST = mm(12)
# What the inner face must keep, to lie on the table: common practice, no source.
LEAST_INNER = mm(3)
ALLOWED = ("stave", "bottom")


def resolve(inputs: Inputs, shop: Shop) -> Cylinder:
    """Inputs to staves that can be ripped and turned, or the refusal."""
    return resolved(lambda asked: _cylinder(asked, shop), inputs, shop)


def _cylinder(inputs: Inputs, shop: Shop) -> Cylinder:
    """Raises Unfit, or a refusal, for what cannot be built."""
    outside, inside = _circles(inputs, shop)
    floor = inputs.bottom_thickness if inputs.bottom == "solid" else Length(0)
    top = floor + inputs.height
    wide = inputs.outside_diameter
    walls = wide - inputs.inside_diameter
    profile = Profile(((Length(0), wide), (top, wide)), walls, floor)
    made = Cylinder(
        staves=inputs.staves,
        profile=profile,
        outside=outside,
        inside=inside,
        turning=inputs.turning_allowance,
        height=inputs.height,
        thickness=inputs.thickness or Length(0),
        woods=_woods(inputs),
        bottom=read_bottom(
            inputs.bottom,
            inputs.bottom_thickness,
            inputs.bottom_species,
            inputs.species[0],
            profile,
            inputs.turning_allowance,
        ),
        kerf=inputs.kerf or shop.kerf,
        spares=inputs.spares,
        allowances=allowance.read(inputs.over_size, ALLOWED, shop),
    )
    made = replace(made, thickness=inputs.thickness or made.least)
    _prove(inputs, made, shop)
    return made


def _circles(inputs: Inputs, shop: Shop) -> tuple[Length, Length]:
    """Across the outer flats, and through the inner corners at most."""
    both = inputs.turning_allowance * 2
    outside, inside = inputs.outside_diameter, inputs.inside_diameter
    if both < inside < outside:
        return outside + both, inside - both
    if inside >= outside:
        message = (
            f"The inside, {typed(inside, shop.unit)}, is as wide as the outside, "
            f"{typed(outside, shop.unit)}: nothing is left of the staves."
        )
        near = marks(Length(both.nm + 1), outside * Fraction(5, 6), shop, down=True)
    else:
        message = (
            f"An inside of {typed(inside, shop.unit)} less twice the allowance of "
            f"{typed(inputs.turning_allowance, shop.unit)} leaves no hole."
        )
        near = marks(Length(both.nm + 1), outside, shop, down=False)
    raise Unfit("inside_diameter", message, near)


def _woods(inputs: Inputs) -> tuple[str, ...]:
    names, count = inputs.species, inputs.staves
    if len(names) > count:
        message = f"{len(names)} species need as many staves; there are {count}."
        raise refuse("species", message, ", ".join(names[:count]))
    return tuple(names[i % len(names)] for i in range(count))


def _prove(inputs: Inputs, made: Cylinder, shop: Shop) -> None:
    if made.width < NARROWEST:
        message = (
            f"{made.staves} staves are only {shop_text(made.width, shop)} wide, too "
            "narrow to rip at a bevel. Fewer are wider."
        )
        tried = range(made.staves - 1, 2, -1)
        raise Unfit("staves", message, tried)
    if made.least > THICKEST:
        raise _too_thick(inputs, made, shop)
    if made.thickness < made.least:
        least = shop_text(made.least, shop)
        message = (
            f"Staves {typed(made.thickness, shop.unit)} thick do not hold both "
            f"circles; {least} is the least for {made.staves} of them."
        )
        near_ones = marks(made.least, made.least * 2, shop, down=False)
        raise Unfit("thickness", message, near_ones)
    if made.inner_width < LEAST_INNER:
        raise _no_inner_face(inputs, made, shop)


def _too_thick(inputs: Inputs, made: Cylinder, shop: Shop) -> Exception:
    """More wood than a stave is made of, mostly for chips."""
    outside = inputs.outside_diameter
    return Unfit(
        "inside_diameter",
        f"{made.staves} staves would have to be {shop_text(made.least, shop)} thick to "
        f"hold both circles; {shop_text(THICKEST, shop)} is the most. A wider inside "
        "needs less.",
        marks(outside / 2, outside - mm(10), shop, down=True),
    )


def _no_inner_face(inputs: Inputs, made: Cylinder, shop: Shop) -> Exception:
    """The bevels meet, or nearly: nothing is left to lie on the table."""
    message = (
        f"Both bevels nearly meet: {shop_text(max(made.inner_width, Length(0)), shop)} "
        "of the inner face is left, too little to lie on the saw's table."
    )
    if inputs.thickness is not None and inputs.thickness > made.least:
        span = made.least, inputs.thickness, shop
        near = [*marks(*span, down=True), *marks(*span, down=False)]
        return Unfit("thickness", message, near)
    wider = marks(inputs.inside_diameter, inputs.outside_diameter, shop, down=False)
    return Unfit("inside_diameter", message, wider)
