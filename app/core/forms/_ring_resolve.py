"""From what was typed to rings that can be glued, or the reason they cannot."""

from __future__ import annotations

from fractions import Fraction

from app.core import allowance
from app.core.forms._bench import shop_text
from app.core.forms._patterned import read_pattern
from app.core.forms._ring import Ring, Stack
from app.core.forms._ring_inputs import WIDEST, Inputs
from app.core.forms._turned import Profile
from app.core.forms._turned_inputs import (
    Unfit,
    marks,
    read_bottom,
    read_profile,
    resolved,
)
from app.core.inputs import refuse, typed
from app.core.length import Length, mm
from app.core.pattern import Pattern
from app.core.shop import Shop

MOST_RINGS = 24
# Shorter pieces cannot be held on the sled: common practice, no source.
SHORTEST_EDGE = mm(10)
ALLOWED = ("segment", "bottom")


def resolve(inputs: Inputs, shop: Shop) -> Stack:
    """Inputs to rings that can be glued and turned, or the refusal that says why."""
    return resolved(lambda asked: _stack(asked, shop), inputs, shop)


def _stack(inputs: Inputs, shop: Shop) -> Stack:
    """Raises Unfit, or a refusal, for what cannot be built."""
    profile = _profile(inputs, shop)
    heights = _heights(inputs, profile, shop)
    pattern = _pattern(inputs, len(heights))
    _prove_inside(inputs, profile, shop)
    rings = tuple(
        _ring(i + 1, low, high, inputs, profile, pattern)
        for i, (low, high) in enumerate(heights)
    )
    stack = Stack(
        segments=inputs.segments,
        profile=profile,
        shaped=inputs.profile is not None,
        turning=inputs.turning_allowance,
        thickness=inputs.thickness,
        kerf=inputs.kerf or shop.kerf,
        pattern=pattern,
        rings=rings,
        bottom=read_bottom(
            inputs.bottom,
            inputs.bottom_thickness,
            inputs.bottom_species,
            inputs.species[0],
            profile,
            inputs.turning_allowance,
        ),
        spares=inputs.spares,
        allowances=allowance.read(inputs.over_size, ALLOWED, shop),
    )
    _prove_edges(inputs, stack, shop)
    return stack


def _profile(inputs: Inputs, shop: Shop) -> Profile:
    floor = inputs.bottom_thickness if inputs.bottom == "solid" else Length(0)
    if inputs.profile is None:
        return _plain(inputs, floor, shop)
    for key in ("outside_diameter", "inside_diameter"):
        if getattr(inputs, key) is not None:
            message = "The profile says how wide the stack is. Leave this empty."
            raise refuse(key, message)
    levels = read_profile(inputs.profile, shop, WIDEST)
    profile = Profile(levels, inputs.wall * 2, floor)
    if floor >= profile.height:
        near = marks(mm(3), profile.height / 2, shop, down=True)
        raise Unfit(
            "bottom_thickness",
            f"The bottom is as thick as the whole profile is high, "
            f"{shop_text(profile.height, shop)}.",
            near,
        )
    return profile


def _plain(inputs: Inputs, floor: Length, shop: Shop) -> Profile:
    """One ring, straight up and down."""
    for key in ("outside_diameter", "inside_diameter"):
        if getattr(inputs, key) is None:
            raise _not_wide(key, inputs, shop)
    outside, inside = inputs.outside_diameter, inputs.inside_diameter
    assert outside is not None
    assert inside is not None
    if inside >= outside:
        low = Length(inputs.turning_allowance.nm * 2 + 1)
        near_ones = marks(low, outside * Fraction(3, 4), shop, down=True)
        raise Unfit(
            "inside_diameter",
            f"The inside, {typed(inside, shop.unit)}, is as wide as the outside, "
            f"{typed(outside, shop.unit)}: nothing is left of the ring.",
            near_ones,
        )
    top = floor + inputs.thickness
    return Profile(((Length(0), outside), (top, outside)), outside - inside, floor)


