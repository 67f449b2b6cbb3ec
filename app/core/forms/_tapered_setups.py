"""The tapered vessel's machine set-ups, in the order they are made."""

from __future__ import annotations

from app.core import compound
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._compound_cuts import Compound, level_edges
from app.core.forms._compound_cuts import compound as compound_cuts
from app.core.forms._polygon_cut import cut_polygon
from app.core.forms._set_ups import crosscut, rip, rip_strips
from app.core.forms._strip_panels import rip_panels
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_parts import BASE_PANEL
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop


def set_ups(
    vessel: Tapered, glue_ups: tuple[GlueUp, ...], shop: Shop
) -> tuple[SetUp, ...]:
    """Every machine setting of the build."""
    walls = [one for one in glue_ups if one.key != BASE_PANEL]
    found = [rip_panels(walls, shop)] if walls else []
    found += [rip_strips(one, shop) for one in glue_ups if one.key == BASE_PANEL]
    found += _edges(vessel, shop)
    if vessel.glued and not vessel.head_to_tail:
        found.append(_cut_walls(vessel, shop))
    found += _mitres(vessel, shop)
    if vessel.has_base:
        found.append(_base(vessel, shop))
    return tuple(found)


def walls_told(vessel: Tapered) -> str:
    """``6 walls``, the spares with them."""
    return f"{vessel.sides + vessel.spares} walls"


def _edges(vessel: Tapered, shop: Shop) -> list[SetUp]:
    """The long edges: at the slope where they end up level, else square."""
    slant = shop_text(vessel.slant, shop)
    if vessel.bevelled:
        what = "the wall stock while it is long, before blanks are cut from it,"
        if vessel.glued:
            many = vessel.ways[0].count > 1
            what = "every whole wall panel" if many else "the whole wall panel"
        check = (
            f"Both faces are {slant} wide at both ends, and a bevel gauge reads "
            f"{Angle(90 - vessel.slope.degrees)} at both sharp edges."
        )
        return [level_edges(what, vessel.slope, vessel.slant, shop, check=check)]
    if vessel.glued:
        return []
    cuts = (
        f"Rip the wall stock to {slant} while it is long, before blanks are cut from "
        "it, both edges square to the face."
    )
    return [rip("edges", cuts, vessel.slant, shop)]


def _cut_walls(vessel: Tapered, shop: Shop) -> SetUp:
    long = shop_text(vessel.face_long, shop)
    cuts = (
        f"Square one end of each panel, then cut {walls_told(vessel)} {long} long "
        "against the stop, numbering them in order as they come off."
    )
    return crosscut("cut-walls", cuts, vessel.face_long, shop, face_down="outer face")


def _mitres(vessel: Tapered, shop: Shop) -> list[SetUp]:
    dihedral = compound.dihedral(vessel.sides, vessel.slope)
    scraps = (
        f"Two scraps cut so and held together make {dihedral} inside, square to their "
        "corner"
    )
    check = (
        f"{scraps}; then all {vessel.sides} walls, taped outside up and rolled closed "
        "dry, shut at every joint, inside and outside."
    )
    cuts = Compound(
        what=walls_told(vessel),
        tilt=vessel.tilt,
        gauge=vessel.gauge,
        long=vessel.face_long,
        check=check,
        scraps=f"{scraps}.",
        rolled=vessel.head_to_tail,
    )
    return compound_cuts(cuts, shop, input="sides", nearest=_more_sides(vessel, shop))


def _more_sides(vessel: Tapered, shop: Shop) -> str:
    """The fewest sides whose tilt the blade reaches, if any do."""
    for sides in range(vessel.sides, 17):
        if compound.blade_tilt(sides, vessel.slope) <= shop.most_tilt:
            return str(sides)
    return ""


def _base(vessel: Tapered, shop: Shop) -> SetUp:
    slope = vessel.slope
    tilt = slope if slope <= shop.most_tilt else Angle.of(0)
    more = (
        f" The edges take {slope}, more than the blade tilts: saw them square and "
        "plane the bevel to a line on the other face."
    )
    fits = " Measured on the larger face." if vessel.lean.degrees else ""
    if vessel.base == "glued":
        fits += " It sits at its height in the dry-fitted walls, tight all round."
    return cut_polygon(
        "base",
        "base",
        vessel.sides,
        vessel.base_inscribed,
        vessel.base_blank,
        shop,
        tilt=tilt,
        face_down="the larger face",
        more=more if tilt != slope else "",
        fits=fits,
    )
