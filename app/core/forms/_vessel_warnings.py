"""What the straight vessel's maker is told before the wood is cut."""

from __future__ import annotations

from fractions import Fraction

from app.core import closing
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._spline_steps import spline_warnings
from app.core.forms._vessel import Vessel
from app.core.length import mm
from app.core.shop import Shop
from app.core.wood import NoSuchSpecies, species


def warnings(vessel: Vessel, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    found = []
    if vessel.housed and vessel.groove_depth * 3 > vessel.wall * 2:
        found.append(
            f"The {vessel.base} takes {shop_text(vessel.groove_depth, shop)} of a wall "
            f"{shop_text(vessel.wall, shop)} thick. About half the wall is usual."
        )
    if vessel.housed:
        found += _kerf_warnings(vessel, shop)
    if vessel.base == "under":
        found.append(
            "A solid base glued all round under the walls cannot move across its grain "
            "and opens the corners. Fix it so that it can."
        )
    found += spline_warnings(vessel.splines, vessel.kerf, shop)
    found += _machine_warnings(vessel, shop)
    return tuple(found + _wood_warnings(vessel))


def _kerf_warnings(vessel: Vessel, shop: Shop) -> list[str]:
    """What the blade cuts too wide in a single pass."""
    if vessel.base_thickness >= vessel.kerf:
        return []
    return [
        (
            f"The base, {shop_text(vessel.base_thickness, shop)} thick, would be "
            f"loose: one pass of the blade is {shop_text(vessel.kerf, shop)} wide. Use "
            "a thinner blade, or make it as thick as the kerf at least."
        )
    ]


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
    tenth = Angle(Fraction(1, 10))
    gap = closing.gap(vessel.outside_side, vessel.sides, tenth)
    if gap > mm("0.5"):
        found.append(
            "A tenth of a degree on every bevel opens the last joint by "
            f"{closing.fine(gap, shop.display)}. Prove the bevel with a dry fit."
        )
    return found


def _wood_warnings(vessel: Vessel) -> list[str]:
    names = [*vessel.pattern.species, *(plate.species for plate in vessel.plates)]
    names += vessel.splines.species if vessel.splines else ()
    found = []
    for name in dict.fromkeys(names):
        try:
            species(name)
        except NoSuchSpecies as unknown:
            found.append(f"{unknown} It is drawn and listed, not reckoned with.")
    return found
