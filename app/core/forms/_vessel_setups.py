"""The straight vessel's machine set-ups, in the order they are made."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from app.core import geometry
from app.core.forms import _set_ups as common
from app.core.forms._bench import shop_text
from app.core.forms._polygon_cut import cut_polygon
from app.core.forms._spline_work import spline_set_up
from app.core.forms._strip_panels import rip_panels
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_plate import Plate
from app.core.length import Length
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop


def set_ups(
    vessel: Vessel, panels: tuple[GlueUp, ...], shop: Shop
) -> tuple[SetUp, ...]:
    """Every machine setting of the build; ``panels`` are its glue-ups."""
    walls = [one for one in panels if one.key.startswith("wall_panel")]
    found = [_over(rip_panels(walls, shop), walls[0], shop)] if walls else []
    for one in panels:
        if one not in walls:
            found.append(_over(common.rip_strips(one, shop), one, shop))
    if not vessel.glued:
        found.append(_rip_walls(vessel, shop))
    if vessel.housed:
        found.append(_groove(vessel, shop))
    found += [_cut_walls(vessel, shop), _bevel(vessel, shop)]
    for plate in vessel.plates:
        found.append(_plate(plate, shop))
        if plate.key == "lid" and vessel.lid.kind == "rebate":
            found.append(_lid_rebate(vessel, shop))
    if vessel.splines:
        found.append(spline_set_up(vessel.splines, vessel.kerf, shop, "vessel"))
    return tuple(found)


def _over(made: SetUp, panel: GlueUp, shop: Shop) -> SetUp:
    """The rip, saying by how much its strips are over size."""
    strip = panel.strips[0]
    over = strip.blank.width - strip.finished_width
    if over.nm <= 0:
        return made
    told = f" They are over size by {shop_text(over, shop)}, for jointing."
    return replace(made, cuts=made.cuts + told)


def _rip_walls(vessel: Vessel, shop: Shop) -> SetUp:
    """Walls of one board each: what a panel's strips bring in width."""
    return common.rip(
        "rip-walls",
        f"Rip the wall stock {shop_text(vessel.height, shop)} wide, the height of the "
        "walls, while it is long.",
        vessel.height,
        shop,
    )


def _groove(vessel: Vessel, shop: Shop) -> SetUp:
    return common.groove(
        "groove",
        "Groove" if vessel.base == "groove" else "Rebate",
        "the inside of the walls, before they are cut apart",
        vessel.groove_up,
        vessel.base_thickness,
        vessel.groove_depth,
        vessel.kerf,
        shop,
    )


def _all_walls(vessel: Vessel) -> str:
    """``6 walls``, ``6 walls and 1 spare``."""
    spares = vessel.cut.spares
    more = f" and {spares} spare{'s' if spares > 1 else ''}" if spares else ""
    return f"{vessel.sides} walls{more}"


def _cut_walls(vessel: Vessel, shop: Shop) -> SetUp:
    side = shop_text(vessel.outside_side, shop)
    many = vessel.panel_count > 1
    if vessel.glued:
        start = f"Square one end of {'every' if many else 'the'} panel"
    else:
        start = "Square one end of the wall stock"
    if vessel.cut.over_length:
        over = shop_text(vessel.cut.over_length, shop)
        start += f" (it is over size by {over} in length)"
    apart = (
        "" if vessel.alike else " Write panel and number on every wall as it comes off."
    )
    on_sled = vessel.outside_side <= shop.longest_crosscut
    against = " against the stop" if on_sled else ""
    sled = (
        " The stop is clamped to the sled's own fence: piece and stop move together "
        "and nothing is trapped."
        if on_sled
        else ""
    )
    return common.crosscut(
        "cut-walls",
        f"{start}, then cut {_all_walls(vessel)} {side} long{against}, "
        f"numbering them in order as they come off.{apart}{sled}",
        vessel.outside_side,
        shop,
    )


def _bevel(vessel: Vessel, shop: Shop) -> SetUp:
    return common.end_bevel(
        "bevel",
        _all_walls(vessel),
        geometry.edge_bevel(vessel.sides),
        vessel.outside_side,
        shop,
        check=f"Tape the {vessel.sides} walls outside up, roll them closed dry: every "
        "joint shuts, inside and outside.",
        input="sides",
        nearest=_sides_that_work(vessel.sides, shop),
    )


def _sides_that_work(sides: int, shop: Shop) -> str:
    """The next more sides that the blade can bevel, a jig included; else fewer."""
    most = shop.most_tilt.degrees
    works = [
        n
        for n in range(3, 17)
        if Fraction(180, n) <= most or 90 - Fraction(180, n) <= most
    ]
    return str(min(works, key=lambda n: (n < sides, abs(n - sides)))) if works else ""


def _plate(plate: Plate, shop: Shop) -> SetUp:
    return cut_polygon(
        plate.key,
        plate.name.lower(),
        plate.sides,
        plate.inscribed,
        plate.blank,
        shop,
    )


def _lid_rebate(vessel: Vessel, shop: Shop) -> SetUp:
    made = common.groove(
        "lid-rebate",
        "Rebate",
        f"the underside of the lid, round all {vessel.sides} sides, those across the "
        "grain first so that the last ones take their splinters away",
        Length(0),
        vessel.lid_rebate,
        vessel.lid.lip,
        vessel.kerf,
        shop,
        face="underside",
        edge="each side in turn",
    )
    room = shop_text(vessel.lid.room, shop)
    return replace(
        made,
        check=f"What is left drops into the dry fit with {room} of room at each flat.",
    )
