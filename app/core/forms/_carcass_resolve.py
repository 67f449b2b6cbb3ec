"""From what was typed to a carcass that can be built, or the reason it cannot."""

from __future__ import annotations

from dataclasses import replace

from app.core import allowance
from app.core.forms._bench import shop_text
from app.core.forms._carcass import NOTHING, WIDEST_STRIP, Carcass
from app.core.forms._carcass_inputs import SOLID, Inputs
from app.core.inputs import refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop

# Whose over-size a design may set: see over_size.
KEYS = ("side", "top", "shelf", "loose_shelf", "back", "side_edge", "shelf_edge")
SHEETS = {"plywood": "plywood", "mdf": "MDF"}
LEAST_OPENING = mm(40)
SOLID_ROOM = inches("1/8")
NARROWEST = mm(10)


def resolve(inputs: Inputs, shop: Shop) -> Carcass:
    """Inputs to a carcass that can be built, or the refusal that says why not."""
    _one_species(inputs)
    solid, room = inputs.material == SOLID, inputs.back_room
    if room is None:
        room = SOLID_ROOM if inputs.back == SOLID else NOTHING
    name = inputs.species[0] if solid else SHEETS[inputs.material]
    carcass = Carcass(
        width=inputs.width,
        height=inputs.height,
        depth=inputs.depth,
        material=inputs.material,
        species=name,
        thickness=inputs.thickness,
        strips=1,
        edge=inputs.edge_strip,
        edge_species=(inputs.edge_species or inputs.species)[0],
        shelves=inputs.shelves,
        dado=inputs.dado_depth or inputs.thickness / 3,
        load=inputs.shelf_load,
        back=inputs.back,
        back_thickness=inputs.back_thickness,
        back_room=room,
        back_species=_back_species(inputs),
        back_strips=1,
        loose=inputs.loose_shelves,
        play=inputs.loose_play,
        pinned=inputs.pins == "yes" or inputs.loose_shelves > 0,
        pin_diameter=inputs.pin_diameter,
        pin_depth=inputs.pin_depth,
        pin_pitch=inputs.pin_pitch,
        pin_inset=inputs.pin_inset,
        pin_clear=inputs.pin_clear,
        kerf=shop.kerf,
        step=inches("1/8") if shop.unit is Unit.INCH else mm(1),
        allowances=allowance.read(inputs.over_size, KEYS, shop),
    )
    _prove(carcass, inputs, shop)
    return replace(
        carcass,
        strips=_strips(carcass, inputs, shop),
        back_strips=_pieces(carcass.back_width) if inputs.back == SOLID else 1,
    )


def _one_species(inputs: Inputs) -> None:
    for key in ("species", "edge_species", "back_species"):
        names = getattr(inputs, key)
        if names and len(names) > 1:
            raise refuse(key, f"Name one species here, not {len(names)}.", names[0])


def _back_species(inputs: Inputs) -> str:
    if inputs.back == SOLID:
        return (inputs.back_species or inputs.species)[0]
    return SHEETS.get(inputs.back, "")


