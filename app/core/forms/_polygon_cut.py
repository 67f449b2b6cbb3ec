"""A polygon cut from a square blank on the mitre gauge, one way round.

A base, a lid, a panel. A finished side lies on the gauge's fence for every cut;
the know-how is common practice, no source.
"""

from __future__ import annotations

from app.core import geometry
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._set_ups import SQUARE, mitre
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop

UNDERNEATH = "the face that will be underneath"


def cut_polygon(
    key: str,
    name: str,
    sides: int,
    inscribed: Length,
    blank: Length,
    shop: Shop,
    *,
    tilt: Angle = SQUARE,
    face_down: str = UNDERNEATH,
    more: str = "",
    fits: str = "",
) -> SetUp:
    """Every side of ``name`` (``base``), ``inscribed`` across on the face that is down.

    ``blank`` is the square it is cut from. With the blade tilted it leans over the
    piece, so that the face that is down is the larger one. ``more`` is said after
    the cuts, ``fits`` after the measurement that proves them.
    """
    side = geometry.side_of_inscribed(inscribed, sides)
    told = _by_hand if max(side, blank) > shop.longest_crosscut else _round
    return mitre(
        key,
        told(name, sides, shop_text(side, shop), tilt) + more,
        geometry.polygon_gauge(sides),
        side,
        shop,
        face_down=face_down,
        check=f"{across(name, sides, inscribed, shop)}{fits}",
        tilt=tilt,
        carried=blank,
    )


def _by_hand(name: str, sides: int, mark: str, tilt: Angle) -> str:
    return (
        f"Draw the {name} on its blank, {sides} sides of {mark} from corner to corner, "
        "side 1 along the grain, and cut outside the lines."
    )


def _round(name: str, sides: int, mark: str, tilt: Angle) -> str:
    """Side 1 is there already; where the blade is tilted it is bevelled last."""
    leaning = tilt > SQUARE
    at = f" with the blade at {tilt}, leaning over it" if leaning else ""
    cuts = sides if leaning else sides - 1
    down = " and carry them down to the lower face" if leaning else ""
    last = (
        f"The last cut, with side {sides} on the fence, bevels side 1 and just reaches "
        "its lower edge: "
        if leaning
        else f"The last cut, side {sides}, meets the first corner of side 1: "
    )
    return (
        f"Cut the {name} to {sides} sides{at}, {cuts} cuts, one way round. Side 1 is "
        "the blank's jointed edge, along the grain: mark its two corners on it, "
        f"{mark} apart and as far from either end{down}. Lay side 1 on the gauge's "
        f"fence, its far corner at the mark {mark} from the blade, and saw side 2; "
        "what is beyond the blade falls away. Then lay side 2 on the fence, its first "
        f"corner at the mark, and saw side 3, and so on. {last}what it misses is the "
        "gauge's error added up."
    )


def across(name: str, sides: int, inscribed: Length, shop: Shop) -> str:
    """What proves it: flats where they face each other, else a side's corner."""
    if sides % 2 == 0:
        flats = shop_text(inscribed, shop)
        return f"The {name} is {flats} across every pair of flats."
    far = shop_text(geometry.flat_to_corner(inscribed, sides), shop)
    return f"From every side of the {name} to the corner across it is {far}."
