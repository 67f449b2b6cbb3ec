"""How wide a vessel is, from the one size across or the volume that was typed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from app.core import geometry
from app.core.forms._bench import shop_text
from app.core.forms._vessel_inputs import ACROSS, Inputs
from app.core.forms._vessel_prove import base_over_the_top
from app.core.inputs import LONGEST, refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop
from app.core.volume_typed import CUBIC_INCH, LITRE, Volume

WORDS = {
    "outside_side": "the outside side",
    "outside_inscribed": "outside across the flats",
    "outside_circumscribed": "outside through the corners",
    "inside_inscribed": "inside across the flats",
    "inside_volume": "what it holds",
}


@dataclass(frozen=True, slots=True)
class Across:
    """Outside side, inscribed and circumscribed; inside where that was given."""

    given: str
    side: Length
    inscribed: Length
    circumscribed: Length
    inside: Length | None = None


def across(inputs: Inputs, shop: Shop) -> Across:
    """The sizes across. Raises WorkshopError where none or several are given."""
    key = _given(inputs, shop)
    sides, size = inputs.sides, getattr(inputs, key)
    if key == "outside_side":
        flats, around = (
            geometry.inscribed(size, sides),
            geometry.circumscribed(size, sides),
        )
        return Across(key, size, flats, around)
    if key == "outside_circumscribed":
        flats = size * geometry.cos(sides)
        return Across(key, geometry.side_of_circumscribed(size, sides), flats, size)
    inside = None
    if key == "inside_volume":
        inside = _holding(inputs, size, shop)
    elif key == "inside_inscribed":
        inside = size
    flats = size if inside is None else inside + inputs.wall * 2
    around = Length.nearest(flats.nm / geometry.cos(sides))
    return Across(key, geometry.side_of_inscribed(flats, sides), flats, around, inside)


def _given(inputs: Inputs, shop: Shop) -> str:
    """Which of the five was typed."""
    given = [key for key in ACROSS if getattr(inputs, key) is not None]
    if not given:
        near = typed(inches("4") if shop.unit is Unit.INCH else mm(100), shop.unit)
        message = (
            "How wide is the vessel? Give one size across, or what it holds: "
            f"{', '.join(ACROSS[:-1])} or {ACROSS[-1]}."
        )
        raise refuse(ACROSS[0], message, near)
    if len(given) > 1:
        message = (
            f"{' and '.join(given)} are given together, and each settles the "
            f"other. Keep {given[0]} and leave the rest empty."
        )
        raise refuse(given[1], message)
    return given[0]


def _holding(inputs: Inputs, volume: Volume, shop: Shop) -> Length:
    """Inside across the flats of the vessel that holds so much, the base seated."""
    deep = inside_height(inputs)
    if deep.nm <= 0:
        raise base_over_the_top(
            inputs.height,
            inputs.base_thickness,
            inputs.groove_up if inputs.base == "groove" else Length(0),
            shop,
        )
    per = _per_square(inputs.sides, deep)
    inside = root(Fraction(volume.nm3) / per)
    widest = LONGEST - inputs.wall * 2
    if inside > widest:
        raise _too_much(inputs, int(widest.nm**2 * per), shop)
    if inside < mm(1):
        near = Volume(_tidy(int(mm(10).nm ** 2 * per), shop, up=True))
        message = (
            f"{typed(volume, shop.unit)} leaves no room inside walls "
            f"{shop_text(inputs.height, shop)} high. Try {typed(near, shop.unit)}, or "
            "lower walls."
        )
        raise refuse("inside_volume", message, typed(near, shop.unit))
    return inside


def _too_much(inputs: Inputs, most: int, shop: Shop) -> Exception:
    near = typed(Volume(_tidy(most, shop)), shop.unit)
    message = (
        f"With walls {shop_text(inputs.height, shop)} high it would be wider than 5 m "
        f"(16 ft) to hold that. {near} would do, or higher walls."
    )
    return refuse("inside_volume", message, near)


def inside_height(inputs: Inputs) -> Length:
    """From the top of the base to the top of the walls."""
    if inputs.base in ("under", "none"):
        return inputs.height
    up = inputs.groove_up if inputs.base == "groove" else Length(0)
    return inputs.height - up - inputs.base_thickness


def _per_square(sides: int, deep: Length) -> Fraction:
    """What is held for each square nanometre of the square round the circle."""
    return sides * geometry.tan(sides) / 4 * deep.nm


def root(square: Fraction) -> Length:
    """The length whose square this is, nm², to the nearest nanometre."""
    # Four times the square, so that the root's lowest bit rounds.
    return Length((math.isqrt(int(4 * square)) + 1) // 2)


def _tidy(nm3: int, shop: Shop, *, up: bool = False) -> int:
    """A round volume near, below it unless ``up``."""
    step = CUBIC_INCH if shop.unit is Unit.INCH else LITRE // 100
    if nm3 < step:
        step //= 64 if shop.unit is Unit.INCH else 100
    return (nm3 // step + up) * step
