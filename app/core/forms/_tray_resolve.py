"""From what was typed to a tray that can be built, or the reason it cannot."""

from __future__ import annotations

from dataclasses import replace

from app.core import allowance, geometry
from app.core.corner_splines import Room
from app.core.forms._bench import shop_text
from app.core.forms._splined import Corners, read_splines
from app.core.forms._tray import NOTHING, WIDEST_STRIP, Tray
from app.core.forms._tray_inputs import SHEETS, SOLID, Inputs
from app.core.inputs import LONGEST, refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop

# Whose over-size a design may set: see over_size.
KEYS = ("rail", "long_rail", "short_rail", "panel", "spline")
SOLID_ROOM = inches("1/16")
DEEPEST = inches("3/8")


def resolve(inputs: Inputs, shop: Shop) -> Tray:
    """Inputs to a tray that can be built, or the refusal that says why not."""
    long, short = _across(inputs, shop)
    for key, names in (
        ("species", inputs.species),
        ("panel_species", inputs.panel_species),
    ):
        if names and len(names) > 1:
            raise refuse(key, f"Name one species here, not {len(names)}.", names[0])
    solid = inputs.panel_material == SOLID
    room = inputs.panel_room
    if room is None:
        room = SOLID_ROOM if solid else NOTHING
    tray = Tray(
        sides=inputs.sides,
        long=long,
        short=short,
        rail_width=inputs.rail_width,
        rail_height=inputs.rail_height,
        species=inputs.species[0],
        moulding=inputs.moulding_length,
        kerf=inputs.kerf or shop.kerf,
        housing=inputs.panel,
        material=inputs.panel_material,
        panel_thickness=inputs.panel_thickness,
        groove_depth=inputs.groove_depth or min(inputs.rail_width / 2, DEEPEST),
        groove_up=inputs.groove_up if inputs.panel == "groove" else NOTHING,
        room=room,
        panel_species=_panel_species(inputs),
        strips=1,
        splines=None,
        step=inches("1/8") if shop.unit is Unit.INCH else mm(1),
        allowances=allowance.read(inputs.over_size, KEYS, shop),
    )
    _prove(tray, inputs, shop)
    return replace(
        tray,
        strips=_strips(tray, inputs, shop),
        splines=read_splines(inputs, _corners(tray), shop),
    )


def _panel_species(inputs: Inputs) -> str:
    if inputs.panel_material == SOLID:
        return (inputs.panel_species or inputs.species)[0]
    return next(name for name in SHEETS if name.lower() == inputs.panel_material)


def _across(inputs: Inputs, shop: Shop) -> tuple[Length, Length]:
    near = typed(inches("12") if shop.unit is Unit.INCH else mm(300), shop.unit)
    if inputs.sides != 4:
        for key in ("length", "width"):
            if getattr(inputs, key) is not None:
                raise refuse(
                    key,
                    f"A length and a width make a rectangle; a tray of {inputs.sides} "
                    "sides goes by its size across the flats. Leave this empty.",
                )
        if inputs.inscribed is None:
            message = f"How wide is a tray of {inputs.sides} sides, across the flats?"
            raise refuse("inscribed", message, near)
        return inputs.inscribed, inputs.inscribed
    if inputs.inscribed is not None:
        message = "Four sides go by length and width. Leave this empty."
        raise refuse("inscribed", message)
    for key in ("length", "width"):
        if getattr(inputs, key) is None:
            message = f"How large is the tray? Its outside {key} is missing."
            raise refuse(key, message, near)
    assert inputs.length is not None
    assert inputs.width is not None
    # Turned by a quarter it is the same tray.
    return max(inputs.length, inputs.width), min(inputs.length, inputs.width)


def _corners(tray: Tray) -> Corners:
    low = NOTHING
    taken: tuple[tuple[Length, Length], ...] = ()
    if tray.housing == "rebate":
        low = tray.panel_thickness
    elif tray.housing == "groove":
        taken = ((tray.groove_up, tray.groove_up + tray.panel_thickness),)
    room = Room(low, tray.rail_height, taken)
    return Corners(tray.sides, tray.rail_width, tray.short_side, room, tray.species)