def _pieces(wide: Length) -> int:
    """How many strips so wide a panel needs."""
    return -(-wide.nm // WIDEST_STRIP.nm)


def _strips(carcass: Carcass, inputs: Inputs, shop: Shop) -> int:
    if not carcass.solid:
        return 1
    wide = carcass.shelf_depth
    if carcass.loose:
        wide = min(wide, carcass.loose_depth)
    count = inputs.strips or _pieces(carcass.board_depth)
    if wide < NARROWEST * count:
        most = max(1, wide.nm // (NARROWEST.nm * 2))
        message = (
            f"{count} strips of a board {shop_text(wide, shop)} wide are too narrow to "
            f"saw safely. Use {most} or fewer."
        )
        raise refuse("strips", message, str(most))
    return count


def tidy(length: Length, shop: Shop) -> Length:
    """The nearest length below that a tape shows, or half where that is nothing."""
    step = inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm
    return Length(length.nm // step * step) or length / 2


def _prove(carcass: Carcass, inputs: Inputs, shop: Shop) -> None:
    """Refuse what cannot be built, the outside first."""
    _prove_case(carcass, shop)
    _prove_shelves(carcass, shop)
    _prove_depth(carcass, inputs, shop)
    if carcass.pinned:
        _prove_pins(carcass, shop)
    if carcass.loose:
        _prove_loose(carcass, shop)


def _prove_case(carcass: Carcass, shop: Shop) -> None:
    thick, least = carcass.thickness, min(carcass.width, carcass.height)
    if carcass.inside_width < LEAST_OPENING or carcass.inside_height < LEAST_OPENING:
        room = least - LEAST_OPENING
        key, near = "thickness", typed(tidy(room / 3, shop), shop.unit)
        if room < mm(3):
            key = "width" if carcass.width == least else "height"
            near = typed(carcass.rough(thick * 2 + LEAST_OPENING), shop.unit)
        message = (
            f"Two boards {typed(thick, shop.unit)} thick leave no room in a carcass "
            f"{shop_text(least, shop)} across. Try {near}."
        )
        raise refuse(key, message, near)
    if carcass.dado >= thick:
        near = typed(tidy(thick / 3, shop), shop.unit)
        message = (
            f"A dado {typed(carcass.dado, shop.unit)} deep goes through a side "
            f"{typed(thick, shop.unit)} thick. A third of it would do: {near}."
        )
        raise refuse("dado_depth", message, near)


def _prove_shelves(carcass: Carcass, shop: Shop) -> None:
    if carcass.opening >= LEAST_OPENING:
        return
    each = carcass.thickness + LEAST_OPENING
    most = max(0, (carcass.inside_height - LEAST_OPENING).nm // each.nm)
    message = (
        f"{carcass.shelves} shelves leave spaces of less than "
        f"{shop_text(LEAST_OPENING, shop)}. Use {most} or fewer."
    )
    raise refuse("shelves", message, str(most))


def _prove_depth(carcass: Carcass, inputs: Inputs, shop: Shop) -> None:
    unit, least = shop.unit, mm(20)
    if carcass.shelf_depth < least:
        key, room = "edge_strip", carcass.depth - carcass.behind - least
        if not carcass.edge or room < mm(3):
            key, room = "back_thickness", carcass.depth - carcass.edge - least
        near = typed(tidy(room / 2, shop), unit)
        if not carcass.has_back or room < mm(3):
            key = "depth"
            near = typed(carcass.rough(carcass.edge + carcass.behind + least), unit)
        message = (
            f"Of a depth of {typed(carcass.depth, unit)} too little is left for the "
            f"shelves. Try {near}."
        )
        raise refuse(key, message, near)
    if carcass.has_back and carcass.back_room >= carcass.dado:
        near = typed(tidy(carcass.dado / 3, shop), unit)
        message = (
            f"With {typed(carcass.back_room, unit)} of room at each side the back does "
            f"not reach into a rebate {shop_text(carcass.dado, shop)} deep. Try {near}."
        )
        raise refuse("back_room", message, near)


def _prove_pins(carcass: Carcass, shop: Shop) -> None:
    unit = shop.unit
    if carcass.pin_depth >= carcass.thickness:
        near = typed(tidy(carcass.thickness * 2 / 3, shop), unit)
        message = (
            f"Holes {typed(carcass.pin_depth, unit)} deep come through a side "
            f"{typed(carcass.thickness, unit)} thick. Try {near}."
        )
        raise refuse("pin_depth", message, near)
    deep = carcass.depth - carcass.behind
    if (carcass.pin_inset + carcass.pin_diameter) * 2 > deep:
        near = typed(tidy(deep / 6, shop), unit)
        message = (
            f"Rows {typed(carcass.pin_inset, unit)} in from the front and from the "
            f"back meet on shelves {shop_text(deep, shop)} deep. Try {near}."
        )
        raise refuse("pin_inset", message, near)
    if carcass.pin_pitch < carcass.pin_diameter * 2:
        near = typed(carcass.pin_diameter * 3, unit)
        message = (
            f"Holes {typed(carcass.pin_pitch, unit)} apart run into each other. "
            f"Try {near}."
        )
        raise refuse("pin_pitch", message, near)
    if not any(carcass.holes):
        near = typed(tidy(carcass.opening / 4, shop), unit)
        message = (
            f"{typed(carcass.pin_clear, unit)} clear above and below leave no hole "
            f"in spaces {shop_text(carcass.opening, shop)} high. Try {near}."
        )
        raise refuse("pin_clear", message, near)


def _prove_loose(carcass: Carcass, shop: Shop) -> None:
    if carcass.loose_length < LEAST_OPENING or carcass.loose_depth < NARROWEST * 2:
        room = min(carcass.inside_width, carcass.depth - carcass.behind)
        near = typed(tidy(room / 16, shop), shop.unit)
        message = f"So much play leaves no shelf. Try {near}."
        raise refuse("loose_play", message, near)
    most = sum(
        (high - low).nm // (carcass.thickness + LEAST_OPENING).nm
        for low, high in carcass.openings
    )
    if carcass.loose <= most and _apart(carcass):
        return
    tried = range(min(carcass.loose - 1, most), 0, -1)
    near = str(next((n for n in tried if _apart(replace(carcass, loose=n))), 0))
    message = (
        f"{carcass.loose} adjustable shelves do not find room on the pins. Use {near} "
        "or fewer."
    )
    raise refuse("loose_shelves", message, near)


def _apart(carcass: Carcass) -> bool:
    """Whether every adjustable shelf stands clear of the next board."""
    taken = sorted(
        [*carcass.levels]
        + [(low, low + carcass.thickness) for low in carcass.loose_heights]
    )
    return all(taken[i][1] < taken[i + 1][0] for i in range(len(taken) - 1))
