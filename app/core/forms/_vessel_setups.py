"""The straight vessel's machine set-ups, in the order they are made.

Never two stops: where the mitre gauge or a sled guides a through cut, the
length comes from a stop block or a mark, not from the fence.
"""

from __future__ import annotations

from app.core import geometry
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_parts import glue_ups
from app.core.forms._vessel_sizes import base_gauge
from app.core.inputs import refuse
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop

RIP = (
    "table-saw.kickback",
    "table-saw.kickback-path",
    "table-saw.hands-near-blade",
    "table-saw.contact-with-blade",
)
CROSSCUT = (
    "table-saw.fence-as-stop",
    "table-saw.crosscut-contact",
    "crosscut-sled.blade-leaves-the-sled",
    "crosscut-sled.short-piece",
)
SQUARE = Angle.of(0)
SCRAP_TEST = "Prove it on scrap first."


def set_ups(vessel: Vessel, shop: Shop) -> tuple[SetUp, ...]:
    """Every machine setting of the build."""
    found = [_rip(glue_up, shop) for glue_up in glue_ups(vessel, shop)]
    if vessel.housed:
        found += _groove(vessel, shop)
    found += [_cut_walls(vessel, shop), _bevel(vessel, shop)]
    if vessel.has_base:
        found.append(_base(vessel, shop))
    if vessel.splines:
        found.append(_splines(vessel, shop))
    return tuple(found)


def _rip(glue_up: GlueUp, shop: Shop) -> SetUp:
    strip = glue_up.strips[0].blank
    count = sum(strip.quantity for strip in glue_up.strips) * glue_up.quantity
    width = shop_text(strip.width, shop)
    return SetUp(
        key=f"rip-{glue_up.key.replace('_', '-')}",
        machine="table saw",
        cuts=f"Rip {count} strips for the {glue_up.name.lower()}, {width} wide.",
        tilt=SQUARE,
        fence=strip.width,
        face_down="a planed face, a jointed edge on the fence",
        check=f"The first strip is {width} wide at both ends.",
        cautions=(*RIP, *(("table-saw.thin-strip",) if strip.width.nm < 75e6 else ())),
    )


def _groove(vessel: Vessel, shop: Shop) -> list[SetUp]:
    depth = shop_text(vessel.groove_depth, shop)
    wide = shop_text(vessel.base_thickness, shop)
    first = vessel.groove_up
    name = "Groove" if vessel.base == "groove" else "Rebate"
    what = "walls, before they are cut apart" if len(vessel.rows) > 1 else "walls"
    # At the wall's own edge the blade stands against the fence.
    faced = "" if first else "Clamp a wooden face to the fence first. "
    face_cautions = () if first else ("table-saw.fence-face",)
    return [
        SetUp(
            key="groove",
            machine="table saw",
            cuts=f"{faced}{name} along the inside of the {what}: {depth} deep, "
            f"{wide} wide, the lower edge on the fence. Move the fence out a "
            "little less than a kerf for each next pass until the base slides in.",
            tilt=SQUARE,
            fence=first,
            face_down="inside face, lower edge on the fence",
            check=f"A test groove in scrap is {depth} deep and takes the base without "
            "force.",
            cautions=(*face_cautions, "table-saw.guard-off", *RIP[1:3]),
        )
    ]


def _cut_walls(vessel: Vessel, shop: Shop) -> SetUp:
    side = shop_text(vessel.outside_side, shop)
    return SetUp(
        key="cut-walls",
        machine="crosscut sled",
        cuts=f"Square one end of the panel, then cut {vessel.sides} walls {side} long "
        "against the stop, numbering them in order as they come off.",
        tilt=SQUARE,
        gauge=SQUARE,
        stop=vessel.outside_side,
        face_down="outside face",
        check="Stack the first and the last wall: their ends are flush.",
        cautions=CROSSCUT,
    )