def _not_wide(key: str, inputs: Inputs, shop: Shop) -> Exception:
    """A diameter is missing; where the other is given, one that suits it."""
    outside, inside = inputs.outside_diameter, inputs.inside_diameter
    near: list[Length] = []
    if outside is not None:
        near = marks(outside / 2, outside * Fraction(4, 5), shop, down=True)
    if inside is not None:
        near = marks(inside * Fraction(5, 4), inside * 2, shop, down=False)
    message = (
        "How wide is the ring when it is turned? Give both diameters, or a profile."
    )
    return Unfit(key, message, near)


def _heights(
    inputs: Inputs, profile: Profile, shop: Shop
) -> list[tuple[Length, Length]]:
    """Where each ring begins and ends; the last one may stand over the top."""
    room, thick = profile.height - profile.floor, inputs.thickness
    count = -(-room.nm // thick.nm)
    if count > MOST_RINGS:
        least = Length(-(-room.nm // MOST_RINGS))
        near = marks(least, least * 2, shop, down=False)
        raise Unfit(
            "thickness",
            f"A stack {shop_text(room, shop)} high needs {count} rings "
            f"{typed(thick, shop.unit)} thick; {MOST_RINGS} are the most.",
            near,
        )
    lows = [profile.floor + thick * i for i in range(count)]
    return [(low, low + thick) for low in lows]


def _pattern(inputs: Inputs, rings: int) -> Pattern:
    """The species of every segment; ring by ring from the bottom."""
    own = inputs.pattern == "own"
    if inputs.pattern == "blend" and rings == 1:
        message = "A blend runs up several rings; there is one. Take another pattern."
        raise refuse("pattern", message, "alternating")
    simple = inputs.pattern != "blend" and not own
    return read_pattern(
        inputs,
        inputs.segments,
        rings,
        rows_key="own_pattern" if own else "species",
        side="segment",
        needs=lambda _: inputs.species[0] if simple else "",
    )


def _ring(
    number: int,
    low: Length,
    high: Length,
    inputs: Inputs,
    profile: Profile,
    pattern: Pattern,
) -> Ring:
    widest, narrowest = profile.over(low, high)
    both = inputs.turning_allowance * 2
    return Ring(
        number=number,
        low=low,
        high=high,
        segments=inputs.segments,
        outside=Length.nearest(widest) + both,
        inside=Length.nearest(narrowest) - both,
        woods=pattern.rows[number - 1],
    )


def _prove_inside(inputs: Inputs, profile: Profile, shop: Shop) -> None:
    """The inside circle less its allowance must leave a hole."""
    _, narrowest = profile.over(profile.floor, profile.height)
    both = inputs.turning_allowance * 2
    if narrowest > both.nm:
        return
    if inputs.profile is None:
        outside = inputs.outside_diameter or Length(0)
        near = marks(Length(both.nm + 1), outside, shop, down=False)
        raise Unfit(
            "inside_diameter",
            f"An inside of {typed(Length.nearest(narrowest), shop.unit)} less twice "
            f"the allowance of {typed(inputs.turning_allowance, shop.unit)} leaves no "
            "hole for the segments to meet round.",
            near,
        )
    room = Length.nearest(narrowest) + inputs.wall * 2 - both
    thin = marks(mm(1), max(room / 2, mm(1)), shop, down=True)
    raise Unfit(
        "wall",
        f"Walls {typed(inputs.wall, shop.unit)} thick meet in the middle where the "
        "profile is narrowest, or leave no room for the turning allowance.",
        thin,
    )


def _prove_edges(inputs: Inputs, stack: Stack, shop: Shop) -> None:
    """Segments long enough to hold and short enough for the sled."""
    short = min(ring.outer_edge for ring in stack.rings)
    long = stack.widest.outer_edge
    if short < SHORTEST_EDGE:
        message = (
            f"{stack.segments} segments are only {shop_text(short, shop)} long, too "
            "short to hold safely. Fewer are longer."
        )
        tried = range(stack.segments - 1, 2, -1)
    elif long > shop.longest_crosscut:
        message = (
            f"{stack.segments} segments are {shop_text(long, shop)} long, and your "
            f"sled takes {shop_text(shop.longest_crosscut, shop)}. More are shorter."
        )
        tried = range(stack.segments + 1, 25)
    else:
        return
    raise Unfit("segments", message, tried)
