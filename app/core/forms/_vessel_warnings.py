"""What the straight vessel's maker is told before the wood is cut."""

from __future__ import annotations

from fractions import Fraction

from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.length import NM_PER_INCH, Length, Unit, mm
from app.core.moisture import width_change
from app.core.shop import Shop
from app.core.wood import NoSuchSpecies, Species, species

# From a heated room in winter to a porch in summer, percent: common practice, no
# source; both lie in the span in which the coefficients hold.
DRY, DAMP = Fraction(6), Fraction(12)


def warnings(vessel: Vessel, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    found = []
    if vessel.housed and vessel.groove_depth * 3 > vessel.wall * 2:
        found.append(
            f"The {vessel.base} takes {shop_text(vessel.groove_depth, shop)} of a wall "
            f"{shop_text(vessel.wall, shop)} thick. About half the wall is usual."
        )
    if vessel.housed:
        found += _swelling_warnings(vessel, shop)
    found += _kerf_warnings(vessel, shop)
    if vessel.base == "under":
        found.append(
            "A solid base glued all round under the walls cannot move across its grain "
            "and opens the corners. Fix it so that it can."
        )
    found += _machine_warnings(vessel, shop)
    return tuple(found + _wood_warnings(vessel))


def _kerf_warnings(vessel: Vessel, shop: Shop) -> list[str]:
    """What the blade cuts too wide in a single pass."""
    thin = {"base": vessel.base_thickness} if vessel.housed else {}
    if vessel.splines:
        thin["splines"] = vessel.spline_thickness
    return [
        f"The {name}, {shop_text(thickness, shop)} thick, would be loose: one pass of "
        f"the blade is {shop_text(vessel.kerf, shop)} wide. Use a thinner blade, or "
        "make it as thick as the kerf at least."
        for name, thickness in thin.items()
        if thickness < vessel.kerf
    ]


def _swelling_warnings(vessel: Vessel, shop: Shop) -> list[str]:
    """Whether a base made in dry air outgrows its groove in damp air.

    Room and width are both taken at the flats: towards a corner they grow alike.
    """
    try:
        wood = species(vessel.base_species)
    except NoSuchSpecies:
        return _swelling_by_thumb(vessel)
    swells = width_change(vessel.base_inscribed, wood.coefficient_tangential, DRY, DAMP)
    if swells <= vessel.clearance * 2:
        return []
    told = (
        f"Between {DRY} and {DAMP} % moisture a plain-sawn base of {wood.name} "
        f"{shop_text(vessel.base_inscribed, shop)} wide swells by "
        f"{shop_text(swells, shop)}, and there is {shop_text(vessel.clearance, shop)} "
        f"of room at each side. Leave {shop_text(_room(swells, shop), shop)} at each "
        f"side, or make the base of plywood. Source: {_source(wood)}."
    )
    return [told]


def _room(swells: Length, shop: Shop) -> Length:
    """Half of it, up to the next mark on the maker's tape."""
    inch = shop.display.unit is Unit.INCH
    mark = NM_PER_INCH // shop.display.denominator if inch else mm("0.5").nm
    return Length(-(-swells.nm // (2 * mark)) * mark)


def _source(wood: Species) -> str:
    # A few coefficients are not in the table and say where they come from.
    printed = wood.coefficient_basis.startswith("table")
    basis = "" if printed else "its coefficient "
    return f"Wood Handbook FPL-GTR-190 eq. 13-2, {basis}{wood.coefficient_basis}"


def _swelling_by_thumb(vessel: Vessel) -> list[str]:
    # Common practice, no source: for woods whose figures are not known.
    if vessel.clearance * 200 >= vessel.base_inscribed:
        return []
    told = (
        "The base has less than half a percent of its width to swell at each side. "
        "A plain-sawn board can move more than that over a year: leave more room, "
        "or make the base of plywood."
    )
    return [told]


def _machine_warnings(vessel: Vessel, shop: Shop) -> list[str]:
    found = []
    if vessel.each_panel_length > mm(2400):
        length = shop_text(vessel.each_panel_length, shop)
        found.append(
            f"The walls make a panel {length} long, longer than most boards. Cut "
            "them from more panels."
        )
    if vessel.outside_side < mm(300):
        found.append(
            "The walls are shorter than 300 mm (12 in), too short to hold by hand at "
            "most machines: clamp them to the sled or the jig."
        )
    if vessel.closing_gap > mm("0.5"):
        found.append(
            "A tenth of a degree on every bevel opens the last joint by "
            f"{shop_text(vessel.closing_gap, shop)}. Prove the bevel with a dry fit."
        )
    return found


def _wood_warnings(vessel: Vessel) -> list[str]:
    names = [name for name, _ in vessel.rows]
    names += [vessel.base_species, vessel.spline_species]
    found = []
    for name in dict.fromkeys(names):
        try:
            species(name)
        except NoSuchSpecies as unknown:
            found.append(f"{unknown} It is drawn and listed, not reckoned with.")
    return found
