"""Splines across mitred corners, for any form whose mitres close on themselves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from app.core import corner_splines as core
from app.core.corner_splines import Room, Splines
from app.core.forms._bench import shop_text
from app.core.inputs import Ask, ask, refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop

SPLINE_GROUP = (
    "splines_per_corner",
    "spline_thickness",
    "spline_depth_share",
    "spline_cheek",
    "spline_places",
    "spline_species",
)
HALF = Fraction(1, 2)
LEAST_SHARE, MOST_SHARE = Fraction(1, 20), Fraction(9, 10)


@dataclass(frozen=True, kw_only=True)
class Splined:
    """What splines across the corners ask for."""

    splines_per_corner: int = ask(
        "Splines at each corner",
        Ask.COUNT,
        default=0,
        least=0,
        most=20,
        help="Slips of wood let into slots across the mitre, to strengthen it. "
        "0: none.",
    )
    spline_thickness: Length = ask(
        "Spline thickness",
        Ask.LENGTH,
        default=inches("1/8"),
        most=mm(25),
        help="The slot is as wide: best what one pass of the blade cuts.",
    )
    spline_depth_share: Fraction | None = ask(
        "Spline depth, share of the corner",
        Ask.RATIO,
        default=None,
        least=LEAST_SHARE,
        most=MOST_SHARE,
        help="Of the wood at the corner, measured towards the middle. Half, where this "
        "and the next are empty.",
    )
    spline_cheek: Length | None = ask(
        "Wood left behind the splines",
        Ask.LENGTH,
        default=None,
        help="From the slot's floor to the inner corner, instead of a share.",
    )
    spline_places: str = ask(
        "Splines stand",
        Ask.CHOICE,
        default="evenly",
        choices=("evenly", "strips", "joints"),
        help="Evenly spaced, in the middle of strips, or on the joints between them.",
    )
    spline_species: tuple[str, ...] | None = ask(
        "Wood of the splines",
        Ask.SPECIES,
        default=None,
        help="The last of the rows' where left empty. Several repeat from the lowest "
        "spline up.",
    )


@dataclass(frozen=True, slots=True)
class Corners:
    """What the form knows of its corners.

    ``side`` is the shortest outer side, ``widths`` the strips from the bottom up, empty
    where there are none, and ``species`` the splines' where none is named.
    """

    sides: int
    wall: Length
    side: Length
    room: Room
    species: str
    widths: tuple[Length, ...] = ()


def read_splines(inputs: Splined, corners: Corners, shop: Shop) -> Splines | None:
    """The splines asked for; None where there are none.

    Raises WorkshopError, naming the input, for splines that cannot be let in.
    """
    if inputs.spline_depth_share is not None and inputs.spline_cheek is not None:
        raise refuse(
            "spline_cheek",
            "The depth of the splines is given twice, as a share of the corner and as "
            "the wood left behind them. Keep one of the two.",
        )
    if not inputs.splines_per_corner:
        return None
    names = inputs.spline_species or (corners.species,)
    depth = _depth(inputs, corners, shop)
    _prove_depth(inputs, corners, depth, shop)
    heights = _heights(inputs, corners, shop)
    return Splines(
        corners.sides,
        corners.wall,
        depth,
        inputs.spline_thickness,
        heights,
        tuple(names[i % len(names)] for i in range(len(heights))),
    )


def understood_splines(inputs: Splined, splines: Splines | None) -> dict[str, str]:
    """The inputs as taken: what the empty ones came to, the other depth empty."""
    found = {}
    share = inputs.spline_depth_share
    if inputs.spline_cheek is None:
        found["spline_depth_share"] = _share_typed(HALF if share is None else share)
    elif share is None:
        found["spline_depth_share"] = ""
    if splines and not inputs.spline_species:
        found["spline_species"] = splines.species[0]
    return found


def _share_typed(share: Fraction) -> str:
    """As a decimal where that is the same share, ``0.5``, else as it is, ``1/3``."""
    decimal = f"{float(share):g}"
    return decimal if Fraction(decimal) == share else str(share)


def _depth(inputs: Splined, corners: Corners, shop: Shop) -> Length:
    whole = core.corner_thickness(corners.wall, corners.sides)
    if inputs.spline_cheek is None:
        share = inputs.spline_depth_share
        return whole * (HALF if share is None else share)
    if inputs.spline_cheek >= whole:
        message = (
            f"Leaving {typed(inputs.spline_cheek, shop.unit)} behind the splines "
            f"leaves them no depth: the wood at the corner is {shop_text(whole, shop)}."
        )
        raise refuse("spline_cheek", message, typed(whole / 2, shop.unit))
    return whole - inputs.spline_cheek


def _prove_depth(inputs: Splined, corners: Corners, depth: Length, shop: Shop) -> None:
    """Refuse splines that run into those of the next corner."""
    shows = core.visible(depth, corners.sides)
    if shows * 2 < corners.side:
        return
    start = (
        f"Splines that show {shop_text(shows, shop)} on each face run into those "
        "of the next corner."
    )
    # A tenth short of where two of them would meet.
    room = depth * (Fraction(corners.side.nm, 2 * shows.nm) * Fraction(9, 10))
    whole = core.corner_thickness(corners.wall, corners.sides)
    share = int(Fraction(room.nm, whole.nm) * 100) / Fraction(100)
    if share < LEAST_SHARE:
        message = f"{start} The sides are too narrow for splines."
        raise refuse("splines_per_corner", message, "0")
    if inputs.spline_cheek is not None:
        near = typed(_marked(whole - room, shop), shop.unit)
        raise refuse("spline_cheek", f"{start} Leave more wood behind them.", near)
    message = f"{start} Take a smaller share of the corner."
    raise refuse("spline_depth_share", message, f"{float(share):g}")


def _marked(length: Length, shop: Shop) -> Length:
    """Up to the next mark of the tape."""
    step = inches("1/64").nm if shop.unit is Unit.INCH else mm("0.1").nm
    return Length(-(-length.nm // step) * step)


def _heights(inputs: Splined, corners: Corners, shop: Shop) -> tuple[Length, ...]:
    count, thick, room = (
        inputs.splines_per_corner,
        inputs.spline_thickness,
        corners.room,
    )
    if inputs.spline_places == "evenly":
        return _evenly(inputs, corners, shop)
    if len(corners.widths) < 2:
        message = "There are no strips here for the splines to stand by."
        raise refuse("spline_places", message, "evenly")
    middles = inputs.spline_places == "strips"
    places = (core.strip_middles if middles else core.strip_joints)(corners.widths)
    found = core.picked(count, places, room, thick)
    if len(found) == count and core.apart(found, thick):
        return found
    most = _most(places, room, thick)
    where = "strips" if middles else "joints"
    message = (
        f"{count} splines {typed(thick, shop.unit)} thick do not fit on the {where} "
        f"that are clear of the base and the edges; {most} would."
    )
    if not most:
        raise refuse("spline_places", message, "evenly")
    raise refuse("splines_per_corner", message, str(most))


def _most(places: Sequence[Length], room: Room, thick: Length) -> int:
    """The most splines that such places take."""
    return max(
        (
            count
            for count in range(1, len(places) + 1)
            if len(found := core.picked(count, places, room, thick)) == count
            and core.apart(found, thick)
        ),
        default=0,
    )


def _evenly(inputs: Splined, corners: Corners, shop: Shop) -> tuple[Length, ...]:
    thick, count = inputs.spline_thickness, inputs.splines_per_corner
    found = core.evenly(count, corners.room)
    if _fits(found, corners.room, thick):
        return found
    most = next(
        n
        for n in range(count - 1, -1, -1)
        if not n or _fits(core.evenly(n, corners.room), corners.room, thick)
    )
    told = "A spline" if count == 1 else f"{count} splines"
    message = (
        f"{told} {typed(thick, shop.unit)} thick leave{'s' * (count == 1)} too little "
        f"wood in a corner {shop_text(corners.room.high, shop)} high."
    )
    raise refuse("splines_per_corner", message, str(most))


def _fits(heights: Sequence[Length], room: Room, thick: Length) -> bool:
    return (
        bool(heights)
        and core.apart(heights, thick)
        and all(room.holds(height, thick) for height in heights)
    )
