"""Wood movement as a reader has it: sizes, a table, and warnings with what mends."""

from __future__ import annotations

from collections.abc import Mapping

from app.core.climate import Climate, figure
from app.core.design import Moving
from app.core.fine import fine
from app.core.length import NM_PER_INCH, Length, Unit, mm, show
from app.core.shop import Shop
from app.core.size import Group, Kind, Size
from app.core.table import Table
from app.core.wood_moves import NOTHING, Movement

SOURCE = "Wood Handbook FPL-GTR-190 eq. 4-5, 13-2 and 13-3, tables 4-3 and 13-5"
THUMB = "common practice, no source"


def sizes(found: list[Movement], shop: Shop) -> list[Size]:
    """What each swells and shrinks, and the room to plan for what is captured."""
    made = []
    for one in found:
        made += [
            _size(one, "swells", one.swells, shop),
            _size(one, "shrinks", one.shrinks, shop),
        ]
        if one.captured:
            made.append(_room(one, shop))
    return made


def _size(one: Movement, verb: str, amount: Length, shop: Shop) -> Size:
    """A change with the equation of the climate that brings it about."""
    sign = 1 if verb == "swells" else -1
    damp = sign * one.to_damp.change.nm > sign * one.to_dry.change.nm
    moves, air = (one.to_damp, shop.air_damp) if damp else (one.to_dry, shop.air_dry)
    rings = "along" if one.tangential else "across"
    now, then = shop.air_now.text(shop.unit), air.text(shop.unit)
    formula = (
        f"{one.of.label}, {rings} the growth rings, from {now} to {then}: size × "
        "change for each percent × percents of moisture"
    )
    comes_to = fine(moves.change, shop.display)
    values = f"{_text(one.of.size, shop)} × {moves.values} = {comes_to}"
    return Size(
        f"{one.of.key}_{verb}",
        f"{one.of.label}: {verb} by at most",
        Kind.LENGTH,
        amount,
        formula,
        values,
        moves.source,
        group=Group.MOVES,
    )


def _room(one: Movement, shop: Shop) -> Size:
    return Size(
        f"{one.of.key}_room",
        f"{one.of.label}: room to plan at each side",
        Kind.LENGTH,
        room_each_side(one.swells, shop),
        "half of what it swells, up to the next mark on the tape",
        f"{fine(one.swells, shop.display)} / 2",
        THUMB,
        group=Group.MOVES,
    )


def room_each_side(swells: Length, shop: Shop) -> Length:
    """Half of it, up to the next mark on the maker's tape."""
    inch = shop.display.unit is Unit.INCH
    mark = NM_PER_INCH // shop.display.denominator if inch else mm("0.5").nm
    return Length(-(-swells.nm // (2 * mark)) * mark)


def table(found: list[Movement], shop: Shop) -> tuple[Table, ...]:
    """Every size in the two airs beside one another; none where nothing moves."""
    if not found:
        return ()
    headings = (
        "Across the grain",
        _heading("In the shop", shop.air_now, shop),
        _heading("Driest", shop.air_dry, shop),
        _heading("Dampest", shop.air_damp, shop),
        "Room it has",
    )
    rows = tuple(
        (
            f"{one.of.label}, {one.name}",
            _text(one.of.size, shop),
            change(one.to_dry.change, shop),
            change(one.to_damp.change, shop),
            _has(one, shop),
        )
        for one in found
    )
    working = (
        "Size × change for each percent of moisture × percents of moisture; inside "
        "6 to 14 % by the coefficients, outside by the shrinkage. What the air brings "
        "wood to is reckoned from humidity and temperature"
    )
    return (
        Table(
            "wood_moves",
            "How the wood moves",
            headings,
            rows,
            working,
            SOURCE,
            Group.MOVES,
        ),
    )


def _heading(name: str, air: Climate, shop: Shop) -> str:
    # A narrow column must not part a number from its unit.
    told = f"{name}: {_air(air, shop)}"
    return told.replace(" %", "\N{NO-BREAK SPACE}%").replace(
        " °", "\N{NO-BREAK SPACE}°"
    )


def _air(air: Climate, shop: Shop) -> str:
    told = air.text(shop.unit)
    if shop.display.both:
        other = Unit.MILLIMETRE if shop.unit is Unit.INCH else Unit.INCH
        told += f" ({air.degrees(other)})"
    return f"{told}, wood at {figure(air.moisture)} %"


def _has(one: Movement, shop: Shop) -> str:
    if one.of.room is None:
        return "free"
    room = fine(one.of.room, shop.display)
    return f"{room}, {'too little' if one.pushes else 'enough'}"


def warnings(
    moving: tuple[Moving, ...],
    found: list[Movement],
    shop: Shop,
    labels: Mapping[str, str],
) -> list[str]:
    """What is held too tight, each naming the input that gives it room.

    ``labels`` are the words the form has for its inputs.
    """
    told = [_pushes(one, shop, labels) for one in found if one.pushes]
    known = {one.of.key for one in found}
    return told + [
        _by_thumb(one, labels)
        for one in moving
        if one.key not in known and one.room is not None and one.room * 100 < one.size
    ]


def _pushes(one: Movement, shop: Shop, labels: Mapping[str, str]) -> str:
    damp = one.to_damp.change >= one.to_dry.change
    air, moves = (shop.air_damp, one.to_damp) if damp else (shop.air_dry, one.to_dry)
    has = one.of.room or NOTHING
    named = _named(one.of, labels)
    each = _text(room_each_side(one.swells, shop), shop)
    has_room = f"it has {fine(has, shop.display)} of room, both sides together"
    leave = f"Leave {each} at each side{named}"
    if not has:
        has_room, leave = "nothing gives way", f"Hold it so that it can move{named}"
    return (
        f"From the shop’s air ({_air(shop.air_now, shop)}) to the home’s "
        f"({_air(air, shop)}) the {one.of.label.lower()}, {_text(one.of.size, shop)} "
        f"of {one.name}, swells by {fine(one.swells, shop.display)}; {has_room}. "
        f"{leave}, or "
        f"make it of plywood. Source: {moves.source}."
    )


def _by_thumb(one: Moving, labels: Mapping[str, str]) -> str:
    # Common practice, no source: for woods whose figures are not known.
    return (
        f"The {one.label.lower()} has less than half a percent of its width to swell "
        "at each side. A plain-sawn board can move more than that over a year: leave "
        f"more room{_named(one, labels)}, or make it of plywood."
    )


def _named(one: Moving, labels: Mapping[str, str]) -> str:
    return f" (“{labels.get(one.input, one.input)}”)" if one.input else ""


def change(length: Length, shop: Shop) -> str:
    """A movement in words: ``0.054 in less``."""
    if not length:
        return "no change"
    way = "more" if length > NOTHING else "less"
    return f"{fine(abs(length), shop.display)} {way}"


def _text(length: Length, shop: Shop) -> str:
    return show(length, shop.display).text