def _strips(tray: Tray, inputs: Inputs, shop: Shop) -> int:
    if not tray.solid_panel:
        return 1
    wide = tray.panel_size[1] if tray.four else tray.panel_blank
    count = inputs.panel_strips or -(-wide.nm // WIDEST_STRIP.nm)
    if wide.nm < count * mm(10).nm:
        most = max(1, wide.nm // mm(20).nm)
        message = (
            f"{count} strips of a panel {shop_text(wide, shop)} wide are too narrow "
            f"to saw safely. Use {most} or fewer."
        )
        raise refuse("panel_strips", message, str(most))
    return count


def tidy(length: Length, shop: Shop) -> Length:
    """The nearest length below that a tape shows, at least one line of it."""
    step = inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm
    return Length(max(length.nm // step, 1) * step)


def _prove(tray: Tray, inputs: Inputs, shop: Shop) -> None:
    """Refuse what cannot be built, the rails first."""
    _prove_rails(tray, shop)
    if tray.has_panel:
        _prove_panel(tray, inputs, shop)


def _prove_rails(tray: Tray, shop: Shop) -> None:
    if tray.inside(tray.short).nm <= 0:
        # Of a tray so small that no rail would do, only a larger one helps.
        rail = tidy(tray.short / 8, shop)
        near = typed(rail, shop.unit) if rail * 4 < tray.short else ""
        message = (
            f"Rails {typed(tray.rail_width, shop.unit)} wide meet in the middle of a "
            f"tray {shop_text(tray.short, shop)} across. "
            + (f"Try {near}, or a larger tray." if near else "Make the tray larger.")
        )
        raise refuse("rail_width", message, near)
    if tray.long_side > LONGEST:
        most = Length.nearest(LONGEST.nm * 99 // 100 / geometry.tan(tray.sides))
        near = typed(tidy(most, shop), shop.unit)
        message = f"Its sides come out longer than {shop_text(LONGEST, shop)}."
        raise refuse("inscribed", message, near)
    needs = tray.uncut(tray.long_side) + shop.end_trim * 2
    if needs > tray.moulding:
        near = typed(min(tray.rough(needs), LONGEST), shop.unit)
        message = (
            f"A rail {shop_text(tray.long_side, shop)} long, over size as it is sawn "
            "and with the trim at both ends, does not come from a moulding "
            f"{typed(tray.moulding, shop.unit)} long. Take at least {near}."
        )
        # No moulding is longer than the longest thing here.
        if needs > LONGEST:
            raise refuse("length" if tray.four else "inscribed", message)
        raise refuse("moulding_length", message, near)


def _prove_panel(tray: Tray, inputs: Inputs, shop: Shop) -> None:
    depth, wide, unit = tray.groove_depth, tray.rail_width, shop.unit
    if depth >= wide:
        near = typed(min(tidy(wide / 2, shop), wide / 2), unit)
        message = (
            f"A groove {typed(depth, unit)} deep goes through a rail "
            f"{typed(wide, unit)} wide. About half the rail would do: {near}."
        )
        raise refuse("groove_depth", message, near)
    if tray.room >= depth:
        near = typed(min(tidy(depth / 8, shop), depth / 2), unit)
        message = (
            f"With {typed(tray.room, unit)} of room at each side the panel does not "
            f"reach into a groove {typed(depth, unit)} deep. Try {near}."
        )
        key = "panel_room" if inputs.panel_room is not None else "groove_depth"
        if key == "groove_depth":
            near = typed(min(tray.room * 2, wide / 2), unit)
        raise refuse(key, message, near)
    top = tray.groove_up + tray.panel_thickness
    if top >= tray.rail_height:
        raise _panel_over_the_top(tray, shop)


def _panel_over_the_top(tray: Tray, shop: Shop) -> Exception:
    high, thick, up = tray.rail_height, tray.panel_thickness, tray.groove_up
    if thick < high:
        key, room = "groove_up", high - thick
    elif up < high:
        key, room = "panel_thickness", high - up
    else:
        key, room = "rail_height", (up + thick) * 8
    near = typed(min(tidy(room / 4, shop), room / 2), shop.unit)
    message = (
        f"The panel does not fit: {typed(up, shop.unit)} up from the bottom and "
        f"{typed(thick, shop.unit)} thick, it stands out of rails only "
        f"{typed(high, shop.unit)} high. Try {near}."
    )
    return refuse(key, message, near)