def _bevel(vessel: Vessel, shop: Shop) -> SetUp:
    bevel = geometry.edge_bevel(vessel.sides)
    closes = (
        f"Tape the {vessel.sides} walls outside up, roll them closed dry: every joint "
        "shuts, inside and outside."
    )
    if bevel <= shop.most_tilt:
        return SetUp(
            key="bevel",
            machine="mitre gauge",
            cuts=f"Bevel both ends of {vessel.sides} walls at {bevel}. Creep up until "
            "the blade just reaches the outer corner: the outside keeps its length.",
            tilt=bevel,
            gauge=SQUARE,
            stop=vessel.outside_side,
            face_down="outside face",
            check=closes,
            cautions=(
                "mitre-gauge.trapped-offcut",
                *CROSSCUT[:2],
                "table-saw.narrow-bevel",
            ),
        )
    return _bevel_in_a_jig(vessel, shop, bevel, closes)


def _bevel_in_a_jig(vessel: Vessel, shop: Shop, bevel: Angle, closes: str) -> SetUp:
    rest = Angle(90 - bevel.degrees)
    if rest > shop.most_tilt:
        message = (
            f"{vessel.sides} sides need a bevel of {bevel}. The blade tilts to "
            f"{shop.most_tilt}, and in a jig it would still have to tilt {rest}. "
            "More sides need less."
        )
        fits = [n for n in range(vessel.sides, 17) if n * shop.most_tilt.degrees >= 180]
        raise refuse("sides", message, str(fits[0]) if fits else "")
    return SetUp(
        key="bevel",
        machine="table saw",
        cuts=f"Bevel both ends of {vessel.sides} walls at {bevel}, which is more than "
        f"the blade tilts. Build a tall jig that slides along the fence and clamps the "
        f"wall upright on its end, and tilt the blade to {rest}, the rest of a right "
        "angle. Creep up until the blade just reaches the outer corner.",
        tilt=rest,
        face_down="the end being cut, clamped upright in the jig, outside face to "
        "the jig",
        check=closes,
        cautions=(*RIP[1:], "table-saw.cradle", "table-saw.blade-tilts-to-fence"),
    )


def _base(vessel: Vessel, shop: Shop) -> SetUp:
    gauge, sides = base_gauge(vessel.sides), vessel.sides
    mark = shop_text(vessel.base_side, shop)
    flats = shop_text(vessel.base_inscribed, shop)
    cuts = (
        f"Cut the base to {sides} sides, each time with the side just cut on the "
        f"gauge's fence and its corner at the mark {mark} from the blade."
    )
    if gauge > shop.most_gauge:
        rest = Angle(90 - gauge.degrees)
        cuts += (
            f" The gauge turns only to {shop.most_gauge} and {gauge} is needed: screw "
            f"a fence to a sled at {rest} to the blade's line, the rest of a right "
            "angle, and use that."
        )
    return SetUp(
        key="base",
        machine="mitre gauge" if gauge <= shop.most_gauge else "crosscut sled",
        cuts=cuts,
        tilt=SQUARE,
        gauge=gauge,
        stop=vessel.base_side,
        face_down="the face that will be underneath",
        check=f"The base is {flats} across "
        + ("every pair of flats." if sides % 2 == 0 else "twice from middle to flat."),
        cautions=("mitre-gauge.trapped-offcut", *CROSSCUT[:2]),
    )


def _splines(vessel: Vessel, shop: Shop) -> SetUp:
    places = ", ".join(shop_text(h, shop) for h in vessel.spline_heights)
    depth = shop_text(vessel.spline_depth, shop)
    return SetUp(
        key="splines",
        machine="table saw",
        cuts=f"Saw {vessel.splines} slots across each corner, {depth} deep from the "
        "corner, the vessel lying corner down in a cradle that slides along the fence. "
        f"Their middles stand {places} up from the bottom.",
        tilt=SQUARE,
        face_down="a corner, in the cradle, the bottom towards the fence",
        check=f"On a scrap corner the slot is {depth} deep at the corner and a spline "
        f"{shop_text(vessel.spline_thickness, shop)} thick slides in by hand.",
        cautions=("table-saw.spline-slot", "table-saw.cradle", *RIP[1:3]),
    )
