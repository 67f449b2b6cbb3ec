"""Dividers: where they stand, how long they are, and what cannot stand."""

from __future__ import annotations

from fractions import Fraction

from app.core.forms._bench import shop_text
from app.core.forms._box import NONE, Box, Dividers, Held
from app.core.forms._box_inputs import Inputs
from app.core.forms._box_refuse import near
from app.core.inputs import refuse
from app.core.length import Length
from app.core.shop import Shop


def dividers_of(box: Box, inputs: Inputs, shop: Shop) -> Dividers | None:
    """The dividers asked for, None where there are none.

    Raises WorkshopError, naming the input, for those that cannot stand.
    """
    if not inputs.dividers_across and not inputs.dividers_along:
        return None
    dado = NONE
    if inputs.dividers_held == "dados":
        dado = inputs.dado_depth or box.wall / 4
    _prove(box, inputs, dado, shop)
    reach = (dado - inputs.divider_room) * 2
    across = _held(
        "dividers_across", box.inside_length, box.inside_width + reach, box, inputs
    )
    along = _held(
        "dividers_along", box.inside_width, box.inside_length + reach, box, inputs
    )
    return Dividers(
        across=across,
        along=along,
        thickness=inputs.divider_thickness,
        height=inputs.divider_height or box.inside_height,
        dado=dado,
        room=inputs.divider_room,
        species=_species(box, inputs),
    )


def _species(box: Box, inputs: Inputs) -> str:
    names = inputs.divider_species or (box.pattern.rows[0][0],)
    if len(names) > 1:
        message = f"The dividers are of one wood, not {len(names)}."
        raise refuse("divider_species", message, names[0])
    return names[0]


def _held(key: str, room: Length, length: Length, box: Box, inputs: Inputs) -> Held:
    """Evenly spaced; a compartment is never narrower than a wall is thick."""
    count, thick = int(getattr(inputs, key)), inputs.divider_thickness
    most = (room.nm - box.wall.nm) // (thick.nm + box.wall.nm)
    if count > most:
        message = (
            f"{count} dividers leave compartments narrower than the walls are thick; "
            f"{most if most > 0 else 'none'} would fit."
        )
        raise refuse(key, message, str(max(most, 0)))
    each = Fraction(room.nm - thick.nm * count, count + 1)
    starts = tuple(Length.nearest(each * (i + 1) + thick.nm * i) for i in range(count))
    return Held(starts, length, Length.nearest(each))


def _prove(box: Box, inputs: Inputs, dado: Length, shop: Shop) -> None:
    room = inputs.divider_room
    if dado >= box.wall:
        message = (
            f"A dado {shop_text(dado, shop)} deep cuts the wall through; it is "
            f"{shop_text(box.wall, shop)} thick."
        )
        raise refuse("dado_depth", message, near(box.wall / 4, shop))
    if dado and room >= dado:
        message = (
            f"With {shop_text(room, shop)} of room at each end the dividers fall out "
            f"of dados {shop_text(dado, shop)} deep."
        )
        raise refuse("divider_room", message, near(dado / 4, shop))
    least = min(box.inside_length, box.inside_width)
    if room * 4 > least:
        message = "So much room at their ends leaves nothing of the dividers."
        raise refuse("divider_room", message, near(least / 16, shop))
    if inputs.divider_height and inputs.divider_height > box.inside_height:
        message = (
            f"Dividers {shop_text(inputs.divider_height, shop)} high do not fit in "
            f"the {shop_text(box.inside_height, shop)} above the base."
        )
        raise refuse("divider_height", message, near(box.inside_height, shop))
